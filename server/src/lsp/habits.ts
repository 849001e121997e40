/** How the craft of a workspace turn their modes on: counted in the background, where a rule wants to know. */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import type { FilePath, FileView } from "../../../shared/model/files.ts";
import type { FleetHabits } from "../../../shared/model/habits.ts";
import { type CountedHabits, makeHabitCounter } from "../../../shared/rules/lib/fleet-habits.ts";
import { debounce } from "./debounce.ts";
import { passingCore } from "./passing-core.ts";
import type { Turns } from "./turns.ts";

export interface Habits {
  /** What was counted last; what has changed since is counted soon, and told of where it makes a difference. */
  of(path: FilePath): FleetHabits | null;
  /** Another text for what a finding about this craft would say otherwise. */
  idOf(path: FilePath): string;
}

interface Parts {
  readonly catalogue: () => Catalogue;
  /** The files as they are now: another view for other texts. */
  readonly view: () => FileView;
  /** Every script of the workspace, once it is listed. */
  readonly listed: () => Promise<readonly FilePath[]>;
  readonly isRead: (path: FilePath) => boolean;
  readonly read: (path: FilePath) => Promise<void>;
  readonly giveWay: Turns["giveWay"];
  /** For some craft there is something else to say now. */
  readonly changed: () => void;
  readonly failed: (error: unknown) => void;
}

/** After a start, and while files are being opened, others have more to do. */
const PAUSE_MS = 400;
/** More scripts than anybody flies with are not counted. */
const MOST_SCRIPTS = 4000;
/** So many are read at once: where the editor reads for the server, each is a message there and back. */
const READ_AHEAD = 16;
/** So many craft are read before what was remembered of them is let go: it is memory for nothing. */
const MOST_REMEMBERED = 150;

/** Nothing counted yet. */
export function makeHabits({ catalogue, view, listed, isRead, read, giveWay, changed, failed }: Parts): Habits {
  const counter = makeHabitCounter();
  const core = passingCore(MOST_REMEMBERED);
  let counted: CountedHabits | null = null;
  let seen: FileView | null = null;
  let isDue = false;
  let isRunning = false;

  const count = async (): Promise<boolean> => {
    const scripts = await listed();
    const isTooMany = scripts.length > MOST_SCRIPTS;
    const unread = isTooMany ? [] : scripts.filter((path) => !isRead(path));
    for (let i = 0; i < unread.length; i += READ_AHEAD) {
      await Promise.all(unread.slice(i, i + READ_AHEAD).map(read));
      await giveWay();
    }
    const now = view();
    const files = isTooMany ? [] : now.list();
    seen = now;
    const asked = catalogue();
    const coreOf = () => {
      core.used();
      return core.by(asked);
    };
    const steps = counter.count(now, coreOf, files);
    let next = steps.next();
    for (; !next.done; next = steps.next()) await giveWay();
    const before = counted;
    counted = next.value;
    for (const file of files) {
      if ((before?.of(file)?.id ?? "") !== (counted.of(file)?.id ?? "")) return true;
      await giveWay();
    }
    return false;
  };
  const run = debounce(async () => {
    if (isRunning) return;
    isRunning = true;
    isDue = false;
    try {
      if (await count()) changed();
    } catch (error) {
      failed(error);
    } finally {
      isRunning = false;
      core.letGo();
    }
    if (isDue) run();
  }, PAUSE_MS);
  const ask = () => {
    // Whoever asks again and again does not put it off.
    if (isDue || view() === seen) return;
    isDue = true;
    run();
  };
  const of = (path: FilePath) => {
    ask();
    return counted?.of(path) ?? null;
  };
  return { of, idOf: (path) => of(path)?.id ?? "" };
}
