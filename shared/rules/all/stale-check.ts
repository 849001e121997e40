import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule, SettingName } from "../engine/rule.ts";
import { restingOn, valueLocation } from "../lib/locations.ts";

const FLASHED = "board.flashed-on";
/** The checks whose result the board's software may change. Those of the link's reach and of the scale are no business of it. */
const CHECKS: readonly SettingName[] = [
  "bench.order-checked",
  "bench.direction-checked",
  "bench.motors-checked",
  "bench.mount-checked",
  "bench.failsafe-checked",
  "bench.hover-checked",
  "bench.finder-checked",
];

/** A day as it is written, which sorts as days do. */
function dayOf(setting: Setting | undefined): string | null {
  return setting?.value?.kind === "date" ? setting.value.date : null;
}

/** The checks of a day before this one. */
function checksBefore(craft: Craft, day: string): Setting[] {
  return CHECKS.flatMap((name) => {
    const check = settingOf(craft, name);
    const checkedOn = dayOf(check);
    return check && checkedOn !== null && checkedOn < day ? check : [];
  });
}

export const rule: CraftRule = {
  code: "stale-check",
  severity: "hint",
  scope: "craft",
  summary: "The board's software is younger than checks on the bench that it may have undone.",
  prose:
    "New software may come with other defaults: another order of the motors, a reversed channel, another end to a lost signal. What was seen to be right before it says nothing of the craft as it is now. Take the propellers off, make these checks again, and write the new day.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nboard\n  flashed-on 2026-03-14\n\nbench\n  motors-checked 2026-02-01\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nboard\n  flashed-on 2026-03-14\n\nbench\n  motors-checked 2026-03-15\n',
    },
  },
  looksAt: { settings: [FLASHED, ...CHECKS] },
  check(craft, workspace) {
    const flashed = settingOf(craft, FLASHED);
    const day = dayOf(flashed);
    if (!flashed || day === null) return [];
    const stale = checksBefore(craft, day);
    if (stale.length === 0) return [];
    const names = joinWithAnd(stale.map(({ name }) => name));
    const [is, it] = stale.length === 1 ? ["is", "it"] : ["are", "them"];
    return [
      {
        at: valueLocation(workspace, flashed.source),
        message: `The board was flashed after the bench: ${names} ${is} older, so make ${it} anew. Propellers off.`,
        ...restingOn(stale, workspace),
      },
    ];
  },
};
