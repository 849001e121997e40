/** What is to be done where new software wipes a board: the order, the board's lines, the day. */
import type { DialectPage } from "../dialect/example.ts";

export const putBackPage: DialectPage = {
  name: "bench-put-back",
  title: "Put it back after a wipe",
  parts: [
    `
*newer software on the board, and the set-up as it was*

Newer software on a board often wipes all that it was told. The script still has it: this is the order in which it goes back, and what has to be checked again then.

\`\`\`sh
fettle bench craft/tankard.fettle --wiped                             # before the wipe, or after it
fettle bench craft/tankard.fettle --wiped --dialect ebb-third.fettle  # in the lines of the new software
fettle bench craft/tankard.fettle --wiped --out tankard.html          # to print
\`\`\`

## The order

- *Before the wipe*: propellers off; the board's own text saved and held against the script; the edition of the software, the motors as they are, what pairs handset and receiver, what was calibrated. Where the craft names a saved text (\`text\` of section \`board\`) the list says what of it the script does not say.
- *The new software*: it is written, and so is its day, \`flashed-on\`. Each check that rests on the board's software and has an older day no longer holds.
- *Ports, receiver, motors, sensors, switches and modes, lost signal, OSD, pack, how it flies, the rest*: what the script says, stage by stage, and what is done with the craft in the hand, such as levelling it.
- *Is it there*: the board's text is saved once more, and held against the script.
- Then [the bench list](bench-list), with what is due.

## The board's lines

With a dialect each stage has the lines that say it, as one text with what opens and closes it; every line stands in one stage. It is the dialect that \`--dialect\` names, else the craft's own, else the one of the workspace that knows the saved text. A saved text of that dialect is what is written onto, so what only the board knew goes back as well; lines that nobody reads come last, to be looked at one by one. Where a text would come to something else if it were sent in parts, it is sent whole. What no line says is set by hand, and what the board holds in steps or fills in is told.

Lines may not fit another edition of the board's text. The list says which edition the script and the dialect are of; \`fettle board move\` tells what becomes of each line. A secret is never printed.

The command writes nothing into the script: the list says what to write. The day is that of \`--flashed DATE\`, or today. In the editor *Put the Craft Back After a Wipe…* asks for the day and writes it only where you say so; *Save what to do…* makes a page to print.
`,
  ],
};
