/** The files among which the command lines of `commands.txt` run. */
import { folderOf } from "../program.ts";
import { wheel } from "../shed.ts";

const kiln = `dialect "Kiln"

text
  known-by  "kiln of clay"
  comment   ";"
  closing   "let it cool"

codes
  cone   number 0 to 250 each 0.02 V/cell
  flue   number 0 to 11 from ch5
  draw   number 0 to 60 from 900 us each 20 us
  does   words idle unset, lit arm, flat level, over turtle

pack
  "cone {w:cone} ends {l:cone}"      warn-at {w}
  "cone {w} ends {l}"                land-at {l}
  "holds {c:100 to 9000}"            capacity {c} mAh

modes
  "shelf {#:0 to 5} {m:does} by {c:flue=0} {a:draw=0}..{b:draw=0}"  {m} when {c} in {a} to {b}

rates
  "turn {s:1 to 99} {e:1 to 99}"     roll curve 10 * ({s} * stick + {e} * (stick ^ 3 + stick ^ 5) / 2)

safety
  "tilt {a:0 to 90}"                 arm-tilt-limit {a} deg
`;

const jugText = `kiln of clay
cone 175 ends 165
holds 1100
shelf 0 lit by 0 30..60
shelf 1 flat by 1 18..41
shelf 2 singing by 2 30..60
tilt 30
moon in the third house
`;

const jug = `craft "Jug"

use "wheel.fettle"

board
  dialect  "kiln.fettle"
  text     "jug.txt"

pack
  capacity  1300 mAh
  warn-at   3.511 V/cell
  land-at   3.3 V/cell

safety
  arm-tilt-limit  30 deg

modes
  arm    when TL is down
  level  when TR is mid
`;

/** The kiln after an update: coarser cones under another word, no tilt any more, and a lid. */
const newKiln = kiln
  .replace('"Kiln"', '"Kiln, new"')
  .replace("kiln of clay", "kiln of brick")
  .replace("each 0.02", "each 0.05")
  .replaceAll('"cone {w', '"melts {w')
  .replace(
    '  "tilt {a:0 to 90}"                 arm-tilt-limit {a} deg\n',
    '  "lid {h:0 to 9}"  idle-disarm-after {h} s\n',
  );

const twin = (name: string) => `dialect "${name}"

text
  known-by  "two of a kind"
`;

/** A new folder with all of them. */
export function boardShed(): Promise<string> {
  return folderOf({
    "kiln.fettle": kiln,
    "new-kiln.fettle": newKiln,
    "jug.txt": jugText,
    "jug.fettle": jug,
    "wheel.fettle": wheel,
    "unlike.fettle": jug.replace("when TR is mid", "when TR is mid and TL is up"),
    "no-board.fettle": jug.replace(/board\n.*\n.*\n/, ""),
    "no-text.fettle": jug.replace("jug.txt", "gone.txt"),
    "same.fettle": jug.replace("1300", "1100").replace("3.511", "3.5"),
    "accent.fettle": jug.replace("jug.txt", "latin.txt"),
    "faulty.fettle": 'dialect "Faulty"\n\npack\n  "cone {w}"  worn-at {w} V/cell\n',
    "latin.txt": Buffer.from("kiln of clay\ncone 175 ends 165\nglaze of Müller\n", "latin1"),
    "crlf.txt": jugText.replaceAll("\n", "\r\n"),
    "empty.txt": "",
    "read/keep.txt": "",
    "twin/left.fettle": twin("Left"),
    "twin/right.fettle": twin("Right"),
    "twin/two.txt": "two of a kind\n",
    ...Object.fromEntries(
      [1100, 1300, 850].flatMap((capacity, i) => [
        [`mug-${i}.fettle`, `craft "Mug"\n\npack\n  capacity  ${capacity} mAh\n`],
        [`mug-${i}.txt`, `clay mug\nholds ${capacity}\nstands 7\n`],
      ]),
    ),
    ".fettle-root": "",
  });
}
