import type { FileRule } from "../engine/rule.ts";
import { locationOf } from "../lib/locations.ts";

export const rule: FileRule = {
  code: "allow-unexplained",
  severity: "warning",
  scope: "file",
  acceptable: false,
  summary: "A finding is accepted without a reason.",
  prose:
    "The next reader of the script, who may be you after a winter, has to know whether the finding was understood or only silenced. Write the reason after a colon: # allow CODE: why it is right on this craft.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\npack\n  cells 99 # allow out-of-range\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\npack\n  cells 99 # allow out-of-range: a bench supply stands in for the pack\n',
    },
  },
  check: (script, _, others) =>
    script.allowances
      .filter(({ code, reason }) => reason === "" && others.codes.includes(code) && others.mayAccept(code))
      .map(({ code, span }) => ({
        at: locationOf(script.file, span),
        message: `Say why ${code} is accepted here, for whoever reads this next: # allow ${code}: …`,
      })),
};
