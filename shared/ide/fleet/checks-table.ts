/** The checks on the bench of each craft: the day, what has changed since, or that it was never made. */
import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { BENCH_CHECKS, type BenchCheck } from "../../rules/lib/bench-checks.ts";
import { type ChangedSince, dueOf } from "../../rules/lib/check-due.ts";
import { joinWithAnd } from "../../text/list.ts";
import { type Draft, type DraftColumn, NOT_KNOWN, NOTHING } from "./cells.ts";

export const CHECK_COLUMNS: readonly DraftColumn[] = BENCH_CHECKS.map(({ name, title }) => ({
  key: name,
  name: name.slice(name.indexOf(".") + 1),
  what: title,
}));

/** The checks of a craft, by SECTION.NAME; one that covers nothing of what the craft says is not asked for. */
export function checkCells(craft: Craft, workspace: Workspace): ReadonlyMap<string, Draft> {
  return new Map(BENCH_CHECKS.map((check) => [check.name, checkCell(craft, workspace, check)]));
}

function checkCell(craft: Craft, workspace: Workspace, check: BenchCheck): Draft {
  const setting = settingOf(craft, check.name);
  const at = setting?.source ?? null;
  const due = dueOf(craft, workspace, check);
  if (due) {
    const why = [
      ...(due.flashed ? [`flashed on ${due.flashed.text}`] : []),
      ...(due.changes.length > 0 ? [`${changedNames(due.changes)} changed`] : []),
    ];
    return { text: why.length > 0 ? `${due.day}, due: ${why.join("; ")}` : due.day, meaning: null, at };
  }
  // A line with a fault says no day, and that it was never made is not known either.
  if (setting) return { text: setting.text === "" ? NOT_KNOWN : setting.text, meaning: null, at };
  return concerns(check, craft) ? { text: "never", meaning: null, at } : NOTHING;
}

/** As many changes as have room in a cell. */
const MOST_TOLD = 2;

/** The names that changed without their sections: “mount-yaw, motor1 place and 2 more”. */
function changedNames(changes: readonly ChangedSince[]): string {
  const names = [...new Set(changes.map(({ name }) => name.slice(name.indexOf(".") + 1)))];
  const more = names.length - MOST_TOLD;
  return joinWithAnd(more > 1 ? [...names.slice(0, MOST_TOLD), `${more} more`] : names);
}

/** True of every craft, so that a check is about nothing of one that says only these. */
const OF_ANY: readonly string[] = ["board.model", "link.band", "link.receiver"];

/** Whether a craft says anything of what a check covers. */
function concerns(check: BenchCheck, craft: Craft): boolean {
  const { settings = [], sections = [], modes = [], together = [], pages = [] } = check;
  return (
    settings.some((name) => !OF_ANY.includes(name) && settingOf(craft, name) !== undefined) ||
    sections.some(({ section }) => (craft.settings.get(section)?.size ?? 0) > 0) ||
    (modes === "all" ? craft.modes.size > 0 : modes.some((name) => craft.modes.has(name))) ||
    together.some((what) => craft[what].size > 0) ||
    pages.some((page) => (page === "osd" ? craft.osd : craft.osdSecond).size > 0) ||
    (check.motorFields !== undefined &&
      [...(craft.settings.get("motors")?.keys() ?? [])].some((name) => /^motor\d$/.test(name))) ||
    (check.ofSticks === true && craft.controls.size > 0)
  );
}
