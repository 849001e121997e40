/** How a board spells a value. */
import { type DialectPage, example } from "./example.ts";

export const codes: DialectPage = {
  name: "dialect-codes",
  title: "Codes",
  parts: [
    `
*how a board spells a value*

Boards keep numbers in steps, words as figures, several values in one number. A **code** says how. It stands in the section \`codes\`, with a name of your own, and slots name it: \`{w:glaze}\`. One code may serve many slots.

\`\`\`
NAME  number [A to B] [from V] [each V] [into V] [places N] [unset N] [base N] [digits N]
NAME  words THEIRS OURS, THEIRS OURS, …
NAME  letters THEIRS OURS, …
NAME  list CODE by TEXT
NAME  bits [base N] [digits N] N-M PART[:CODE], N PART[:CODE], N is 0 or 1 [or unset], …
NAME  set [base N] [digits N] N OURS, N OURS, …
NAME  text [within TEXT] [escape TEXT] [longest N]
\`\`\`

What follows the kind may stand in any order. \`words\`, \`letters\` and \`set\` may go on in further lines of the same name, which say the kind again.

## number

The board writes n, and means \`from\` + n × \`each\`. \`A to B\` are the bounds of n itself, as the board writes it; a value outside them is odd when it is read, and is not written. Without \`from\` it is 0, without \`each\` 1. The unit stands behind \`each\` or \`from\`; without one the right side has it.
`,
    example({
      dialect: `
codes
  glaze  number 0 to 220 each 0.02 V/cell
  draw   number 0 to 60 from 880 us each 20 us
  lift   number 0 to 1000 each 0.1

pack
  "falls at {w:glaze}"  warn-at {w}

safety
  "wakes below {t:draw}"  arm-throttle-limit {t}

motors
  "idle {i:lift}"  idle {i} %
`,
      reads: `
falls at 175    => read pack warn-at 3.5 V/cell
wakes below 9   => read safety arm-throttle-limit 1060 us
idle 45         => read motors idle 4.5 %
falls at 221    => odd (more than 220)
`,
    }),
    `
n is a whole number, unless \`places N\` gives it decimal places: then the board writes N of them, and fewer are read as well. \`unset N\` is the n that means that nothing is set.

\`into V\` is for boards that keep a period instead of a frequency, or the other way round: the board writes n for V / n.

\`from ch5\` is for channels: n counts from that channel on.
`,
    example({
      dialect: `
codes
  warm  number 0.00 to 5.00 each 1 V/cell places 2
  rest  number 0 to 60 each 1 s unset 0
  beat  number 1 to 60000 into 1000000 Hz
  flue  number 0 to 11 from ch5

pack
  "ends at {v:warm}"  land-at {v}

safety
  "rests after {t:rest}"  idle-disarm-after {t}

link
  "one beat takes {b:beat}"  packet-rate {b}

modes
  "arm by flue {c:flue}"  arm when {c} in 1700 us to 2000 us
`,
      reads: `
ends at 3.30         => read pack land-at 3.3 V/cell
rests after 0        => read
one beat takes 4000  => read link packet-rate 250 Hz
arm by flue 2        => read modes arm when ch7 in 1700 us to 2000 us
`,
    }),
    `
\`base 16\` and \`digits 4\` say how n is spelled: in base 2 to 36, padded with noughts to so many digits. Capital and small letters are both read; written are capitals. A number below nought is a minus and digits in base 10; in base 2, 4, 8, 16 and 32 it is the two's complement, over as many bits as the digits hold, and over 32 where \`digits\` is not said.
`,
    example({
      dialect: `
codes
  lean  number -180 to 180 each 1 deg base 16 digits 4
  heel  number -900 to 900 each 0.1 deg base 16 digits 4
  tilt  number -900 to 900 each 0.1 deg

sensors
  "turned {y:lean}"  mount-yaw {y}
  "heeled {r:heel}"  level-trim-roll {r}
  "leans {p:tilt}"   level-trim-pitch {p}
`,
      reads: `
turned 005A  => read sensors mount-yaw 90 deg
heeled fff6  => read sensors level-trim-roll -1 deg
leans -15    => read sensors level-trim-pitch -1.5 deg
`,
    }),
    `
## words

\`T OURS\`: the board writes T where we say OURS, which is a word of a setting, a mode, an element, any name or value, or \`unset\`. Each side stands once. T needs quotes where it has a blank, a comma, a quote or a \`#\` in it.
`,
    example({
      dialect: `
codes
  does  words - unset, a arm, f level
  does  words t turtle, "f + t" recorder
  seat  words "rear, port" rear-left, "rear, starboard" rear-right

modes
  "row {#:0 to 9} {m:does} from {a:800 to 2200=1000} to {b:800 to 2200=2000}"  {m} when ch6 in {a} us to {b} us

motors
  "wheel {n:1 to 4}: {p:seat}"  motor{n} place {p}
`,
      reads: `
row 0 t from 1700 to 2000      => read modes turtle when ch6 in 1700 us to 2000 us
row 1 f + t from 1700 to 2000  => read modes recorder when ch6 in 1700 us to 2000 us
row 2 x from 1700 to 2000      => odd (“x” is no word of the code)
wheel 1: rear, port            => read motors motor1 place rear-left
`,
    }),
    `
## letters and list

\`letters\` is an order with nothing between the letters, such as that of the sticks. \`list CODE by T\` is a list: items that another code spells, with T between them; a list may be empty.
`,
    example({
      dialect: `
codes
  hand   letters R roll, P pitch, T throttle, Y yaw
  alarm  words lo low-pack, wk weak-link, hot hot-esc
  watch  list alarm by "/"

link
  "weft {o:hand}"  order {o}

osd
  "bells {a:watch}"  alert-on {a}
`,
      reads: `
weft RPTY       => read link order roll pitch throttle yaw
bells lo/hot    => read osd alert-on low-pack, hot-esc
weft RPT?       => odd (“?” is no letter of the code)
`,
    }),
    `
## bits and set

\`bits\` takes one number apart. Bits count from 0, the lowest. \`0-4 row\` names a part, which right sides call \`{p.row}\`; \`6-11 column:glaze\` gives it a code of its own. \`14 is 1\` says that this bit always has this value: another one is odd. \`14 is 1 or unset\`: with another value nothing is set. A bit that nothing names is beside: 0, or the line is also kept.

\`set\` is a list in which each item is a bit: it is on the list where its bit is 1.
`,
    example({
      dialect: `
codes
  pot    words 3 pack-volts, 9 amps
  spot   bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset
  bells  set base 2 digits 4 0 low-pack, 1 weak-link
  bells  set 3 hot-esc

osd
  "tile {e:pot} {p:spot=0000}"  {e} at {p.column}, {p.row}
  "bells {b:bells}"             alert-on {b}
`,
      reads: `
tile 3 40d2   => read osd pack-volts at 3, 18
tile 9 0112   => read
bells 1001    => read osd alert-on low-pack, hot-esc
`,
    }),
    `
## text

\`text\` is text with marks around it, so that blanks and separators may stand in it: \`within T\` is the mark on both sides, \`escape T\` what stands before a mark or an escape that belongs to the text. It ends at its closing mark. \`longest N\` is how many characters the board takes; longer text is not written. On the right it stands in quotes like all text.
`,
    example({
      dialect: `
codes
  tag  text within '/' escape '!' longest 20

board
  'stamp {m:tag} of batch {e}'  model "{m}"
  'stamp {m} of batch {e}'      text-edition "{e}"
  'label {t:tag}'               note "{t}"
`,
      reads: `
stamp /blue edge/ of batch 4    => read board model "blue edge"; board text-edition "4"
label /1!/2 of batch!!/         => read board note "1/2 of batch!"
`,
    }),
  ],
};
