import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { BENCH_CHECKS } from "../lib/bench-checks.ts";
import { type CheckDue, changesInWords, dueOf } from "../lib/check-due.ts";
import { restingOn, valueLocation } from "../lib/locations.ts";
import { dayOf } from "../lib/past-checks.ts";

const FLASHED = "board.flashed-on";
const CHECKS = BENCH_CHECKS.map(({ name }) => name);

function flashedSince(workspace: Workspace, stale: readonly Setting[], flashed: Setting): Report {
  const names = joinWithAnd(stale.map(({ name }) => name));
  const [is, it] = stale.length === 1 ? ["is", "it"] : ["are", "them"];
  return {
    at: valueLocation(workspace, flashed.source),
    message: `The board was flashed after the bench: ${names} ${is} older, so make ${it} anew. Propellers off.`,
    ...restingOn(stale, workspace),
  };
}

/** What a check covers and has changed since its day, by what git knows of it. */
function changedSince(craft: Craft, workspace: Workspace, { setting, day, changes }: CheckDue): Report {
  return {
    at: valueLocation(workspace, setting.source),
    message: `${setting.name} is of ${day}, and what it covers has changed since: ${changesInWords(changes)}. Make the check anew, and write the new day. Propellers off.`,
    ...restingOn(
      settingsNamed(
        craft,
        changes.map(({ name }) => name),
      ),
      workspace,
    ),
  };
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
    "A check is worth as much as what it covers stayed as it was. Each day in the section “bench” covers certain settings: the order and the direction of the sticks those of the link and of the handset, the motors their places, directions and outputs, the mount how board and compass lie in the frame, the failsafe what happens when the signal is lost, the hover frame, motors, pack, gains and filters, the finder how it is set off, the ends of the sticks the end points, the switches every condition, output and dial, arming the limits of “safety” and what arms, the meters divider and shunt, the helpers lights, recorder and camera mount, the picture its elements and its grid, the way home “navigation” and its sensors, the weight what it is built of. `fettle bench --due` lists what to do again, and no more. Where the script is kept in git, its history tells whether one of them is another one than on that day, or than in the commit that first said the day, if that was later; what is not committed yet counts as well, and a day that is not committed yet is fresh. New software, too, may come with other defaults: `flashed-on` of a later day makes the checks old. Take the propellers off, make these checks again, and write the new day.",
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
    CHECKS.some((name) => dayOf(craft, name) !== null) ? workspace.view.past?.(craft.file) : null,
  check(craft, workspace) {
    const checks = BENCH_CHECKS.flatMap((check) => dueOf(craft, workspace, check) ?? []);
    const older = checks.filter(({ flashed }) => flashed !== null);
    const changed = checks.filter(({ changes }) => changes.length > 0);
    const [first] = older;
    return [
      ...(first?.flashed
        ? [
            flashedSince(
              workspace,
              older.map(({ setting }) => setting),
              first.flashed,
            ),
          ]
        : []),
      ...changed.map((each) => changedSince(craft, workspace, each)),
    ];
  },
};
