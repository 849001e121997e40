/** Revisions of git, as the editor's own git extension gives them; and why there are none. */

import { type Disposable, EventEmitter, extensions, Uri } from "vscode";
import type { Uri as Address } from "../../shared/protocol/addresses.ts";
import type { RevisionParams, RevisionResult } from "../../shared/protocol/compare.ts";
import type { LoggedCommit, LogParams, LogResult } from "../../shared/protocol/history.ts";
import { localDay } from "../../shared/text/day.ts";

/** A commit that can be compared with. */
export interface Commit {
  readonly revision: string;
  /** The first line of its message. */
  readonly title: string;
  readonly date: Date | undefined;
}

/** The commits of a file, the last first; or why there are none, in a sentence. */
export type Commits =
  | { readonly kind: "commits"; readonly commits: readonly Commit[] }
  | { readonly kind: "none"; readonly why: string };

export interface Revisions {
  commitsOf(uri: Uri): Promise<Commits>;
  /** The text of a file at a revision, for the server and for read-only documents. */
  text(params: RevisionParams): Promise<RevisionResult>;
  /** A revision in a few words: its name, its day, and what it was for; the name alone where git does not tell more. */
  titleOf(params: RevisionParams): Promise<string>;
  /** The commits of some files, the last first, each once. */
  log(params: LogParams): Promise<LogResult>;
  /** Watches what the git extension has opened, if it runs already: nobody starts it for that. */
  watch(): void;
  /** Calls back when something was committed, or another branch is checked out. */
  onDidChange(listener: () => void): Disposable;
  readonly disposables: readonly Disposable[];
}

/** What is used of the interface that the editor's git extension offers to others, version 1. */
interface GitExtension {
  readonly enabled: boolean;
  getAPI(version: 1): GitApi;
}

interface GitApi {
  readonly state: "uninitialized" | "initialized";
  readonly onDidChangeState: (listener: () => void) => Disposable;
  getRepository(uri: Uri): GitRepository | null;
  readonly repositories?: readonly GitRepository[];
}

interface GitRepository {
  readonly state: {
    readonly HEAD?: { readonly commit?: string };
    readonly onDidChange: (listener: () => void) => Disposable;
  };
  log(options: { readonly path: string; readonly maxEntries: number }): Promise<readonly GitCommit[]>;
  getCommit(revision: string): Promise<GitCommit>;
  show(revision: string, path: string): Promise<string>;
}

interface GitCommit {
  readonly hash: string;
  readonly message: string;
  readonly commitDate?: Date;
  readonly authorDate?: Date;
  readonly authorName?: string;
}

const NO_EXTENSION =
  "This editor has no git extension, as in a browser. On a desktop it has one, and “fettle compare HEAD:FILE FILE” does the same on the command line.";
const TURNED_OFF = "The editor's git extension is turned off, or found no git: its setting is “git.enabled”.";
const NO_REPOSITORY = "This file lies in no git repository that the editor has opened.";
const NOT_COMMITTED = "This file has never been committed.";

const MOST_COMMITS = 20;
/** As many commits of a file as are looked at for the history of a value. */
const MOST_LOGGED = 200;
/** A text of a commit never changes; some hundred are kept. */
const MOST_TEXTS = 300;
/** How long the git extension may take to look for repositories after the start. */
const PATIENCE_MS = 4000;

/** Asks the git extension only once somebody wants a revision. */
export function revisionsOf(): Revisions {
  const changed = new EventEmitter<void>();
  const texts = new Map<string, RevisionResult>();
  const watched = new Map<GitRepository, Disposable>();
  const heads = new Map<GitRepository, string | undefined>();
  let found: Promise<GitApi | string> | undefined;

  const watch = (repository: GitRepository) => {
    if (watched.has(repository)) return;
    heads.set(repository, repository.state.HEAD?.commit);
    const listening = repository.state.onDidChange(() => {
      const now = repository.state.HEAD?.commit;
      if (heads.get(repository) === now) return;
      heads.set(repository, now);
      changed.fire();
    });
    watched.set(repository, listening);
  };
  const repositoryOf = async (uri: Uri): Promise<GitRepository | string> => {
    found ??= gitApi();
    const api = await found;
    if (typeof api === "string") {
      // It may be turned on, or installed, later.
      found = undefined;
      return api;
    }
    const repository = api.getRepository(uri);
    if (!repository) return NO_REPOSITORY;
    watch(repository);
    return repository;
  };
  const textAt = async (repository: GitRepository, commit: string, uri: Uri): Promise<RevisionResult> => {
    const key = `${commit} ${uri.toString()}`;
    const known = texts.get(key);
    if (known) return known;
    const text = await textOf(repository, commit, uri);
    if (texts.size >= MOST_TEXTS) texts.delete(texts.keys().next().value!);
    texts.set(key, text);
    return text;
  };

  return {
    async commitsOf(uri) {
      const repository = await repositoryOf(uri);
      if (typeof repository === "string") return { kind: "none", why: repository };
      try {
        const commits = await repository.log({ path: uri.fsPath, maxEntries: MOST_COMMITS });
        if (commits.length === 0) return { kind: "none", why: NOT_COMMITTED };
        return { kind: "commits", commits: commits.map(toCommit) };
      } catch {
        // A repository without any commit has no log.
        return { kind: "none", why: NOT_COMMITTED };
      }
    },
    async text({ uri, revision }) {
      const file = Uri.parse(uri);
      const repository = await repositoryOf(file);
      if (typeof repository === "string") return { kind: "unreadable", why: asClause(repository) };
      // What is staged is no commit, and is another text with every “git add”.
      if (revision === "") return textOf(repository, "", file);
      const commit = await commitNamed(repository, revision);
      return commit === null ? { kind: "missing" } : textAt(repository, commit, file);
    },
    async titleOf({ uri, revision }) {
      if (revision === "") return "staged";
      const repository = await repositoryOf(Uri.parse(uri));
      if (typeof repository === "string") return shortRevision(revision);
      try {
        const { date, subject } = toLogged(await repository.getCommit(revision));
        return [shortRevision(revision), date, subject && `“${subject}”`].filter(Boolean).join(", ");
      } catch {
        return shortRevision(revision);
      }
    },
    async log({ uris }) {
      const commits = new Map<string, GitCommit>();
      for (const uri of uris.map((each) => Uri.parse(each))) {
        const repository = await repositoryOf(uri);
        if (typeof repository === "string") return { kind: "none", why: repository };
        const found = await repository.log({ path: uri.fsPath, maxEntries: MOST_LOGGED }).catch(() => []);
        for (const commit of found) commits.set(commit.hash, commits.get(commit.hash) ?? commit);
      }
      if (commits.size === 0) return { kind: "none", why: NOT_COMMITTED };
      return { kind: "commits", commits: [...commits.values()].sort(laterFirst).map(toLogged) };
    },
    watch() {
      const git = extensions.getExtension<GitExtension>("vscode.git");
      if (git?.isActive && git.exports?.enabled)
        for (const each of git.exports.getAPI(1).repositories ?? []) watch(each);
    },
    onDidChange: (listener) => changed.event(listener),
    disposables: [changed, { dispose: () => watched.forEach((each) => void each.dispose()) }],
  };
}

/** The interface of the git extension once it has looked for repositories; or why there is none. */
async function gitApi(): Promise<GitApi | string> {
  const extension = extensions.getExtension<GitExtension>("vscode.git");
  if (!extension) return NO_EXTENSION;
  try {
    const git = extension.isActive ? extension.exports : await extension.activate();
    if (!git?.enabled) return TURNED_OFF;
    const api = git.getAPI(1);
    await initialized(api);
    return api;
  } catch {
    return TURNED_OFF;
  }
}

function initialized(api: GitApi): Promise<void> {
  if (api.state === "initialized") return Promise.resolve();
  return new Promise((resolve) => {
    const end = () => {
      clearTimeout(timer);
      listening.dispose();
      resolve();
    };
    const timer = setTimeout(end, PATIENCE_MS);
    const listening = api.onDidChangeState(() => {
      if (api.state === "initialized") end();
    });
  });
}

/** The whole name of a commit; null where a revision is none. HEAD is known without asking git. */
async function commitNamed(repository: GitRepository, revision: string): Promise<string | null> {
  if (/^[0-9a-f]{40}$/.test(revision)) return revision;
  if (revision === "HEAD" && repository.state.HEAD?.commit) return repository.state.HEAD.commit;
  // What begins with a dash is no name of git's, and would be an option.
  if (revision === "" || revision.startsWith("-")) return null;
  try {
    return (await repository.getCommit(revision)).hash;
  } catch {
    return null;
  }
}

async function textOf(repository: GitRepository, commit: string, uri: Uri): Promise<RevisionResult> {
  try {
    return { kind: "text", text: await repository.show(commit, uri.fsPath) };
  } catch {
    // git says no more of a file that the commit does not have than of one that it cannot read.
    return { kind: "missing" };
  }
}

/** By when they were committed; where that is not known they stay as git lists them. */
function laterFirst(a: GitCommit, b: GitCommit): number {
  return (b.commitDate?.getTime() ?? 0) - (a.commitDate?.getTime() ?? 0);
}

function toLogged({ hash, message, authorName, authorDate, commitDate }: GitCommit): LoggedCommit {
  const date = authorDate ?? commitDate;
  return { id: hash, author: authorName ?? null, date: date ? localDay(date) : null, subject: firstLine(message) };
}

function firstLine(message: string): string {
  return message.split("\n", 1)[0] ?? "";
}

function toCommit({ hash, message, commitDate }: GitCommit): Commit {
  return { revision: hash, title: firstLine(message), date: commitDate };
}

/** A sentence as part of another. */
function asClause(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1).replace(/\.$/, "");
}

/** A whole name of a commit as people write it. */
export function shortRevision(revision: string): string {
  return /^[0-9a-f]{40}$/.test(revision) ? revision.slice(0, 8) : revision;
}

/** A side that is a revision of a file. */
export function revisionSide(uri: Address, revision: string) {
  return { kind: "revision", uri, revision } as const;
}
