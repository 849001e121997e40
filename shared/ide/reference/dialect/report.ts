/** What is found in a dialect, what reading and writing tell, the command line, and how a dialect grows. */
import { type DialectPage, example } from "./example.ts";

export const report: DialectPage = {
  name: "dialect-report",
  title: "What is found, and what is told",
  parts: [
    `
*findings, reports, the command line, teaching*

What is found in a dialect by itself, what reading and writing tell, the commands, and how a dialect grows line by line.

## Findings about a dialect

- \`slot-unmatched\`: a slot stands on one side only. On the right alone it has no value; on the left alone it is beside, and needs a default.
- \`slot-endless\`: nothing says where a slot ends: two slots without text between them, or a list whose separator stands behind the slot as well.
- \`line-beaten\`: an earlier line fits whatever this one fits, so it is never reached.
- \`code-lossy\`: a code loses something: two of our words for one of the board's, or the other way round; or a step of more than a tenth of what is usual for the setting.
- \`code-unused\`: no slot names this code.
- \`lines-alike\`: more than 50 lines begin alike up to their first slot, so that reading takes long.

What is no line of a dialect at all is \`syntax\`, and a name that is none of ours \`unknown-name\`. The rest of the file counts all the same.
`,
    "In this dialect each line has one of them:",
    example({
      dialect: `
codes
  idle  number 0 to 99
  turn  words R roll, R pitch

pack
  "holds {c:0 to 9999}"  capacity {d} mAh
  "cells {n}{m=0}"       cells {n}

rates
  "lean {a:turn} by {s:1 to 999}"  {a} slope {s} deg/s end 600 deg/s bend 3
  "lean R by {s:1 to 99}"          roll slope {s} deg/s end 600 deg/s bend 3
`,
      finds: ["code-unused", "code-lossy", "slot-unmatched", "slot-endless", "line-beaten"],
    }),
    `
**Speed.** Lines are found by their text before the first slot, and each slot by one search forward, so reading takes as long as the text is, times the number of lines of the dialect that begin alike. Lines of more than 4,096 characters are kept unread.

## The command line

\`\`\`
fettle board read   --dialect D [--handset H] [FILE] [--out F]
fettle board write  [--dialect D] CRAFT [--base LAST] [--changes] [--out F]
fettle board move   --from D --to E [FILE] [--out F]
fettle board learn  SCRIPT=TEXT… [--out D]
\`\`\`

\`read\` makes a script of a board's text, \`write\` a text of a craft: the whole, or with \`--changes\` only what changed against the base. Without \`--dialect\` and \`--base\` it takes those of the craft's section \`board\`. \`move\` reads by one dialect and writes by another, and lists what is lost, renamed, rounded and new, and what to look at on the bench. \`learn\` proposes a dialect from scripts and the texts that say the same. Each has \`--format json\`, with lines from 0:

- read: \`{"script","lines":[{"line","state","by","says":["SECTION NAME VALUE"],"why"}],"notes"}\`
- write: \`{"text","changes","rounded":[{"what","said","written"}],"filled","unsaid","onlyBase","byHand","cannot":[{"what","why","positions"}],"curves":[{"what","deviation"}]}\`

\`by\` are lines of the dialect. \`rounded\` gives both figures of a value that the board holds in steps; \`filled\` what stands where nobody said anything; \`unsaid\` what the craft says and the dialect has no line for; \`onlyBase\` settings that stay because only the base says them; \`byHand\` lines that are gone from the text and that the board still has; \`cannot\` what has a line and was not written, with the state in which board and craft would differ; \`curves\` the largest deviation in deg/s.

## In the editor

A text that a dialect fits (by \`known-by\`, or because you chose one) shows the state of each line, with a count at the top; the hover says what a line means in our words, or why it is odd. From there it is read into a script, reviewed against a craft like any paste, and a craft is copied or saved for the board, whole or as changes only.

**Name This Line…** asks what a line means: our name, and its value. It offers each piece of the line that can be that value, as it is, by a power of ten, by a step or as a word; shows which other lines the same left side reads, and what they would mean; and writes the line into the dialect.

**Learn from pairs.** Given scripts and the texts of boards that say the same, a line is proposed if it explains every pair and nothing else in the scripts does. For a number two values are enough if a straight line through nought explains them with a step of 1, 2, 2.5 or 5 times a power of ten; otherwise it takes three. Of words those are taken that were seen. All else stays open, each with the change on the board that would decide it: make that change, save the text again, and give both.
`,
  ],
};
