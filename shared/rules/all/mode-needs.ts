import type { CraftRule, NameGroup } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { restingOn } from "../lib/locations.ts";
import { meetsNeed } from "../lib/met-needs.ts";
import { PORTS } from "../lib/name-groups.ts";
import { settingsBehind, unmetInWords } from "../lib/needs-in-words.ts";

const MODES_IN_NEED: NameGroup = {
  words: "every mode that needs something",
  names: ({ modes }) => modes.flatMap(({ name, needs }) => (needs ? name : [])),
};

const NEEDED_MODES: NameGroup = {
  words: "every mode that another needs",
  names: ({ modes }) => modes.flatMap(({ needs = [] }) => needs.flatMap(({ mode }) => mode ?? [])),
};

const NEEDED_SETTINGS: NameGroup = {
  words: "every setting that a mode needs",
  names: ({ modes }) =>
    modes.flatMap(({ needs = [] }) =>
      needs.flatMap((need) => [need, ...(need.or ?? [])].flatMap(({ setting }) => setting ?? [])),
    ),
};

export const rule: CraftRule = {
  code: "mode-needs",
  severity: "error",
  scope: "craft",
  summary: "A mode is set up and something it needs is missing.",
  prose:
    "A mode without the sensor, the setting or the section that it works with does nothing when its switch is moved, or something else than it says. A need that the script does not mention is not reported; one that it contradicts is. Set up what it needs, or drop the mode.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nsensors\n  accelerometer no\n\nmodes\n  arm when TL is down\n  level when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nsensors\n  accelerometer yes\n\nmodes\n  arm when TL is down\n  level when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { settings: [NEEDED_SETTINGS, PORTS], modes: [MODES_IN_NEED, NEEDED_MODES] },
  check: (craft, workspace) =>
    [...craft.modes.keys()].flatMap((name) =>
      (workspace.catalogue.mode(name)?.needs ?? [])
        .filter((need) => !meetsNeed(craft, need))
        .map((need) => {
          const { related, alsoOf = [] } = restingOn(settingsBehind(craft, need), workspace);
          const place = conditionLocation(craft, workspace, name);
          return {
            at: place.at,
            ...(need.severity && { severity: need.severity }),
            message: unmetInWords(name, need, craft),
            alsoOf: [...(place.alsoOf ?? []), ...alsoOf],
            ...(related && related.length > 0 && { related }),
          };
        }),
    ),
};
