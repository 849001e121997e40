/** Whether a check on the bench still holds: the one place that says it, for the rule and for the bench list. */
import type { Craft, Setting } from "../../model/craft.ts";
import type { CommitWords } from "../../model/past.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { BenchCheck } from "./bench-checks.ts";
import { coveredBy } from "./covered-by.ts";
import { changedNames, dayOf, valuesFor } from "./past-checks.ts";

const FLASHED = "board.flashed-on";

/** Something that a check covers and that is another one since its day. */
export interface ChangedSince {
  /** As SECTION.NAME, or with a field or a part behind it. */
  readonly name: string;
  readonly before: string;
  readonly after: string;
  /** The last commit that made it so; null where that is not committed yet. */
  readonly commit: CommitWords | null;
}

/** What has become of a check since its day. */
export interface CheckDue {
  /** The line of the day. */
  readonly setting: Setting;
  /** Such as 2026-03-15. */
  readonly day: string;
  /** The line that says that the board was flashed after it, where its result rests on the board's software. */
  readonly flashed: Setting | null;
  /** By what git knows; nothing where the day itself is not committed. */
  readonly changes: readonly ChangedSince[];
}

/** What has become of a check; null where no day of it is known. */
export function dueOf(craft: Craft, workspace: Workspace, check: BenchCheck): CheckDue | null {
  const setting = settingOf(craft, check.name);
  const day = dayOf(craft, check.name);
  if (!setting || day === null) return null;
  return {
    setting,
    day,
    flashed: flashedAfter(craft, check, day),
    changes: changesSince(craft, workspace, check, day),
  };
}

/** Whether it has to be made again. */
export function isStale({ flashed, changes }: CheckDue): boolean {
  return flashed !== null || changes.length > 0;
}

function flashedAfter(craft: Craft, { restsOnSoftware }: BenchCheck, day: string): Setting | null {
  const flashedOn = restsOnSoftware ? dayOf(craft, FLASHED) : null;
  // A day as it is written sorts as days do.
  return flashedOn !== null && day < flashedOn ? (settingOf(craft, FLASHED) ?? null) : null;
}

function changesSince(craft: Craft, { view, catalogue }: Workspace, check: BenchCheck, day: string): ChangedSince[] {
  const past = view.past?.(craft.file)?.get(check.name);
  if (!past || past.day !== day) return [];
  const now = valuesFor((each) => coveredBy(check, each, catalogue), catalogue)(craft);
  return changedNames(past.onDay, now).map((name) => {
    const after = now.get(name)!;
    const committed = past.since.get(name);
    const commit = committed && committed.value?.meaning === after.meaning ? committed.commit : null;
    return { name, before: past.onDay.get(name)!.text, after: after.text, commit };
  });
}

/** As many changes as one reads; the rest are counted. */
const MOST_TOLD = 3;

/** The changes as one list in a sentence, such as “sensors.mount-yaw from 90 deg to 0 deg (not committed yet)”. */
export function changesInWords(changes: readonly ChangedSince[]): string {
  const told = changes.slice(0, MOST_TOLD).map(changeInWords);
  const more = changes.length - told.length;
  return joinWithAnd([...told, ...(more > 0 ? [`${more} more`] : [])]);
}

function changeInWords({ name, before, after, commit }: ChangedSince): string {
  // The words may be the same where a control or a mode that they name is another one.
  const how = before === after ? `${name}, by what “${after}” stands for` : `${name} from ${before} to ${after}`;
  return `${how} (${commit ? commitInWords(commit) : "not committed yet"})`;
}

/** So many letters of a commit's name tell it from all others of a small repository. */
const SHORT = 8;

function commitInWords({ id, author, day }: CommitWords): string {
  return `${day}, ${author}, ${id.slice(0, SHORT)}`;
}
