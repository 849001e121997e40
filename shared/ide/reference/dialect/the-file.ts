/** What a dialect is, and how its file is built. */
import { type DialectPage, example } from "./example.ts";

export const theFile: DialectPage = {
  name: "dialect",
  title: "Dialects",
  parts: [
    `
*files that say what a board's text means*

A board keeps its configuration as a text of its own. A **dialect** says how that text says what our words say. You write it, or a friend does, or it grows line by line while you point at lines of the board's text and name them. With it a script outlives its board: read the old board's text with the old dialect, write it for the new board with the new one.

No dialect comes with this tool, and none of the examples resembles the text of a real board. They are the texts of a kiln, a loom or a clock that shows the tides; what they teach is how lines are matched. To write your first one, follow \`dialect-guide\`; it takes half an hour.

- \`dialect-lines\`: one line of the board, one line of ours: left sides, slots, right sides
- \`dialect-codes\`: how a board spells a value: numbers in steps, words, letters, bits, text
- \`dialect-reading\`: headings, and how board text becomes a script
- \`dialect-writing\`: how a craft becomes board text: conditions, curves, and what stays as it was
- \`dialect-report\`: what is found and what is told: findings, the command line, teaching
- \`dialect-guide\`: a dialect in half an hour, step by step

## A first one

Left stands what the board writes, in quotes; right the entry that it means. What stands in braces is a slot: the same on both sides.
`,
    example({
      dialect: `
text
  comment  ";"

pack
  "holds {c:0 to 9999}"  capacity {c} mAh
  "cells {n:1 to 12}"    cells {n}
`,
      reads: `
; the square one     => idle
holds 1100           => read pack capacity 1100 mAh
cells 6              => read pack cells 6
shelf 3 is warm      => kept
`,
    }),
    `
Every line of the board's text gets one of four states. It is *read*: its meaning is in the script. It is *odd*: a line of the dialect fits, but the value cannot be. It is *kept*: no line of the dialect fits. It is *idle*: blank, a comment, a heading. Nothing is lost: what is not read stays in the script, byte for byte, and goes back to the board where it stood. So a dialect of two lines is useful already.

## The file

A dialect is a \`.fettle\` file whose header is \`dialect "NAME"\`. It uses no other file, and no craft uses it by \`use\`: a craft names it in its section \`board\`, by \`dialect "FILE"\`, and the board's last saved text by \`text "FILE"\`, both from the file that says so.

\`\`\`
file     = { blank | comment } header { blank | comment | section }
header   = "dialect" string [ "edition" integer ]
section  = "text" | "codes" | a section of a craft [ string ]        from the first column, facts below it indented
fact     = a line of "text" or "codes" | "under" board-text | "cannot" ( "all" | name { name } ) | line
line     = board-text { board-text } entry                           what the board writes, what it means
board-text = '"' { any | '\\"' | '\\\\' } '"' | "'" { any but "'" } "'"
\`\`\`

Its sections are \`text\`, how the text is built as a whole; \`codes\`, how values are spelled; and those of a craft, such as \`pack\` or \`modes\`, with one fact a line. A section may come again; the order of the lines in the file is the order in which they are tried. Comments begin with \`#\`, as in every script.

**Board text** stands between double quotes, where \`\\"\` is a quote and \`\\\\\` a backslash, or between single quotes, where nothing is escaped: take those where the board itself writes quotes or backslashes. A \`#\` inside either is text, and begins no comment.
`,
    example({
      dialect: `
board
  'stamp "{m}"'    model "{m}"
  "batch \\"{e}\\""  text-edition "{e}"  # the same, with escapes
  'feet # {h}'     hole-spacing {h} mm
`,
      reads: `
stamp "blue edge"  => read board model "blue edge"
batch "4"          => read board text-edition "4"
feet # 30.5        => read board hole-spacing 30.5 mm
`,
    }),
    `
## The section “text”

How the board's text is built as a whole. Every fact is optional. Those marked with + may be said more than once.

- \`known-by T\` +: a text in which T stands somewhere is of this dialect; of several, any of them. Where two dialects of a workspace fit, you are asked.
- \`comment T\` +: a line that begins with T is a comment.
- \`blanks loose\` (unless said): where the left side has a blank, the board's line has any run of blanks and tabs, and those at both ends of a line do not count. \`{tab}\` asks for a run with a tab in it. \`blanks exact\`: every blank counts, and a tab is another character.
- \`ends lf\` or \`ends crlf\`: the line ends of a text that is written without a base. A base keeps its own.
- \`opening T\` +, \`closing T\` +: whole lines that stand first and last, such as those that unlock a board and tell it to remember. They are sent with every text and with every set of changes.
- \`heading T\` +: a line of this form is a heading, also where no section asks for it by \`under\` (see \`dialect-reading\`). It may have slots.
- \`repeats T\` +: board lines that begin with T add up, each an item of its own. Of other lines that say the same thing, the later counts, and the earlier is odd.
- \`at-most T N\` +: the board takes at most N lines that begin with T. A line too many is not written.
- \`longest N\`: the board takes at most N characters in a line. A longer line is not written.
`,
    example({
      dialect: `
text
  known-by  "kiln of spring"
  comment   ";"
  comment   "(("
  opening   "open the door"
  closing   "close the door"
  heading   "firing {n}"

pack
  "holds {c:0 to 9999} ml"  capacity {c} mAh
`,
      reads: `
open the door            => idle
; kiln of spring         => idle
(( fired on a Tuesday    => idle
firing 1                 => idle
   holds   1100  ml      => read pack capacity 1100 mAh
close the door           => idle
`,
    }),
    "Where every blank counts, a line with one too few is another line:",
    example({
      dialect: `
text
  blanks  exact

pack
  "  holds  {c:0 to 9999}"  capacity {c} mAh
`,
      reads: `
  holds  1100  => read pack capacity 1100 mAh
 holds  1100   => kept
  holds 1100   => kept
`,
    }),
    "Lines that repeat add up; of all others the later one counts:",
    example({
      dialect: `
text
  repeats  "rim"
  at-most  "rim" 3

filters
  "rim {h:5 to 900} wide {w:1 to 200}"  notch at {h} Hz width {w} Hz

pack
  "holds {c:0 to 9999}"  capacity {c} mAh
`,
      reads: `
rim 180 wide 40  => read filters notch at 180 Hz  width 40 Hz
rim 320 wide 60  => read filters notch at 320 Hz  width 60 Hz
holds 1050       => odd (said again below)
holds 1100       => read pack capacity 1100 mAh
`,
    }),
  ],
};
