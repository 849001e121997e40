import { boardOf } from "../../logic/from-craft.ts";
import { choiceOf } from "../../model/setting-lookup.ts";
import type { CraftRule, NameGroup } from "../engine/rule.ts";
import { conditionLocations } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";

const IN_FLIGHT: NameGroup = {
  words: "every mode that does something only in flight",
  names: ({ modes }) => modes.flatMap(({ name, inFlight }) => (inFlight ? name : [])),
};

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
  looksAt: { settings: ["recorder.starts"], modes: [IN_FLIGHT, "arm"] },
  check(craft, workspace) {
    const { armed, selected, sets } = boardOf(craft, workspace);
    if (!craft.modes.has("arm") || armed === sets.none) return [];
    return IN_FLIGHT.names(workspace.catalogue).flatMap((name) => {
      if (!craft.modes.has(name)) return [];
      // A recorder that runs by itself in flight may have its mode for the bench.
      const starts = name === "recorder" ? choiceOf(craft, "recorder.starts") : undefined;
      if (starts === "armed" || starts === "both" || starts === "powered") return [];
      const mode = selected(name);
      if (mode === sets.none || sets.meet(mode, armed) !== false) return [];
      return [
        {
          ...conditionLocations(craft, workspace, name, "arm"),
          message: `${name} is never on while the craft is armed, and on the ground it does nothing: look at the position that it asks for.`,
        },
      ];
    });
  },
};
