/** By what content the findings of a script come about: a key that is equal only while none of it has changed. */
import type { FileAnswer, FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Documents } from "./documents.ts";
import { filesNamedBy } from "./read-used.ts";

/** What a file held when it was last looked at. */
interface Content {
  readonly answer: FileAnswer;
  /** Another number for another content. */
  readonly id: number;
  /** What it names, once somebody had to know. */
  reach: Reach | null;
}

interface Reach {
  /** The files that it uses, by the paths that its lines come to. */
  readonly uses: readonly FilePath[];
  /** Its findings rest on every script of the workspace: what a layer accepts may be of use on any craft. */
  readonly isWide: boolean;
}

export interface ContentKeys {
  /** Reads what is missing. The key names no settings and no catalogue. */
  keyOf(path: FilePath): Promise<string>;
  /** What is known of a file that is gone. */
  forget(path: FilePath): void;
}

/** `workspace` understands the files as they are at the moment; it is asked only for a text that was not seen before. */
export function makeContentKeys(documents: Documents, workspace: () => Workspace): ContentKeys {
  const contents = new Map<FilePath, Content>();
  let lastId = 0;
  const contentOf = (path: FilePath): Content => {
    const answer = documents.now().view.read(path) ?? { kind: "missing" };
    const known = contents.get(path);
    if (known && isSame(known.answer, answer)) return known;
    const content: Content = { answer, id: ++lastId, reach: null };
    contents.set(path, content);
    return content;
  };
  const reachOf = (path: FilePath, content: Content): Reach => {
    content.reach ??= reachIn(path, workspace());
    return content.reach;
  };
  /** One number for the list of scripts and all that they hold. */
  const all = { view: documents.now().view, key: "", id: 0 };
  const unread = async (): Promise<readonly FilePath[]> => {
    await documents.listed();
    return documents
      .now()
      .view.list()
      .filter((path) => !documents.isRead(path));
  };
  const idOfAll = async (): Promise<number> => {
    // By the time that some are read the list may be another one: what is numbered is the list that belongs to the view.
    for (let left = await unread(); left.length > 0; left = await unread()) await Promise.all(left.map(documents.read));
    const { view } = documents.now();
    if (all.id === 0 || all.view !== view) {
      const list = view.list();
      const key = list.map((path) => `${path} ${contentOf(path).id} ${view.listsUsersOf(path)}`).join("\n");
      if (key !== all.key) Object.assign(all, { key, id: ++lastId });
      all.view = view;
    }
    return all.id;
  };

  return {
    async keyOf(from) {
      const parts: string[] = [];
      let isWide = false;
      // What those send that are flown at the same time counts as well.
      const due = new Set([from, ...documents.togetherWith(from)]);
      // A set is iterated in insertion order, including elements added meanwhile.
      for (const asked of due) {
        if (!documents.isRead(asked)) await documents.read(asked);
        const path = documents.now().view.realPath(asked);
        const content = contentOf(path);
        parts.push(`${path} ${content.id}`);
        // A file that is missing is looked for by its name among all.
        if (content.answer.kind !== "text") isWide = true;
        else {
          const reach = reachOf(path, content);
          for (const used of reach.uses) due.add(used);
          if (path === from) isWide ||= reach.isWide;
        }
      }
      parts.push(`past ${documents.pastOf(from)}`, `habits ${documents.habitsOf(from)}`);
      if (isWide) parts.push(`all ${await idOfAll()}`);
      return parts.join("\n");
    },
    forget: (path) => void contents.delete(path),
  };
}

function reachIn(path: FilePath, workspace: Workspace): Reach {
  const script = workspace.script(path);
  if (!script) return { uses: [], isWide: false };
  return { uses: filesNamedBy(script), isWide: script.kind !== "craft" && script.allowances.length > 0 };
}

function isSame(a: FileAnswer, b: FileAnswer): boolean {
  if (a === b) return true;
  if (a.kind === "text") return b.kind === "text" && a.text === b.text && a.validUtf8 === b.validUtf8;
  return a.kind === b.kind && (a.kind !== "unreadable" || b.kind !== "unreadable" || a.why === b.why);
}
