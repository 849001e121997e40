/**
 * Stands in for the editor's git extension, which does not run in a browser. What is committed lies in the workspace:
 * `.committed/log.json` has the commits, the last first, and the folder of each its files (`.committed/HASH/craft/jug.fettle`).
 * Without that file nothing is committed.
 */
import { EventEmitter, Uri, workspace } from "vscode";

interface Commit {
  readonly hash: string;
  readonly message: string;
  readonly authorName?: string;
  readonly authorDate?: Date;
}

const repository = {
  // What HEAD is can change with every suite: it is asked for like any other name.
  state: { HEAD: undefined, onDidChange: new EventEmitter<void>().event },
  async log({ path, maxEntries }: { path: string; maxEntries: number }) {
    const commits = await commitsNow();
    const texts = await Promise.all(commits.map(({ hash }) => textAt(hash, path)));
    return commits.filter((_, i) => texts[i] !== null).slice(0, maxEntries);
  },
  async getCommit(revision: string) {
    const commits = await commitsNow();
    const found = revision === "HEAD" ? commits[0] : commits.find(({ hash }) => hash.startsWith(revision));
    if (!found) throw new Error(`${revision} is no revision`);
    return found;
  },
  async show(revision: string, path: string) {
    const text = await textAt(revision, path);
    if (text === null) throw new Error(`${path} is not in ${revision}`);
    return text;
  },
};

export function activate() {
  const api = {
    state: "initialized",
    onDidChangeState: new EventEmitter<void>().event,
    getRepository: () => repository,
  };
  return { enabled: true, getAPI: () => api };
}

async function commitsNow(): Promise<readonly Commit[]> {
  const text = await read(".committed/log.json");
  const commits: readonly (Omit<Commit, "authorDate"> & { authorDate?: string })[] =
    text === null ? [] : JSON.parse(text);
  return commits.map(({ authorDate, ...commit }) => ({
    ...commit,
    ...(authorDate && { authorDate: new Date(authorDate) }),
  }));
}

/** A path as an address of the workspace has it, `//mount/craft/jug.fettle`: below the folder it is `craft/jug.fettle`. */
function textAt(hash: string, path: string): Promise<string | null> {
  const folder = workspace.workspaceFolders?.[0]?.uri.fsPath ?? "";
  return read(`.committed/${hash}/${path.slice(folder.length).replace(/^\//, "")}`);
}

async function read(path: string): Promise<string | null> {
  const folder = workspace.workspaceFolders?.[0]?.uri;
  if (!folder) return null;
  try {
    return new TextDecoder().decode(await workspace.fs.readFile(Uri.joinPath(folder, path)));
  } catch {
    return null;
  }
}
