import type { Craft, Setting } from "../../model/craft.ts";
import type { CommitWords, PastCheck } from "../../model/past.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { BENCH_CHECKS, coveredBy } from "../lib/bench-checks.ts";
import { restingOn, valueLocation } from "../lib/locations.ts";
import { changedNames, valuesFor } from "../lib/past-checks.ts";

const FLASHED = "board.flashed-on";
const CHECKS = BENCH_CHECKS.map(({ name }) => name);

/** A day as it is written, which sorts as days do. */
function dayOf(setting: Setting | undefined): string | null {
  return setting?.value?.kind === "date" ? setting.value.date : null;
}

/** The checks of a day before this one, whose result the board's software may change. */
function checksBefore(craft: Craft, day: string): Setting[] {
  return BENCH_CHECKS.flatMap(({ name, restsOnSoftware }) => {
    const check = settingOf(craft, name);
    const checkedOn = dayOf(check);
    return restsOnSoftware && check && checkedOn !== null && checkedOn < day ? check : [];
  });
}

function flashedSince(workspace: Workspace, stale: readonly Setting[], flashed: Setting): Report {
  const names = joinWithAnd(stale.map(({ name }) => name));
  const [is, it] = stale.length === 1 ? ["is", "it"] : ["are", "them"];
  return {
    at: valueLocation(workspace, flashed.source),
    message: `The board was flashed after the bench: ${names} ${is} older, so make ${it} anew. Propellers off.`,
    ...restingOn(stale, workspace),
  };
}

/** As many changes as one reads; the rest are counted. */
const MOST_TOLD = 3;

/** What a check covers and has changed since its day, by what git knows of it; nothing where the day itself is not committed. */
function changedSince(craft: Craft, workspace: Workspace): Report[] {
  return BENCH_CHECKS.flatMap((covers): Report[] => {
    const check = settingOf(craft, covers.name);
    const day = dayOf(check);
    const past = day === null ? undefined : workspace.view.past?.(craft.file)?.get(covers.name);
    if (!check || !past || past.day !== day) return [];
    const now = valuesFor((each) => coveredBy(covers, each, workspace.catalogue), workspace.catalogue)(craft);
    const changed = changedNames(past.onDay, now);
    if (changed.length === 0) return [];
    const told = changed.slice(0, MOST_TOLD).map((name) => changeInWords(name, past, now));
    const more = changed.length - told.length;
    const all = joinWithAnd([...told, ...(more > 0 ? [`${more} more`] : [])]);
    return [
      {
        at: valueLocation(workspace, check.source),
        message: `${check.name} is of ${day}, and what it covers has changed since: ${all}. Make the check anew, and write the new day. Propellers off.`,
        ...restingOn(settingsNamed(craft, changed), workspace),
      },
    ];
  });
}

function changeInWords(name: string, { onDay, since }: PastCheck, now: ReturnType<typeof coveredBy>): string {
  const [before, after] = [onDay.get(name)!, now.get(name)!];
  const committed = since.get(name);
  const isCommitted = committed?.value?.meaning === after.meaning;
  return `${name} from ${before.text} to ${after.text} (${isCommitted ? commitInWords(committed!.commit) : "not committed yet"})`;
}

/** So many letters of a commit's name tell it from all others of a small repository. */
const SHORT = 8;

function commitInWords({ id, author, day }: CommitWords): string {
  return `${day}, ${author}, ${id.slice(0, SHORT)}`;
}

function settingsNamed(craft: Craft, names: readonly string[]): Setting[] {
  return [...new Set(names.map((name) => name.split(" ")[0]!))].flatMap((name) => settingOf(craft, name) ?? []);
}

export const rule: CraftRule = {
  code: "stale-check",
  severity: "hint",
  scope: "craft",
  summary:
    "Something has changed after the check on the bench that covers it, or the board's software is younger than the check.",
  prose:
    "A check is worth as much as what it covers stayed as it was. Each day in the section “bench” covers certain settings: the order and the direction of the sticks those of the link and of the handset, the motors their places, directions and outputs, the mount how the board lies in its frame, the failsafe what happens when the signal is lost, the hover frame, motors, pack, gains and filters, the finder how it is set off. Where the script is kept in git, its history tells whether one of them is another one than on that day, or than in the commit that first said the day, if that was later; what is not committed yet counts as well, and a day that is not committed yet is fresh. New software, too, may come with other defaults: `flashed-on` of a later day makes the checks old. Take the propellers off, make these checks again, and write the new day.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nboard\n  flashed-on 2026-03-14\n\nbench\n  motors-checked 2026-02-01\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nboard\n  flashed-on 2026-03-14\n\nbench\n  motors-checked 2026-03-15\n',
    },
  },
  restsOnMore: true,
  looksAt: { settings: [FLASHED, ...CHECKS] },
  // Of a craft without any check nobody asks git.
  restsOn: (craft, workspace) =>
    CHECKS.some((name) => dayOf(settingOf(craft, name)) !== null) ? workspace.view.past?.(craft.file) : null,
  check(craft, workspace) {
    const flashed = settingOf(craft, FLASHED);
    const day = dayOf(flashed);
    const stale = day === null ? [] : checksBefore(craft, day);
    return [
      ...(flashed && stale.length > 0 ? [flashedSince(workspace, stale, flashed)] : []),
      ...changedSince(craft, workspace),
    ];
  },
};
