/**
 * The texts that the server knows: what the editor has open lies over what was read from the
 * workspace. Files are read when a `use` asks for them, and forgotten when the editor says that
 * they changed.
 */
import { TextDocument } from "vscode-languageserver-textdocument";
import { isBelow, isWordsFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FileView } from "../../../shared/model/files.ts";
import { MOST_BYTES } from "../../../shared/model/text-answer.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { makeOwnWords, type OwnWordsFiles } from "./own-words.ts";
import { pathOf, uriOf } from "./paths.ts";

/** What the host can reach; paths as `paths.ts` makes them. Neither call ever rejects. */
export interface ServerFiles {
  /** What a path holds, and the one path by which its real file is known. */
  look(path: string): Promise<{ readonly answer: FileAnswer; readonly realPath: string }>;
  /** The paths of every script below these folders, and of every file of a pilot's own words. */
  list(folders: readonly string[]): Promise<readonly string[]>;
}

/** A change of a text, as the protocol tells it. */
export type Change = Parameters<typeof TextDocument.update>[1][number];

/** All texts, open or not. Addresses and paths are those of `paths.ts`; none of these calls throws. */
export interface Documents {
  open(uri: string, languageId: string, version: number, text: string): void;
  change(uri: string, changes: Change[], version: number): void;
  close(uri: string): void;
  /** Files changed behind the editor's back: they are read anew when next asked for. */
  forget(uris: readonly string[]): void;
  setFolders(uris: readonly string[]): void;
  /** The pilot's own words, read anew where their files changed. */
  readonly words: OwnWordsFiles;
  /** The document's own path, once all that it uses has been read. */
  ready(uri: string): Promise<string>;
  /** As `ready`, with every other script of the workspace as well. */
  readyWithAll(uri: string): Promise<string>;
  /** All files at this moment. */
  now(): Workspace;
  version(uri: string): number;
  /** True where a document that is open is a craft, which needs no file besides those it uses. */
  isCraft(uri: string): boolean;
  openUris(): readonly string[];
  /** The address by which the editor knows a path. */
  uriOf(path: string): string;
  /** The largest text that is read, in characters, is passed: the text is not looked at. */
  isTooLarge(uri: string): boolean;
}

const TOO_LARGE: FileAnswer = {
  kind: "unreadable",
  why: "it is larger than 4 MB, and a script is read up to 4 MB: is it a script at all?",
};

const NO_SCRIPT: FileAnswer = { kind: "unreadable", why: "it holds words of your own, and no script" };

interface Open {
  readonly document: TextDocument;
  readonly answer: FileAnswer;
}

/** No documents yet; `files` is what the host can reach besides those that will be opened. */
export function makeDocuments(files: ServerFiles): Documents {
  const opened = new Map<string, Open>();
  const settling = new Map<string, Promise<void>>();
  const answers = new Map<string, FileAnswer>();
  const realPaths = new Map<string, string>();
  const uris = new Map<string, string>();
  const looking = new Map<string, Promise<void>>();
  let folders: readonly string[] = [];
  let foldersKnown: Promise<unknown> = Promise.resolve();
  let listed: Promise<readonly string[]> | null = null;
  let known: readonly string[] = [];
  let present: Workspace | null = null;
  const words = makeOwnWords({
    list: () => foldersKnown.then(() => files.list(folders)),
    look: (path) => files.look(path),
    changed: () => {
      present = null;
    },
  });

  const realOf = (path: string) => realPaths.get(path) ?? path;
  const own = (uri: string) => realOf(pathOf(uri));
  const isOutside = (path: string) => folders.length > 0 && !folders.some((folder) => isBelow(path, folder));

  const view = (): FileView => {
    const scripts = [...new Set([...known, ...opened.keys()])].sort();
    return {
      read: (path) => (isWordsFile(path) ? NO_SCRIPT : (opened.get(path)?.answer ?? answers.get(path))),
      list: () => scripts,
      realPath: realOf,
    };
  };
  const now = (): Workspace => {
    present ??= words.core().at(view());
    return present;
  };
  const changed = () => {
    present = null;
  };
  const hold = (path: string, document: TextDocument) => {
    const text = document.getText();
    // Bytes that are no UTF-8 reach the editor as this mark; only the file itself tells them from one that was typed.
    const onDisk = answers.get(path);
    const validUtf8 = !(onDisk?.kind === "text" && !onDisk.validUtf8 && text.includes("\uFFFD"));
    opened.set(path, { document, answer: text.length > MOST_BYTES ? TOO_LARGE : { kind: "text", text, validUtf8 } });
    changed();
  };

  const look = (path: string): Promise<void> => {
    let under = looking.get(path);
    if (!under) {
      under = foldersKnown
        .then(() => files.look(path))
        .then(({ answer, realPath }) => {
          looking.delete(path);
          realPaths.set(path, realPath);
          answers.set(realPath, isOutside(realPath) ? { kind: "outside" } : answer);
          if (realPath !== path) answers.set(path, answers.get(realPath)!);
          changed();
        });
      looking.set(path, under);
    }
    return under;
  };

  /** Files that the closures of some scripts name and nobody has looked at. */
  const unread = (from: readonly string[]): string[] => {
    const workspace = now();
    const wanted = new Set<string>();
    const seen = new Set<string>();
    const visit = (path: string) => {
      if (seen.has(path)) return;
      seen.add(path);
      const script = workspace.script(path);
      for (const use of script?.uses ?? []) {
        const target = workspace.target(script!, use);
        if (target.kind === "unread") wanted.add(target.file);
        else if (target.kind === "script") visit(target.script.file);
      }
    };
    for (const path of from) {
      if (!opened.has(path) && !answers.has(path)) wanted.add(path);
      visit(path);
    }
    return [...wanted];
  };
  const load = async (paths: () => readonly string[]): Promise<void> => {
    for (let wanted = unread(paths()); wanted.length > 0; wanted = unread(paths())) await Promise.all(wanted.map(look));
  };

  /** An opened document is kept under its real path, which has to be asked for. */
  const settle = async (uri: string): Promise<void> => {
    const path = pathOf(uri);
    await look(path);
    const open = opened.get(path);
    if (!open) return;
    const real = realOf(path);
    uris.set(real, uri);
    if (real !== path) opened.delete(path);
    hold(real, open.document);
  };
  const ready = async (uri: string): Promise<string> => {
    await words.ready();
    await settling.get(uri);
    await load(() => [own(uri)]);
    return own(uri);
  };

  return {
    open(uri, languageId, version, text) {
      const path = pathOf(uri);
      uris.set(path, uri);
      if (words.open(path, TextDocument.create(uri, languageId, version, text))) return;
      hold(path, TextDocument.create(uri, languageId, version, text));
      settling.set(
        uri,
        settle(uri).finally(() => settling.delete(uri)),
      );
    },
    change(uri, changes, version) {
      if (words.change(pathOf(uri), changes, version)) return;
      const path = opened.has(own(uri)) ? own(uri) : pathOf(uri);
      const open = opened.get(path);
      if (open) hold(path, TextDocument.update(open.document, changes, version));
    },
    close(uri) {
      if (words.close(pathOf(uri))) return;
      opened.delete(own(uri));
      opened.delete(pathOf(uri));
      answers.delete(own(uri));
      changed();
    },
    forget(changedUris) {
      words.forget(changedUris.map(pathOf));
      for (const uri of changedUris) {
        const path = pathOf(uri);
        answers.delete(own(uri));
        answers.delete(path);
        if (!opened.has(own(uri))) realPaths.delete(path);
      }
      listed = null;
      changed();
    },
    setFolders(folderUris) {
      const said = folderUris.map((uri) => pathOf(uri).replace(/(?<=.)\/$/, ""));
      folders = said;
      // A workspace may be opened through a link, while its files are known by their real paths.
      foldersKnown = Promise.all(said.map((folder) => files.look(folder))).then((found) => {
        folders = found.map(({ realPath }) => realPath);
      });
      answers.clear();
      listed = null;
      words.forgetAll();
      changed();
    },
    words,
    ready,
    async readyWithAll(uri) {
      listed ??= foldersKnown
        .then(() => files.list(folders))
        .then((paths) => paths.filter((path) => !isWordsFile(path)));
      const all = await listed;
      if (all !== known) {
        known = all;
        changed();
      }
      await ready(uri);
      await load(() => known);
      return own(uri);
    },
    now,
    version: (uri) => opened.get(own(uri))?.document.version ?? 0,
    isCraft: (uri) => now().script(own(uri))?.kind === "craft",
    openUris: () => [...opened.values()].map(({ document }) => document.uri),
    uriOf: (path) => uris.get(path) ?? uriOf(path),
    isTooLarge: (uri) => opened.get(own(uri))?.answer === TOO_LARGE,
  };
}
