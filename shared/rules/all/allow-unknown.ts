import { didYouMean, isOnlyForm, similarNames } from "../../model/similar-names.ts";
import { rangeOf } from "../../syntax/span.ts";
import type { FileRule } from "../engine/rule.ts";
import { locationOf } from "../lib/locations.ts";

export const rule: FileRule = {
  code: "allow-unknown",
  severity: "warning",
  scope: "file",
  acceptable: false,
  summary: "A note accepts findings of a code that no rule has.",
  prose:
    "Such a note silences nothing, and whoever wrote it believes that it does: a slip of the pen, or the code of a rule that another version of the tool has. Write the code as it stands at the end of the finding. If the comment was meant as a sentence and no acceptance, put it in other words: after “# allow” and a colon behind the next word it is read as one.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nsafety\n  arm-hold 4 s # allow unusual-valeu: I count to three first\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nsafety\n  arm-hold 4 s # allow unusual-value: I count to three first\n',
    },
  },
  check: (script, _, others) =>
    script.allowances
      .filter(({ code }) => !others.codes.includes(code))
      .map(({ code, codeSpan }) => {
        const offered = similarNames(code, others.codes);
        return {
          at: locationOf(script.file, codeSpan),
          message: `No rule has the code “${code}”, so nothing is accepted here.${didYouMean(offered)}`,
          fixes: offered.map((name) => ({
            title: `Write ${name}`,
            edits: [{ range: rangeOf(codeSpan), text: name }],
            ...(isOnlyForm(code, offered) && { certain: true as const }),
          })),
        };
      }),
};
