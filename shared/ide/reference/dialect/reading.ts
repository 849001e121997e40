/** Headings, and how board text becomes a script. */
import { type DialectPage, example } from "./example.ts";

/** A handset for examples with channels. */
export const WHEEL = `
handset "Wheel"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  KN  dial    ch9  1000 us to 2000 us
`;

export const reading: DialectPage = {
  name: "dialect-reading",
  title: "Reading board text",
  parts: [
    `
*headings, states of lines, channels that become controls*

How a dialect tells what stands below which heading, what each line of a board's text becomes, and how channels become the controls of the handset.

## Headings

Some boards say first what the following lines are about. \`under T\`, as a line of a section, says that the section's lines from here on count only below a board line T. T may have slots. Any line of the form of a \`heading\` (section \`text\`) or of an \`under\` closes the heading before.

A second set is often the same lines under another heading. A section \`rates-second\`, \`gains-second\` or \`osd-second\` that has only \`under\` takes the lines of the first.
`,
    example({
      dialect: `
text
  heading  "firing {n}"

codes
  axis  words R roll, P pitch, Y yaw

rates
  under "firing 1"
  "spin {a:axis} {s:1 to 999} {e:1 to 1999}"  {a} slope {s} deg/s end {e} deg/s bend 3

rates-second
  under "firing 2"
`,
      reads: `
spin R 120 720  => kept
firing 1        => idle
spin R 120 720  => read rates roll slope 120 deg/s  end 720 deg/s  bend 3
firing 2        => idle
spin R 60 320   => read rates-second roll slope 60 deg/s  end 320 deg/s  bend 3
firing 3        => idle
spin R 40 200   => kept
`,
    }),
    `
\`under ""\` is for lines above all headings. Lines without \`under\` count anywhere, and are tried after those of the open heading.

**The slots of a heading serve below it**, as if they stood in each line:
`,
    example({
      dialect: `
pack
  under ""
  "holds {c:0 to 9999}"  capacity {c} mAh

pack "{n}"
  under "jar {n}"
  "holds {c:0 to 9999}"  capacity {c} mAh
`,
      reads: `
holds 1100  => read pack capacity 1100 mAh
jar Tired   => idle
holds 1050  => read pack/Tired capacity 1050 mAh
`,
    }),
    `
## How a line is tried

A line of the board is tried as blank, comment, opening, closing and heading; then by the lines of the dialect under the open heading, in the order of the file; then by those without \`under\`. The first that fits counts, values included: a line whose text fits but whose value does not is tried by the next ones. So the more special form stands before the more general one; one that can never be reached has the finding \`line-beaten\`.
`,
    example({
      dialect: `
codes
  ever  words ever never

safety
  "rests after {t:1 to 60}"  idle-disarm-after {t} s
  "rests after {w:ever}"     idle-disarm-after {w}
`,
      reads: `
rests after ever  => read safety idle-disarm-after never
rests after tea   => odd (neither a number nor a word of the code)
`,
    }),
    `
Every line of the text has one state:

- *read*: its meaning is in the script. A line that says that nothing is set is read too, and says nothing.
- *odd*: it fits but for a value; or its value is beyond what any craft can have; or it is half of an entry whose other half is missing; or a later line says the same thing again.
- *kept*: no line of the dialect fits.
- *idle*: blank, comment, opening, closing, heading.
`,
    example({
      dialect: `
codes
  leaf  number 0 to 9000 each 0.1 V/cell

pack
  "holds {c:0 to 9999}"  capacity {c} mAh
  "falls at {w:leaf}"    warn-at {w}
`,
      reads: `
holds 1050      => odd (said again below)
holds 1100      => read pack capacity 1100 mAh
holds much      => odd (no number)
falls at 900    => odd (90 V/cell is beyond what a cell can have)
ash at the back => kept
`,
    }),
    `
## What the script keeps

Kept lines, odd lines and comments go into the section \`verbatim\` of the script, byte for byte, in their order; so do lines whose beside is not the default (see \`dialect-lines\`) and headings with nothing below them. Each stands behind the heading under which it stood. Blank lines do not.

Values take the unit that the setting is given in. They are exact decimals; where a board divides (\`into\`) and the decimals never end, six figures.
`,
    example({
      dialect: `
text
  comment  ";"
  heading  "firing {n}"

pack
  "holds {c:0 to 9999}"  capacity {c} mAh
`,
      reads: `
; the square one     => idle
holds 1100           => read pack capacity 1100 mAh
firing 1             => idle
shelf 3 is warm      => kept
firing 2             => idle
`,
      script: `
craft "Kiln, spring"

pack
  capacity  1100 mAh

verbatim "Kiln, spring"
  |; the square one
  |firing 1
  |shelf 3 is warm
  |firing 2
`,
    }),
    `
## Channels and ranges

Boards know channels; scripts know the controls of a handset. Read with a handset (the craft's own, or one that you choose), a channel becomes the control that drives it, and in \`follows\` the dial. A range of pulses becomes the positions that lie in it: one position \`TL is down\`; all but one \`TR is not down\`; others \`TR is up or TR is mid\`.

A range stays a range on a dial, on a channel without a control, and where all positions or none lie in it. It stays one too where a position lies within 20 us of an end of the range that is inside \`link.endpoints\` (1000 us to 2000 us unless said), so that \`thin-margin\` still sees how narrow it is. Without a handset channels stay \`ch5\`, and nothing is lost.
`,
    example({
      dialect: `
codes
  draw  number 0 to 60 from 880 us each 20 us
  flue  number 0 to 11 from ch5
  does  words - unset, a arm, f level, t turtle, r recorder, n finder

modes
  "shelf {#:0 to 9} {m:does} by {c:flue=0} {a:draw=0}..{b:draw=0}"  {m} when {c} in {a} to {b}
`,
      handset: WHEEL,
      reads: `
shelf 0 a by 0 41..60   => read modes arm when TL is down
shelf 1 f by 1 0..42    => read modes level when TR is not down
shelf 2 t by 4 46..60   => read modes turtle when KN in 1800 us to 2080 us
shelf 3 r by 1 20..32   => read modes recorder when TR in 1280 us to 1520 us
shelf 4 n by 9 41..60   => read modes finder when ch14 in 1700 us to 2080 us
shelf 5 - by 0 0..0     => read
`,
    }),
    `
Several lines of one mode join as “or”. A condition that says the same in every state of the handset is not made shorter than that: the script says what the board does, no more.

## Curves

\`curve FORMULA\` on the right of an axis in \`rates\` says how the board computes the rate of turn in deg/s from \`stick\`, which goes from -1 to 1. Read, the axis gets the slope, end and bend that come nearest to it; the page \`dialect-writing\` says how.
`,
    example({
      dialect: `
codes
  axis  words R roll, P pitch, Y yaw

rates
  "spin {a:axis} {s:1 to 99} {e:0 to 99}"  {a} curve 10 * ({s} * stick + {e} * stick ^ 5)
`,
      reads: `
spin R 20 40  => read rates roll slope 200 deg/s  end 600 deg/s  bend 5
`,
    }),
  ],
};
