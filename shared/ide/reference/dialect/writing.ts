/** How a craft becomes board text. */
import { type DialectPage, example } from "./example.ts";
import { WHEEL } from "./reading.ts";

export const writing: DialectPage = {
  name: "dialect-writing",
  title: "Writing board text",
  parts: [
    `
*the base, conditions, curves, and what stays as it was*

⚠ Propellers off before a text goes to a board: what was written may arm it.

What is written is the effective craft, all its files laid over each other, **without defaults**: what nobody said is not written. It is written onto a **base**: the board's last saved text, which the craft's \`board.text\` names, or the one that you give. Without a base the script's kept lines of this dialect are the base. Its encoding (UTF-8, otherwise Latin-1) and its line ends stay.

## What changes, and what does not

A line of the base that says already what the craft says is not touched, however it is spelled. Where it says something else, only the slots that differ change, if that line can say it.
`,
    example({
      dialect: `
codes
  glaze  number 0 to 220 each 0.02 V/cell

pack
  "falls at {w:glaze}, ends {l:glaze}"  warn-at {w}
  "falls at {w}, ends {l}"              land-at {l}
  "holds {c:0 to 9999}"                 capacity {c} mAh
`,
      writes: {
        craft: `
craft "Tankard"

pack
  capacity  1100 mAh
  warn-at   3.6 V/cell
  land-at   3.3 V/cell
`,
        base: `
shelf 3 is warm
falls  at 175, ends 0165
holds 01100
`,
        text: `
shelf 3 is warm
falls  at 180, ends 0165
holds 01100
`,
        changes: "falls  at 180, ends 0165",
      },
    }),
    `
**A new line** stands under its heading. There it comes behind the last line of the same form; without one behind the last of a form that stands earlier in the dialect; else before the first of a later one; else last. Numbered lines stand by number, others by the order of their codes. New headings come last, but before the closing lines and before a bare heading that ends the base. Kept lines of the script that a given base lacks are put under their headings in the same way.
`,
    example({
      dialect: `
text
  closing  "close the door"

pack
  "cells {n:1 to 12}"    cells {n}
  "holds {c:0 to 9999}"  capacity {c} mAh

motors
  "idle {i}"  idle {i} %
`,
      writes: {
        craft: `
craft "Tankard"

pack
  cells     6
  capacity  1100 mAh

motors
  idle  5 %
`,
        base: `
cells 4
idle 5
shelf 3 is warm
close the door
`,
        text: `
cells 6
holds 1100
idle 5
shelf 3 is warm
close the door
`,
        changes: `
cells 6
holds 1100
close the door
`,
      },
    }),
    `
**Numbers** (\`{#:…}\`). A line that stays equal keeps its number; one that changes takes a number that its mode had; otherwise the lowest free one. Lines that no one understands, and odd ones, hold their numbers. The items of a repeatable setting count up.

**What only the base says.** Modes, outputs, elements and numbered lines that the base has and the craft has not become \`unset\`, where the dialect can say that; otherwise the line goes, and the report says that it is to be cleared on the board by hand, since a board does not forget a line that it is not sent. Other settings that only the base says stay, and are listed. Without a base, everything that can be unset is, in the sections that the craft has.
`,
    example({
      dialect: `
codes
  does  words - unset, a arm, f level, t turtle
  flue  number 0 to 11 from ch5

modes
  "shelf {#:0 to 3} {m:does} by {c:flue=0} {a:800 to 2200=1000}..{b:800 to 2200=1000}"  {m} when {c} in {a} us to {b} us
`,
      writes: {
        craft: `
craft "Tankard"

modes
  arm  when ch5 in 1700 us to 2000 us
`,
        base: `
shelf 0 a by 0 1700..2000
shelf 1 t by 3 1700..2000
`,
        text: `
shelf 0 a by 0 1700..2000
shelf 1 - by 0 1000..1000
`,
        changes: "shelf 1 - by 0 1000..1000",
      },
    }),
    `
**What nobody says.** A board's line may hold more than the craft says. A slot for it takes what the base has there, else its default, else what the right side says if that is our default too; the report lists it as filled. Where nothing gives it, the line is not written.

**What does not fit.** A value between two steps of the board becomes the nearest, of two equally near the lower; the report gives both. A value outside the bounds, a text too long, a line too many or too long is not written, and the report says why. Before a new line is written it is read back by the same dialect; one that would mean something else is not written either.

**Changes only** are the changed lines with the headings they need, those without heading first, between opening and closing; nothing where nothing changed.

## Conditions

The right sides with \`when\` say which conditions the board has lines for:

- \`{m} when {c} in {a} to {b}\`: a range on a channel; with \`and\` several ranges that must all hold
- \`{m} when {n}\`, or a name in place of \`{n}\`: a mode that is on when another is
- \`{m} when always\`

A condition that is just a mode, or \`always\`, takes that form. For any other, the fewest lines are sought that together say exactly the same in every state of the handset. Up to 12 candidate lines it is proven that there are no fewer; beyond, the report says that it is not.

An end of a range is the script's own bound, if that lies between the last pulse inside and the first outside; else half-way between those two; at the outside the end of what the board can say. It is rounded to the board's steps, but stays strictly between the two pulses. On dials and free channels rounding may move the edge, and the report says so. Elsewhere nothing may differ in any state: a condition that the board's lines cannot say is not written, and the finding \`board-cannot\` on the mode's line shows a state in which board and script would differ.
`,
    example({
      dialect: `
codes
  draw  number 0 to 60 from 880 us each 20 us
  flue  number 0 to 11 from ch5
  does  words - unset, a arm, f level

modes
  "shelf {#:0 to 3} {m:does} by {c:flue=0} {a:draw=0}..{b:draw=0}"  {m} when {c} in {a} to {b}
`,
      writes: {
        craft: `
craft "Tankard"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us

modes
  arm    when TL is down
  level  when TR is mid
`,
        base: `
shelf 0 - by 0 0..0
shelf 1 - by 0 0..0
`,
        text: `
shelf 0 a by 0 31..60
shelf 1 f by 1 18..43
`,
      },
    }),
    `
## Curves

In \`curve FORMULA\` may stand \`stick\` (from -1 to 1), slots, numbers, \`+ - * / ^ ( )\`, and \`abs(…)\`, \`sign(…)\`, \`min(…, …)\`, \`max(…, …)\`. \`^\` binds first and groups to the right: \`2 ^ 3 ^ 2\` is 512. The formula gives deg/s. It is read by this tool and never run as code.

Between the board's figures and our slope, end and bend the nearest fit is sought both ways, by least squares over 201 even places of the stick. Of equally good figures for the board those of the base count, then the defaults, then the lowest. Slope and end are given to 1 deg/s, the bend to 0.01; a straight line has no bend. The report tells the largest deviation over 2,001 places, in deg/s. Where it is more than 5 % of the highest rate, nothing is read or written.

## What holds for every dialect

- Each line of a text has exactly one state.
- Reading a text and writing it back onto itself gives the same text, byte for byte, opening and closing apart.
- Writing a craft and reading it back gives the craft, up to what the report says was rounded, filled or not written.
- Writing what was read from what was written gives the same text once more, curves apart.
`,
    "A text that is read with the handset and written onto itself changes nothing:",
    example({
      dialect: `
codes
  does  words - unset, a arm, f level
  flue  number 0 to 11 from ch5

modes
  "shelf {#:0 to 3} {m:does} by {c:flue=0} {a:800 to 2200=1000}..{b:800 to 2200=1000}"  {m} when {c} in {a} us to {b} us
`,
      handset: WHEEL,
      reads: `
shelf 0 a by 0 1700..2100  => read modes arm when TL is down
shelf 1 f by 1 1300..1700  => read modes level when TR is mid
`,
    }),
  ],
};
