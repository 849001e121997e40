import type { CraftRule } from "../engine/rule.ts";
import { WHEEL } from "../lib/example-files.ts";
import { headLocation } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "output-unexplained",
  severity: "warning",
  scope: "craft",
  summary: "An output is in use and no note says what it does.",
  prose:
    "A maker's free switch may feed a lamp, a camera or the video transmitter, and nothing in its name tells which. Write it down above the line while you know it: the next person to hold this craft will flip the switch to find out.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n\noutputs\n  nose when TR is down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n\noutputs\n  # feeds the lamp under the nose\n  nose when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: {},
  check: (craft, workspace) =>
    [...craft.outputs.values()].flatMap(({ name, lines }) => {
      const explained = lines.some(({ source }) => workspace.script(source.file)?.noteOf(source.line).text);
      const last = lines.at(-1);
      if (explained || !last) return [];
      return [
        {
          at: headLocation(workspace, last.source),
          message: `What does ${name} do on this craft? Say it in a comment above the line.`,
          alsoOf: lines.map(({ source }) => source),
        },
      ];
    }),
};
