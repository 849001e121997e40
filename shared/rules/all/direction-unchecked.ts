import { settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { headLocation } from "../lib/locations.ts";

const STICKS = ["roll", "pitch", "throttle", "yaw"] as const;
const CHECKS = [
  { name: "order-checked", what: "that each stick moves its own channel" },
  { name: "direction-checked", what: "that each moves it the right way" },
] as const;

export const rule: CraftRule = {
  code: "direction-unchecked",
  severity: "hint",
  scope: "craft",
  summary: "The ends of the sticks were measured, but not their order or their direction.",
  prose:
    "Good ends say nothing of which channel a stick moves, or which way: a roll stick that moves pitch, or a throttle that is reversed, has perfect ends. Both show only when one stick at a time is moved and the board's figures are watched, which takes a minute at the same bench. Propellers off. Write the day of the check into order-checked and direction-checked.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nbench\n  roll 1000 us to 2000 us\n' },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nbench\n  roll 1000 us to 2000 us\n  order-checked 2026-04-02\n  direction-checked 2026-04-02\n',
    },
  },
  looksAt: {
    settings: [
      ...STICKS.map((stick) => `bench.${stick}` as const),
      ...CHECKS.map(({ name }) => `bench.${name}` as const),
    ],
  },
  check(craft, workspace) {
    const measured = STICKS.map((stick) => settingOf(craft, `bench.${stick}`)).filter((each) => each?.value);
    const open = CHECKS.filter(({ name }) => !settingOf(craft, `bench.${name}`));
    const [first] = measured;
    if (!first || open.length === 0) return [];
    return [
      {
        at: headLocation(workspace, first.source),
        message: `The sticks' ends were measured, but nothing says ${open.map(({ what }) => what).join(", nor ")}: check it on the bench and write down the day in ${open.map(({ name }) => name).join(" and ")}.`,
        alsoOf: measured.flatMap((each) => each?.source ?? []),
      },
    ];
  },
};
