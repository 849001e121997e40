import { boardOf } from "../../logic/from-craft.ts";
import { choiceOf } from "../../model/setting-lookup.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocation, conditionLocations } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { FLIGHT_MODES } from "../lib/name-groups.ts";

export const rule: CraftRule = {
  code: "mode-only-disarmed",
  severity: "warning",
  scope: "craft",
  summary: "A mode that does something only in flight can be on only while the craft is disarmed.",
  prose:
    "Its switch does nothing in the air: the recorder writes no flight, the calmer rates never come, the craft does not level when it is asked to. Mostly the condition asks for the arm switch at its wrong end, or hangs on the position that disarms. Correct the condition. Every combination of positions and pulses was considered.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  recorder when not arm\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  recorder when arm\n',
      ...WHEEL,
    },
  },
  looksAt: { settings: ["recorder.starts"], modes: [FLIGHT_MODES, "arm"] },
  check(craft, workspace) {
    const { armed, selected, sets } = boardOf(craft, workspace);
    if (!craft.modes.has("arm") || armed === sets.none) return [];
    const never = FLIGHT_MODES.names(workspace.catalogue).filter((name) => {
      if (!craft.modes.has(name)) return false;
      // A recorder that runs by itself in flight may have its mode for the bench.
      const starts = name === "recorder" ? choiceOf(craft, "recorder.starts") : undefined;
      if (starts === "armed" || starts === "both" || starts === "powered") return false;
      const mode = selected(name);
      return mode !== sets.none && sets.meet(mode, armed) === false;
    });
    const [only, another] = never;
    if (only === undefined) return [];
    if (another === undefined)
      return [
        {
          ...conditionLocations(craft, workspace, only, "arm"),
          message: `${only} is never on while the craft is armed, and on the ground it does nothing: look at the position that it asks for.`,
        },
      ];
    // Several at once are the arm switch's doing.
    const others = never.map((name) => conditionLocation(craft, workspace, name));
    return [
      {
        at: conditionLocation(craft, workspace, "arm").at,
        message: `${joinWithAnd(never)} are never on while the craft is armed, and on the ground they do nothing: look at the position that arm asks for.`,
        related: others.map(({ at }, i) => ({ message: `${never[i]} is set up here`, at })),
        alsoOf: others.flatMap(({ alsoOf = [] }) => alsoOf),
      },
    ];
  },
};
