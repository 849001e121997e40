/** A workspace in which one text of a stranger stands in every place of every kind of file that can hold it. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";

/** Where the text is not a text but a part of the line, it may not break the line. */
const onOneLine = (text: string) => text.replaceAll(/[\r\n]+/g, " ");

const cut = (text: string, most: number) => onOneLine([...text].slice(0, most).join(""));

/** As a string of the language, at most so long. */
function quoted(text: string, most = 200): string {
  return `"${cut(text, most).replaceAll(/[\\"]/g, "\\$&")}"`;
}

/**
 * What a disk takes as part of a file's name, and a line can name: at most 80 bytes of UTF-8 without the characters
 * that part folders somewhere.
 */
export function fileNameOf(text: string): string {
  let name = "";
  for (const character of onOneLine(text).replaceAll(/[/\\\u0000]|\p{Cs}/gu, "·"))
    if (Buffer.byteLength(name + character) <= 80) name += character;
  return `x${name}x`;
}

/** Every setting that takes a text, with the text in it. */
function textSettings(text: string, sections: readonly string[]): string {
  const { sections: all } = makeCatalogue();
  return all
    .filter(({ name }) => sections.length === 0 || sections.includes(name))
    .flatMap((section) => {
      const lines = section.settings.flatMap(({ name, types }) => {
        const type = types.find((each) => each.is === "text");
        return type?.is === "text" ? [`  ${name}  ${quoted(text, type.longest)}  # ${onOneLine(text)}\n`] : [];
      });
      return lines.length === 0 ? [] : [`# ${onOneLine(text)}\n${section.name}\n${lines.join("")}\n`];
    })
    .join("");
}

export interface Shed {
  /** Texts by path, without a folder around them. */
  readonly texts: Readonly<Record<string, string>>;
  readonly craft: string;
  readonly other: string;
  readonly layer: string;
  readonly handset: string;
  readonly otherHandset: string;
  readonly dialect: string;
  /** The board's text, by the dialect. */
  readonly board: string;
}

/** The workspace of a text. */
export function shedOf(text: string): Shed {
  const file = fileNameOf(text);
  const line = onOneLine(text);
  const name = quoted(text);
  const craft = `craft/${file}.fettle`;
  const other = `craft/other ${file}.fettle`;
  const layer = `layers/${file}.fettle`;
  const handset = `handsets/${file}.fettle`;
  const otherHandset = `handsets/other ${file}.fettle`;
  const dialect = `boards/${file}.fettle`;
  const board = `boards/${file}.txt`;
  const up = (path: string) => quoted(`../${path}`, 400);
  return {
    craft,
    other,
    layer,
    handset,
    otherHandset,
    dialect,
    board,
    texts: {
      [craft]: `# ${line}
craft ${name}  # ${line}

use ${up(handset)}
use ${up(layer)}
use ${quoted(`../layers/gone ${file}.fettle`, 400)}
use ${up(craft)}
use ${name}

${textSettings(text, [])}# ${line}
pack
  # ${line}
  chemistry  lipo
  cells      6  # ${line}
  # allow out-of-range: ${line}
  capacity   9999999 mAh
  # allow ${line}: ${line}
  warn-at    3.1 V/cell
  land-at    3.3 V/cell  # ${line}
  hover-current  ${name}

# ${line}
pack ${name}
  capacity  1050 mAh  # ${line}
  warn-at   3.2 V/cell

modes
  # ${line}
  arm      when TL is down or PB is held
  level    when TR is ${line}
  turtle   when TL is down  # ${line}
  recorder ${line}
  ${line}  when TL is up
  finder   when ch16 above 1500  # ${line}

outputs
  # ${line}
  lamp  when TL is down  # ${line}

osd
  # ${line}
  grid        53 x 20
  pilot-name  ${quoted(text, 16)}
  pack-volts  at left+3, bottom-2  # ${line}
  amps        at left+3, bottom-2
  craft       at left+3, top+1  # ${line}
  pilot       at centre, top+2
  message     at ${line}

rates
  # ${line}
  roll  slope 120 deg/s  end 720 deg/s  # ${line}

adjust
  # ${line}
  overall  follows KN from 0.85 to 1.15  # ${line}

motors
  motor1  place rear-left  direction clockwise  # ${line}

board
  dialect  ${up(dialect)}
  text     ${up(board)}

bench
  # ${line}
  order-checked  2026-02-01  # ${line}

pack
  ${line}  3 V
  no-such-${line}  3
  cells  ${line}

drop ${line}
${line}
  ${line}

verbatim ${name}
  | ${line}
  ${line}
verbatim ${name}
  | again ${line}
`,
      [other]: `craft ${quoted(`other ${text}`)}

use ${up(handset)}
use ${up(layer)}

# ${line}
pack
  cells    4  # ${line}
  warn-at  3.6 V/cell

# ${line}
modes
  # ${line}
  turtle  when TR is down

osd
  grid        53 x 20
  pack-volts  at left+3, bottom-2  # ${line}
  craft       at left+3, top+1
  pilot       at centre, top+2
  pilot-name  ${quoted(text, 16)}

rates
  roll   slope 120 deg/s  end 720 deg/s  # ${line}
  pitch  slope 120 deg/s  end 720 deg/s
  yaw    slope 110 deg/s  end 560 deg/s

sensors
  loop-rate  4 kHz  # ${line}

filters
  smooth-gyro  cut 400 Hz  order 1  # ${line}

frame
  motors  4

motors
  motor1  place rear-left    direction clockwise  # ${line}
  motor2  place front-left   direction anticlockwise
  motor3  place front-right  direction clockwise
  motor4  place rear-right   direction anticlockwise

${textSettings(text, ["board", "pack", "link", "camera"])}
# ${line}
board
  dialect  ${up(dialect)}
  text     ${up(board)}

bench
  order-checked  2026-02-01  # ${line}

verbatim ${name}
  | ${line}
`,
      [layer]: `# ${line}
layer ${name}

use ${up(handset)}

# ${line}
modes
  # ${line}
  level-blend  when TR is down  # ${line}

# ${line}
pack
  # ${line}
  reserve  20 %  # ${line}
`,
      [handset]: `# ${line}
handset ${name}

# ${line}
transmitter
  # ${line}
  band  2.4 GHz  # ${line}

controls
  # ${line}
  TL  switch  ch5  up 1000 us  down 2000 us  # ${line}
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  PB  button  ch7  rest 1000 us  held 2000 us
  KN  dial    ch9  1000 us to 2000 us  # ${line}
  XX  switch  ch10  ${line} 1000 us  down 2000 us
`,
      [otherHandset]: `# ${line}
handset ${quoted(`other ${text}`)}

controls
  # ${line}
  LA  switch  ch5  low 1000 us  high 2000 us  # ${line}
  RA  switch  ch6  low 1000 us  mid 1500 us  high 2000 us
`,
      [dialect]: `# ${line}
dialect ${name}

text
  known-by  ${quoted(`known ${text}`)}  # ${line}
  comment   ${quoted(`;${text}`)}
  opening   ${quoted(`known ${text}`)}
  heading   ${quoted(`part ${text} {n}`)}
  repeats   ${name}

codes
  # ${line}
  volts  number 0 to 220 each 0.02 V/cell  # ${line}
  does   words ${quoted(`w ${text}`)} arm, t turtle
  label  text within "'" escape ${quoted(text, 3)} longest 24

board
  ${quoted(`model ${text} {m}`)}  model {m}

pack
  # ${line}
  ${quoted(`falls ${text} {w:volts}`)}  warn-at {w}  # ${line}
  ${quoted(`holds {c:0 to 9999} ${text}`)}  capacity {c} mAh
  ${line}

modes
  "shelf {m:does} {a:850 to 2150}..{b:850 to 2150}"  {m} when ch5 in {a} to {b}
`,
      [board]: [
        `known ${line}`,
        `;${line} a comment`,
        `falls ${line} 170`,
        `falls ${line} ${line}`,
        `holds 900 ${line}`,
        `model ${line} ${line}`,
        `shelf w ${line} 900..1200`,
        `shelf t 900..1200`,
        line,
        `kept ${line}`,
        "",
      ].join("\n"),
      "words/own.aliases.json": JSON.stringify({
        aliases: { [`w ${text}`]: "finder", plain: text, [text]: "pack.cells" },
      }),
      "words/own.catalogue.json": JSON.stringify({
        catalogue: text,
        settings: [
          {
            section: "lights",
            name: "belly-delay",
            types: [{ is: "quantity", unit: "s", min: { at: 0, source: `the leaflet ${text}` } }],
            default: "2 s",
            kind: "taste",
            what: `How long it waits ${text} before it glows.`,
            why: `With no wait it flickers ${text} at every touch of the switch. With a long one the craft is down before anybody has seen it, and the search begins in the dark.`,
            words: [`lamp ${text}`],
          },
          {
            section: "lights",
            name: "belly-kind",
            types: [
              { is: "choice", choices: [{ word: "slow", what: `Slow ${text}, as it is often wanted.` }] },
              { is: "text", longest: 60 },
            ],
            kind: "taste",
            what: `What kind ${text} of lamp it is.`,
            why: `A small one ${text} is not seen. A large one is heavy, and it draws its current whenever it glows, so that the pack is empty earlier than anybody would have thought.`,
            hazard: `It is hot ${text} to the touch.`,
            words: ["lamp"],
          },
        ],
      }),
      [`words/bad ${file}.catalogue.json`]: `{ "catalogue": ${JSON.stringify(text)}, "settings": [ { "section": ${JSON.stringify(text)}, "name": ${JSON.stringify(text)} } ], ${text}`,
      [`words/odd ${file}.aliases.json`]: JSON.stringify({ aliases: { [text]: "" }, [text]: text }),
    },
  };
}
