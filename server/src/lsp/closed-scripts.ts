/**
 * The findings of all scripts that are not open. They are worked out one after another in the background, those
 * first that changed, and again only where something changed that they rest on.
 */
import type { Diagnostic } from "vscode-languageserver-types";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { makeContentKeys } from "./content-keys.ts";
import { debounce } from "./debounce.ts";
import { diagnosticsIn, idOf } from "./diagnostics.ts";
import type { Documents } from "./documents.ts";
import { passingCore } from "./passing-core.ts";
import { inSlicesAtOnce } from "./slices.ts";
import type { PageOfRule } from "./to-lsp.ts";
import type { Turns } from "./turns.ts";

/** The findings of one script; `id` is the same for the same findings, also in another session. */
export interface Judged {
  readonly path: FilePath;
  readonly id: string;
  readonly diagnostics: readonly Diagnostic[];
}

/** Whoever is told what there is. */
export interface Listener {
  /** A script is judged; told for each once in every round, whether anything has changed or not. */
  judged(script: Judged): void;
  /** A script is gone, is open now, or is not to be shown any more. */
  gone(path: FilePath, why: "gone" | "open"): void;
  /** So many of those of this round are left to be judged. Zero: the round is over. */
  left(count: number): void;
  /** Others have had their turn: what was judged may be passed on. */
  turn(): void;
}

interface Parts {
  readonly documents: Documents;
  readonly turns: Turns;
  readonly pageOfRule: PageOfRule;
  /** Whether the user wants them. */
  readonly isWanted: () => boolean;
  /** There are more scripts than so many: the others are not looked at. Called once. */
  readonly tooMany: (most: number) => void;
  /** Why a round ended before its time. */
  readonly failed: (error: unknown) => void;
}

export interface ClosedScripts {
  /** From now on this one is told, of everything; null: nobody is, and nothing is worked out. */
  listen(listener: Listener | null): void;
  /** This one is open now: were it closed again at once, whoever listens would have to be told of it once more. */
  opened(path: FilePath): void;
  /** Something has changed: what rests on it is worked out anew. */
  changed(): void;
  /** Something was typed: the same, once there is a pause. */
  typed(): void;
  /** What was last found in a script; null where it has not been looked at, undefined where nobody is told of any. */
  found(path: FilePath): readonly Diagnostic[] | null | undefined;
}

/** Between two keys less time passes. */
const TYPING_PAUSE_MS = 300;
/** An editor tells of what belongs together in several messages, one after another. */
const SETTLING_MS = 20;

/** More scripts than anybody keeps; those beyond have findings once they are opened. */
const MOST_SCRIPTS = 4000;
/** So many are understood before what was remembered of them is let go: it is memory for nothing. */
const MOST_REMEMBERED = 150;
/** So many are read at once: where the editor reads for the server, each is a message there and back. */
const READ_AHEAD = 16;

/** Nobody listens yet. */
export function watchClosedScripts({ documents, turns, pageOfRule, isWanted, tooMany, failed }: Parts): ClosedScripts {
  /** What was found, and by which content. */
  const known = new Map<FilePath, { readonly key: string; readonly judged: Judged }>();
  /** Whom the listener has been told of. */
  const told = new Set<FilePath>();
  let listener: Listener | null = null;
  /** Counts up with every change, so that a round notices that it has to begin anew. */
  let changes = 0;
  let isRunning = false;
  let isDue = false;

  const core = passingCore(MOST_REMEMBERED);
  const workspace = (): Workspace => {
    const { catalogue, view, levels } = documents.now();
    return core.by(catalogue).at(view, levels);
  };
  const keys = makeContentKeys(documents, workspace);
  const keyOf = async (path: FilePath): Promise<string> => {
    const ofContent = await keys.keyOf(path);
    const { catalogue, levels } = documents.now();
    return `${core.numberOf(catalogue)} ${JSON.stringify([...levels])}\n${ofContent}`;
  };

  const judge = async (path: FilePath): Promise<void> => {
    const key = await keyOf(path);
    if (known.get(path)?.key === key) return;
    const stepsOf = () => diagnosticsIn(workspace(), path, documents.uriOf, pageOfRule);
    let done: Awaited<ReturnType<typeof inSlicesAtOnce<Diagnostic[] | null>>>;
    do done = await inSlicesAtOnce(documents, stepsOf);
    while (!done && (await keyOf(path)) === key);
    // What changed meanwhile begins another round: what was found may be of before.
    if (!done || (await keyOf(path)) !== key) return;
    const diagnostics = done.made;
    core.used();
    if (diagnostics === null) {
      // A link that leads nowhere by now is listed, and is no script.
      known.delete(path);
      if (told.has(path)) untell(path);
    } else known.set(path, { key, judged: { path, id: idOf(diagnostics), diagnostics } });
  };
  const tell = (path: FilePath) => {
    const found = known.get(path);
    // Gone, or opened, while it was judged: that change begins another round.
    if (!found || documents.isOpen(path)) return;
    told.add(path);
    listener?.judged(found.judged);
  };
  const untell = (path: FilePath) => {
    told.delete(path);
    const why = documents.isOpen(path) ? "open" : "gone";
    if (why === "gone") {
      known.delete(path);
      keys.forget(path);
    }
    listener?.gone(path, why);
  };
  const read = async (path: FilePath) => {
    if (!documents.isRead(path)) await documents.read(path);
  };
  let isCut = false;
  const closedNow = async (): Promise<FilePath[]> => {
    const closed = (await documents.listed()).filter((path) => !documents.isOpen(path));
    if (closed.length > MOST_SCRIPTS && !isCut) tooMany(MOST_SCRIPTS);
    isCut = closed.length > MOST_SCRIPTS;
    return closed.slice(0, MOST_SCRIPTS);
  };

  /** One round over all scripts; it ends early where something changed meanwhile, since another then begins. */
  const round = async (): Promise<void> => {
    const begun = changes;
    const closed = isWanted() ? await closedNow() : [];
    const isClosed = new Set(closed);
    for (const path of told) if (!isClosed.has(path)) untell(path);
    const changed: FilePath[] = [];
    const fresh: FilePath[] = [];
    for (const path of closed) {
      const before = known.get(path);
      if (!before) fresh.push(path);
      else if (before.key !== (await keyOf(path))) changed.push(path);
      else tell(path);
      if (await turns.giveWay()) listener?.turn();
      if (begun !== changes) return;
    }
    const due = [...changed, ...fresh];
    for (const [i, path] of due.entries()) {
      if (i % READ_AHEAD === 0) {
        listener?.left(due.length - i);
        await Promise.all(due.slice(i, i + READ_AHEAD).map(read));
      }
      await judge(path);
      tell(path);
      if (await turns.giveWay()) listener?.turn();
      if (begun !== changes) return;
    }
    listener?.left(0);
  };
  const run = async (): Promise<void> => {
    isDue = true;
    if (isRunning) return;
    isRunning = true;
    try {
      while (isDue && listener !== null) {
        isDue = false;
        await round();
      }
    } catch (error) {
      failed(error);
    } finally {
      isRunning = false;
      core.letGo();
    }
  };
  const begin = () => {
    changes++;
    void run();
  };
  // Two: whoever types without a pause does not keep back what has nothing to do with it.
  const soon = debounce(begin, SETTLING_MS);
  const afterTyping = debounce(begin, TYPING_PAUSE_MS);

  return {
    listen(to) {
      listener = to;
      told.clear();
      soon();
    },
    opened(path) {
      if (told.delete(path)) listener?.gone(path, "open");
    },
    changed: () => soon(),
    typed() {
      turns.typed();
      afterTyping();
    },
    found(path) {
      if (listener === null || !isWanted()) return undefined;
      return known.get(path)?.judged.diagnostics ?? null;
    },
  };
}
