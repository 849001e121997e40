/** One line of a dialect: left and right sides. */
import { type DialectPage, example } from "./example.ts";

export const lines: DialectPage = {
  name: "dialect-lines",
  title: "Lines of a dialect",
  parts: [
    `
*left sides, slots, right sides*

A line of a section stands for lines of the board's text that look alike. Its **left side** is the board's text, with **slots** where lines differ. Its **right side** is an entry as it would stand in that section of a script, with the same slots.

## Slots

\`{NAME}\` is a slot; its name is yours: small letters, digits, \`-\`, beginning with a letter. In the left side it may say more:

- \`{w:glaze}\`: a code, from the section \`codes\`
- \`{n:1 to 8}\`: whole numbers, both ends included
- \`{c:flue=0}\`, \`{s=0}\`: a default, as the board spells it: what stands there where nobody says anything
- \`{#:0 to 9}\`: the line's number (see below)

\`{{\` is a brace of the board's own, \`{tab}\` a tab. A closing brace outside a slot is itself.
`,
    example({
      dialect: `
codes
  glaze  number 0 to 220 each 0.02 V/cell

pack
  "falls at {w:glaze}"     warn-at {w}
  "cells{tab}{n:1 to 12}"  cells {n}
  "jar {{{c:0 to 9999}}"   capacity {c} mAh
`,
      reads: `
falls at 175   => read pack warn-at 3.5 V/cell
cells	6        => read pack cells 6
jar {1100}     => read pack capacity 1100 mAh
cells	13       => odd (more than 12)
`,
    }),
    `
**Where a slot ends.** A slot holds one character or more; one with a code \`text\` or \`list\` may hold none. It ends where the text behind it stands next, and without text behind it at the end of the line. There is no second try with a longer piece: a dialect that needs one has two slots without text between them, or a separator that may stand in the value, and \`slot-endless\` tells of it.
`,
    example({
      dialect: `
board
  "stamp {m} of {e}"  model "{m}"
  "stamp {m} of {e}"  text-edition "{e}"
`,
      reads: `
stamp blue edge of clay of 4  => read board model "blue edge"; board text-edition "clay of 4"
stamp of 4                    => kept
`,
    }),
    "**A slot that is named twice** holds the same both times; a line where it does not is not of this form.",
    example({
      dialect: `
pack
  "jars of {c:0 to 9999} and {c}"  capacity {c} mAh
`,
      reads: `
jars of 1100 and 1100  => read pack capacity 1100 mAh
jars of 1100 and 1200  => kept
`,
    }),
    `
**Without a code** the board writes what a script would, less the unit and less the quotes; the unit, and the quotes, stand on the right. The number may have decimal places, a word is one of the setting's own.
`,
    example({
      dialect: `
motors
  "idle {i}"  idle {i} %

failsafe
  "then {w}"   then {w}
  "holds {t}"  hold-for {t} s
`,
      reads: `
idle 4.5     => read motors idle 4.5 %
then stop    => read failsafe then stop
holds 1.5    => read failsafe hold-for 1.5 s
then explode => odd (no word of this setting)
`,
    }),
    `
## Left sides

**One left side on several lines** means several entries from one board line. Left sides are the same if their texts and the names of their slots are; codes and defaults are not compared, so it is enough to say those once.
`,
    example({
      dialect: `
codes
  glaze  number 0 to 220 each 0.02 V/cell

pack
  "falls at {w:glaze}, ends {l:glaze}"  warn-at {w}
  "falls at {w}, ends {l}"              land-at {l}
`,
      reads: `
falls at 175, ends 165  => read pack warn-at 3.5 V/cell; pack land-at 3.3 V/cell
`,
    }),
    `
**Several texts on one left side** are several board lines that mean one entry together. They may stand in any order, with others between them, under one heading. Slots that are in all of them tie them: here the element. A line whose partner is missing is odd.
`,
    example({
      dialect: `
codes
  pot  words volts pack-volts, flow amps

osd
  "tile {e:pot} column {x:0 to 60}" "tile {e} row {y:0 to 40}"  {e} at {x}, {y}
`,
      reads: `
tile flow row 18     => read osd amps at 4, 18
tile volts row 17    => odd (its line with the column is missing)
tile flow column 4   => read osd amps at 4, 18
`,
    }),
    `
**Other left sides for one entry** are other lines that mean the same thing. All of them are read. Written is the first that can say the value exactly, else the first that can say it rounded. An optional end of a line is two such lines, the one without it with the value that is meant then.
`,
    example({
      dialect: `
codes
  axis  words R roll, P pitch, Y yaw

rates
  "spin {a:axis} {s:1 to 999} {e:1 to 1999} curl {b}"  {a} slope {s} deg/s end {e} deg/s bend {b}
  "spin {a:axis} {s:1 to 999} {e:1 to 1999}"           {a} slope {s} deg/s end {e} deg/s bend 3
`,
      reads: `
spin R 120 720 curl 2.5  => read rates roll slope 120 deg/s  end 720 deg/s  bend 2.5
spin P 120 720           => read rates pitch slope 120 deg/s  end 720 deg/s  bend 3
`,
    }),
    `
**Numbered lines.** \`{#:0 to 9}\` is the number that the board gives a line, such as the place of a mode in its table. It means nothing by itself: reading forgets it, writing chooses it (see \`dialect-writing\`). Lines with the same text before it share their numbers. Where several lines each say a field of a repeatable setting, those of one number make one item.
`,
    example({
      dialect: `
filters
  "rim {#:0 to 3} at {h:5 to 900}"    notch at {h} Hz
  "rim {#:0 to 3} wide {w:1 to 200}"  notch width {w} Hz
`,
      reads: `
rim 0 at 180   => read filters notch at 180 Hz  width 40 Hz
rim 1 at 320   => read filters notch at 320 Hz  width 60 Hz
rim 0 wide 40  => read filters notch at 180 Hz  width 40 Hz
rim 1 wide 60  => read filters notch at 320 Hz  width 60 Hz
rim 2 wide 30  => odd (its line with the frequency is missing)
`,
    }),
    `
**Beside.** A slot that the right side does not use is *beside*: it says something of which we have no name. It needs a default. The same holds for a bit of a number that no part names: its default is 0. A line whose beside is its default is read and done with; of any other the meaning is read, and the line is also kept, so that what stands beside goes back to the board.
`,
    example({
      dialect: `
pack
  "holds {c:0 to 9999} on shelf {s:0 to 9=0}"  capacity {c} mAh
`,
      reads: `
holds 1100 on shelf 2  => read pack capacity 1100 mAh
`,
      script: `
craft "Kiln, spring"

pack
  capacity  1100 mAh

verbatim "Kiln, spring"
  |holds 1100 on shelf 2
`,
    }),
    `
## Right sides

A right side is an entry of its section: a name, and its value as a script writes it. A slot may stand for

- a value, or a field's value, with the unit behind it if its code has none: \`capacity {c} mAh\`
- the name: \`{e} at {x}, {y}\`; a part of it: \`motor{n} direction {d}\`
- text, or a part of it: \`model "{m}"\`, \`text-edition "kiln {n}"\`
- in a condition the mode, the channel, the ends: \`{m} when {c} in {a} to {b}\`
`,
    example({
      dialect: `
codes
  turn  words sun clockwise, moon anticlockwise

motors
  "wheel {n:1 to 4} turns with the {d:turn}"  motor{n} direction {d}

board
  "batch {n:1 to 99}"  text-edition "kiln {n}"
`,
      reads: `
wheel 1 turns with the sun   => read motors motor1 direction clockwise
wheel 4 turns with the moon  => read motors motor4 direction anticlockwise
batch 7                      => read board text-edition "kiln 7"
`,
    }),
    "`{p.row}` is one part of a slot whose code packs several values into one number (`bits`, on the page `dialect-codes`):",
    example({
      dialect: `
codes
  pot   words 3 pack-volts, 9 amps
  spot  bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset

osd
  "tile {e:pot} {p:spot=0000}"  {e} at {p.column}, {p.row}
`,
      reads: `
tile 3 40D2  => read osd pack-volts at 3, 18
tile 9 0000  => read
`,
    }),
    `
**A value in two parts**: \`{h} + {l}\`. The slots add up. Written, the one with the largest step takes as much as it can, and so on down.
`,
    example({
      dialect: `
codes
  coarse  number 0 to 200 each 1 A
  fine    number 0 to 99 each 0.01 A

pack
  "hover {h:coarse} and {l:fine}"  hover-current {h} + {l}
`,
      reads: `
hover 6 and 50  => read pack hover-current 6.5 A
`,
      writes: {
        craft: `
craft "Tankard"

pack
  hover-current  7.25 A
`,
        base: "hover 6 and 50",
        text: "hover 7 and 25",
      },
    }),
    `
**Nothing is set.** \`unset\` says so, in three places: in a code, where one spelling means it (\`words - unset, a arm\`); behind a name, where a whole line means it (\`{e} unset\`, \`idle-disarm-after unset\`); and alone as the right side, where a numbered line is empty. Such a line is read and adds nothing to the script. Written, it is how the board is told to forget.
`,
    example({
      dialect: `
codes
  pot   words 3 pack-volts, 9 amps
  does  words - unset, a arm, f level
  flue  number 0 to 11 from ch5

osd
  "tile {e:pot} off"                         {e} unset
  "tile {e:pot} at {x:0 to 60}/{y:0 to 40}"  {e} at {x}, {y}

safety
  "rests {t:1 to 60}"  idle-disarm-after {t} s
  "rests not"          idle-disarm-after unset

modes
  "shelf {#:0 to 9} bare"  unset
  "shelf {#:0 to 9} {m:does} by {c:flue=0}, {a:800 to 2200=1000} to {b:800 to 2200=2000}"  {m} when {c} in {a} us to {b} us
`,
      reads: `
tile 3 off                      => read
tile 9 at 4/18                  => read osd amps at 4, 18
rests not                       => read
shelf 0 a by 0, 1700 to 2000    => read modes arm when ch5 in 1700 us to 2000 us
shelf 1 - by 0, 1000 to 2000    => read
shelf 2 bare                    => read
`,
    }),
    `
**A pack of its own.** A section may have a title with a slot. Then the board's line says which pack it speaks of:
`,
    example({
      dialect: `
pack "{n}"
  "jar {n} holds {c:0 to 9999}"  capacity {c} mAh

pack
  "every jar holds {c:0 to 9999}"  capacity {c} mAh
`,
      reads: `
every jar holds 1100  => read pack capacity 1100 mAh
jar Tired holds 1050  => read pack/Tired capacity 1050 mAh
`,
    }),
    `
**Two ratios.** Boards often keep one figure where a script names two parts. In \`pack\` a right side may be \`divider-ratio\`, which is (top + bottom) / bottom, and \`shunt-scale\`, which is shunt × gain, in mohm. Read, they become \`divider-top\` and \`divider-bottom\`, \`shunt\` and \`shunt-gain\`: with the bottom and the gain of the craft for which one reads, else with 1 kohm and a gain of 1, and a note says so.
`,
    example({
      dialect: `
codes
  leak   number 10 to 600 each 0.1
  amber  number 1 to 9999 each 0.1 mohm

pack
  "leaks by {r:leak}"      divider-ratio {r}
  "amber scale {k:amber}"  shunt-scale {k}
`,
      reads: `
leaks by 110     => read pack divider-top 10 kohm; pack divider-bottom 1 kohm
amber scale 125  => read pack shunt 12.5 mohm; pack shunt-gain 1
`,
    }),
    `
**What the board cannot say.** \`cannot NAME…\` in a section says that the board has no line for these names, \`cannot all\` that it has none for the whole section. They are never reported as missing; everything else that a craft says and the dialect does not know is.
`,
    example({
      dialect: `
pack
  "holds {c:0 to 9999}"  capacity {c} mAh
  cannot plug bought-on

frame
  cannot all
`,
      writes: {
        craft: `
craft "Tankard"

frame
  mass  640 g

pack
  capacity  1300 mAh
  plug      "60 A, yellow"
`,
        base: "holds 1100",
        text: "holds 1300",
      },
    }),
  ],
};
