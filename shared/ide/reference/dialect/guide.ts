/** “A dialect in half an hour”: from a saved text of an unknown board to ten named lines, read, reviewed and written. */
import type { DialectPage } from "./example.ts";
import { dialectAfter, type GuideStep, guideSteps, MILL_HEADER, MILL_TEXT, MILL_WHEEL } from "./guide-steps.ts";

/** The script that the text becomes, once every step is done. */
export const MILL_SCRIPT = `craft "Mill"

use "wheel.fettle"

pack
  cells     6
  capacity  1100 mAh
  warn-at   3.5 V/cell
  land-at   3.3 V/cell

modes
  arm    when TL is down
  level  when TR is mid

safety
  idle-disarm-after  20 s

osd
  pack-volts  at 3, 17
  amps        at 11, 17

motors
  idle  4.5 %

filters
  notch  at 180 Hz  width 40 Hz

rates
  roll   slope 200 deg/s  end 600 deg/s
  pitch  slope 200 deg/s  end 600 deg/s
  yaw    slope 150 deg/s  end 400 deg/s

verbatim "Mill"
  |~ mill log, third wheel
  |~ saved on a Tuesday
  |miller sleeps at noon
`;

/** What is changed in that script, and what then goes to the board. */
export const MILL_CHANGE = {
  from: ["capacity  1100 mAh", "warn-at   3.5 V/cell"],
  to: ["capacity  1300 mAh", "warn-at   3.6 V/cell"],
  changes: "grain 1300\nsluice 72 shuts 66\n",
} as const;

export const guide: DialectPage = {
  name: "dialect-guide",
  title: "A dialect in half an hour",
  parts: [
    `
*a guide, step by step*

You have a text that a board saved, and nobody has written a dialect for it. After this page you will have one: ten lines that read most of the text, a script made of it, and a change written back to the board. Do it once with the invented board below, word for word; then you can do it with your own.

## What you need

A folder of its own, opened in the editor, or a terminal in it. Put three files into it. The first is the board's text, \`mill.txt\`:

${fence(MILL_TEXT)}

The second is your handset, \`wheel.fettle\`:

${fence(MILL_WHEEL, "fettle")}

The third is the dialect, \`mill.fettle\`. So far it has one line:

${fence(`${MILL_HEADER}\n`, "fettle")}

**To see what is read**, after each step: in the editor open \`mill.txt\`, and choose *Read This Text by a Dialect…* from the command palette, and in it \`mill.fettle\`; each line then shows its state, and the count stands at the top. In a terminal:

${fence("fettle board read --dialect mill.fettle --handset wheel.fettle mill.txt\n")}

It prints the script, and last the count: how many lines are read, odd, kept and idle. *Read* is understood; *odd* fits, but its value cannot be; *kept* is not understood, and not lost; *idle* says nothing.

## The steps

Each step says below which section to type. A section that is not there yet is begun with its name, from the first column, behind a blank line. What is typed below it is indented by two blanks. While you type, the editor offers what may stand there. Until a slot names a new code, a hint says that none does.
`,
    ...guideSteps.map(stepText),
    `
## The whole dialect

If the count is another one, compare yours with this:

${fence(dialectAfter(guideSteps.length), "fettle")}

Fifteen of the eighteen lines are read, two are comments. \`miller sleeps at noon\` is kept: nobody knows what it means, and it goes back to the board as it is. That is how it should be: a dialect needs no more lines than you want to change.

## Read it into a script

In the editor, in \`mill.txt\`: *Read into a Script…*; name the new file \`tankard.fettle\`. In a terminal, add a place to write it to:

${fence("fettle board read --dialect mill.fettle --handset wheel.fettle mill.txt --out tankard.fettle\n")}

The script is

${fence(MILL_SCRIPT, "fettle")}

Look through it. Is the pack yours? Does each switch do what it does on the field? If a line is wrong, the line of the dialect that reads it is wrong: mend that one, and read again. Findings tell you what else the script lacks.

## Review it against a craft

You have a script of this craft already? Then do not write over it. In the editor, in \`mill.txt\`: *Review This Text against a Craft…*. Line by line you see what the board says otherwise than your script, the dangerous first, and choose what to adopt.

## Write a change back

⚠ Propellers off before a text goes to a board.

In \`tankard.fettle\`, write \`1300 mAh\` for the capacity and \`3.6 V/cell\` for \`warn-at\`, and save. In the editor: *Copy What Changed for the Board*. In a terminal:

${fence("fettle board write tankard.fettle --dialect mill.fettle --base mill.txt --changes\n")}

Only these lines go to the board:

${fence(MILL_CHANGE.changes)}

The value that you left alone, 66, is still there, and so is everything else: without \`--changes\` you get the whole text, with these two lines changed and every other byte as it was.

Afterwards save the board's text again, over \`mill.txt\`, and read it once more: the board has understood what you meant if the script now says so. To keep it together, let the craft name both files:

${fence('board\n  dialect  "mill.fettle"\n  text     "mill.txt"\n', "fettle")}

## With a board of your own

- Begin with five lines whose meaning you know for certain. The rest can wait, kept.
- You do not know which line says something? Save the text, change that one thing on the board, save again: the line that moved is the one (*I Changed One Thing: Which Line Is It?*).
- You do not know the step? Note two values that you know, and what the board writes for each. The difference of the values, divided by the difference of what the board writes, is the step.
- *Name This Line…* asks for our name and value, finds the piece of the line that can be it, and writes the line of the dialect for you.
- Never guess at a line that can arm or turn motors. Kept is safe; wrong is not.

All the rest is on the pages \`dialect-lines\`, \`dialect-codes\`, \`dialect-reading\` and \`dialect-writing\`.
`,
  ],
};

function fence(text: string, language = ""): string {
  return `\`\`\`${language}\n${text.trimEnd()}\n\`\`\``;
}

function stepText({ title, before, section, lines, replaces, sees, says, after }: GuideStep, at: number): string {
  const [read, odd, kept, idle] = sees;
  const typed = lines.map((line) => `  ${line}`).join("\n");
  const seen = `You see: **${read} read, ${odd} odd, ${kept} kept, ${idle} idle.**`;
  const meaning = says
    ? ` \`${says[0]}\` means ${says[1]
        .split("; ")
        .map((each) => `\`${each}\``)
        .join(" and ")}.`
    : "";
  return [
    `### ${at + 1}. ${title}`,
    before,
    replaces.length > 0 ? `In \`${section}\`, change the lines to` : `Type below \`${section}\``,
    fence(`${section}\n${typed}`, "fettle"),
    `${seen}${meaning}`,
    after,
  ]
    .filter((part) => part !== "")
    .join("\n\n");
}
