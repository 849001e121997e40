/** The scripts of the workspace, as the server last told them: for the tree, the badges and the empty panel. */
import { type Disposable, type Event, EventEmitter, languages } from "vscode";
import { TREE_REQUEST, type TreeParams, type WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";
import type { Ask } from "./ask.ts";
import { coalesce } from "./coalesce.ts";

export interface WorkspaceScripts {
  /** What was last told; null before the first answer. Whoever looks is told of every change from then on. */
  look(): WorkspaceTree | null;
  /** As `look`, once there is an answer; null where the server gives none. */
  list(): Promise<WorkspaceTree | null>;
  readonly onDidChange: Event<void>;
  /** Something changed in a script, or in the folders. */
  changed(): void;
  /** Adds somebody who shows findings while this is true: only then are they counted. */
  countWhile(isShown: () => boolean): void;
  readonly disposables: readonly Disposable[];
}

/** Between two keys less time passes; nobody reads a tree while typing. */
const PAUSE_MS = 400;

/** Nothing is asked for before somebody looks. `log` takes failures. */
export function workspaceScripts(ask: Ask, log: (message: string) => void): WorkspaceScripts {
  const emitter = new EventEmitter<void>();
  const shows: (() => boolean)[] = [];
  const needsFindings = () => shows.some((isShown) => isShown());
  let tree: WorkspaceTree | null = null;
  /** As text: a tree that is drawn anew folds what a key unfolds meanwhile, so it is not where nothing changed. */
  let toldText = "";
  let isLookedAt = false;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const answered: (() => void)[] = [];

  const request = async (findings: boolean) => {
    const params: TreeParams = { findings };
    const told = await ask<WorkspaceTree | null>(TREE_REQUEST, params);
    const text = JSON.stringify(told);
    if (!told || text === toldText) return;
    toldText = text;
    tree = told;
    emitter.fire();
  };
  const load = coalesce(async () => {
    try {
      // The names are there at once, also where counting takes a while.
      if (tree === null || !needsFindings()) await request(false);
      if (needsFindings()) await request(true);
    } catch (error) {
      log(`The scripts of the workspace could not be listed: ${error}`);
    }
    for (const done of answered.splice(0)) done();
  });
  const look = () => {
    if (!isLookedAt) load();
    isLookedAt = true;
    return tree;
  };
  const changed = () => {
    if (!isLookedAt) return;
    clearTimeout(waiting);
    waiting = setTimeout(load, PAUSE_MS);
  };
  // Scripts that are not open are judged in the background, and what is found in them comes later.
  const found = languages.onDidChangeDiagnostics(({ uris }) => {
    if (needsFindings() && uris.some(({ path }) => path.endsWith(".fettle"))) changed();
  });
  return {
    look,
    async list() {
      if (tree !== null) return look();
      isLookedAt = true;
      await new Promise<void>((resolve) => {
        answered.push(resolve);
        load();
      });
      return tree;
    },
    onDidChange: emitter.event,
    changed,
    countWhile: (isShown) => void shows.push(isShown),
    disposables: [emitter, found, { dispose: () => clearTimeout(waiting) }],
  };
}
