/** What git knows of the checks of craft: looked up in the background, one craft after another, where a rule wants to know. */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import type { FilePath, FileView } from "../../../shared/model/files.ts";
import type { PastChecks } from "../../../shared/model/past.ts";
import type { Core } from "../../../shared/model/workspace.ts";
import { type PastReader, pastReader } from "../../../shared/rules/lib/past-checks.ts";
import { debounce } from "./debounce.ts";

/** What the host can ask git. */
export interface HostPasts {
  /** Null where git knows nothing of the file. The same for as long as nothing was committed. */
  of(path: FilePath, reader: PastReader): Promise<PastChecks | null>;
  /** Something may have been committed. */
  lookAgain(): void;
  /** The commits of a script, the last first, each with all that it uses; `text` is what it holds now. */
  commits(path: FilePath, text: string, core: Core): Promise<HostCommits>;
}

/** Commits as the host's git has them; or why there are none, in a sentence. */
export type HostCommits =
  | { readonly kind: "commits"; readonly commits: readonly HostCommit[] }
  | { readonly kind: "none"; readonly why: string };

export interface HostCommit {
  readonly id: string;
  readonly parents: readonly string[];
  readonly author: string;
  readonly date: string;
  readonly subject: string;
  readonly view: FileView;
  readonly file: FilePath;
  /** True where earlier commits are not in this clone. */
  readonly isCut: boolean;
}

export interface Pasts {
  /** What is known by now; what is not is looked up, and told of once it is there. */
  past(path: FilePath): PastChecks | null;
  /** The commits of a script, read by what reads others of the past. */
  commits(path: FilePath, text: string): Promise<HostCommits>;
  /** Another number for another past. */
  idOf(path: FilePath): number;
  /** Something may have been committed. */
  lookAgain(): void;
}

interface Parts {
  readonly host: HostPasts;
  readonly catalogue: () => Catalogue;
  /** Some past is another one now. */
  readonly changed: () => void;
  readonly failed: (error: unknown) => void;
}

interface Known {
  readonly checks: PastChecks | null;
  readonly catalogue: Catalogue;
  readonly id: number;
}

/** After a start, and while files are being opened, others have more to do. */
const PAUSE_MS = 250;

/** Nothing looked up yet. */
export function makePasts({ host, catalogue, changed, failed }: Parts): Pasts {
  const known = new Map<FilePath, Known>();
  const due = new Set<FilePath>();
  let reader: { readonly of: Catalogue; readonly reader: PastReader } | null = null;
  let lastId = 0;
  let isRunning = false;

  const readerNow = (): PastReader => {
    const now = catalogue();
    if (reader?.of !== now) reader = { of: now, reader: pastReader(now) };
    return reader.reader;
  };
  const lookUp = async (): Promise<boolean> => {
    let isOther = false;
    // A set is iterated in insertion order, including elements added meanwhile.
    for (const path of due) {
      due.delete(path);
      const now = catalogue();
      const checks = await host.of(path, readerNow());
      const before = known.get(path);
      const isSame = before ? before.checks === checks : checks === null;
      known.set(path, { checks, catalogue: now, id: isSame ? (before?.id ?? 0) : ++lastId });
      isOther ||= !isSame;
    }
    return isOther;
  };
  const run = debounce(async () => {
    if (isRunning) return;
    isRunning = true;
    try {
      if (await lookUp()) changed();
    } catch (error) {
      failed(error);
    } finally {
      isRunning = false;
    }
    if (due.size > 0) run();
  }, PAUSE_MS);
  const ask = (path: FilePath) => {
    // Whoever asks again and again does not put it off.
    if (due.has(path)) return;
    due.add(path);
    run();
  };

  return {
    past(path) {
      const found = known.get(path);
      if (found?.catalogue !== catalogue()) ask(path);
      return found?.checks ?? null;
    },
    commits: (path, text) => host.commits(path, text, readerNow().core),
    idOf: (path) => known.get(path)?.id ?? 0,
    lookAgain() {
      host.lookAgain();
      for (const path of known.keys()) ask(path);
    },
  };
}
