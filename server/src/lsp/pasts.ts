/** What git knows of the checks of craft: looked up in the background, one craft after another, where a rule wants to know. */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import type { FilePath, FileView } from "../../../shared/model/files.ts";
import type { PastChecks } from "../../../shared/model/past.ts";
import type { Core } from "../../../shared/model/workspace.ts";
import { type PastReader, pastReader } from "../../../shared/rules/lib/past-checks.ts";
import { debounce } from "./debounce.ts";
import { passingCore } from "./passing-core.ts";

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
  /** Of the catalogue by which it was looked up no more than its number: another one with each key in a pilot's own words. */
  readonly by: number;
  readonly id: number;
}

/** After a start, and while files are being opened, others have more to do. */
const PAUSE_MS = 250;
/** The past of so many craft is read before what was remembered of it is let go: it is memory for nothing. */
const MOST_REMEMBERED = 150;

/** Nothing looked up yet. */
export function makePasts({ host, catalogue, changed, failed }: Parts): Pasts {
  const known = new Map<FilePath, Known>();
  const due = new Set<FilePath>();
  const core = passingCore(MOST_REMEMBERED);
  let lastId = 0;
  let isRunning = false;

  const lookUp = async (): Promise<boolean> => {
    let isOther = false;
    // A set is iterated in insertion order, including elements added meanwhile.
    for (const path of due) {
      due.delete(path);
      const now = catalogue();
      const by = core.numberOf(now);
      const checks = await host.of(path, pastReader(core.by(now)));
      core.used();
      const before = known.get(path);
      const isSame = before ? before.checks === checks : checks === null;
      known.set(path, { checks, by, id: isSame ? (before?.id ?? 0) : ++lastId });
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
      if (found?.by !== core.numberOf(catalogue())) ask(path);
      return found?.checks ?? null;
    },
    commits: (path, text) => host.commits(path, text, core.by(catalogue())),
    idOf: (path) => known.get(path)?.id ?? 0,
    lookAgain() {
      host.lookAgain();
      for (const path of known.keys()) ask(path);
    },
  };
}
