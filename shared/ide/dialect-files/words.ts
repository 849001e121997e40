/** The words of a dialect's own sections, each with what it says: completion and hovers have them from here. */
import type { Code } from "../../dialect/dialect.ts";

export interface DialectWord {
  readonly word: string;
  /** In a few words. */
  readonly what: string;
  /** A sentence or two, with an example. */
  readonly more: string;
  /** What follows the word, as a snippet. */
  readonly text: string;
}

/** Facts of the section `text`, in the order in which they are explained. */
export const TEXT_WORDS: readonly DialectWord[] = [
  fact(
    "known-by",
    "a text that holds this is of this dialect",
    "Take a name or a version that the board writes into every text. Several may stand here: one of them is enough.",
    `"$1"`,
  ),
  fact("comment", "a line that begins so is a comment", "Comments of the board are kept, and never read.", `"\${1:;}"`),
  fact(
    "blanks",
    "whether blanks are counted",
    "`loose`, unless said: one blank or more, and none counts at the ends of a line. `exact`: every blank counts.",
    `\${1|loose,exact|}`,
  ),
  fact(
    "ends",
    "line ends of a text that is written anew",
    "`lf` or `crlf`. A text that is written onto an older one keeps that one's.",
    `\${1|lf,crlf|}`,
  ),
  fact(
    "opening",
    "a line that is sent first",
    "Such as the one that lets the board listen. It goes with the whole text and with changes only.",
    `"$1"`,
  ),
  fact(
    "closing",
    "a line that is sent last",
    "Such as the one that tells the board to remember. It goes with the whole text and with changes only.",
    `"$1"`,
  ),
  fact(
    "heading",
    "a line of this form is a heading",
    "Lines below it may mean something else than above: sections say which with `under`. It may have slots.",
    `"$1"`,
  ),
  fact(
    "repeats",
    "lines that begin so add up",
    "Of all other lines that say the same thing, the later one counts.",
    `"$1"`,
  ),
  fact(
    "at-most",
    "how many lines that begin so the board takes",
    "A line too many is not written, and the report says so.",
    `"$1" \${2:10}`,
  ),
  fact("longest", "the most characters in a line", "A longer line is not written, and the report says so.", `\${1:80}`),
];

/** Kinds of codes, as they stand behind the name of one. */
export const CODE_WORDS: readonly (DialectWord & { readonly word: Code["kind"] })[] = [
  {
    word: "number",
    what: "a number in steps",
    more: "The board writes n for `from` + n × `each`: `volts number 0 to 255 each 0.1 V`.",
    text: `\${1:0} to \${2:255} each \${3:0.1 V}`,
  },
  {
    word: "words",
    what: "the board's word for each of ours",
    more: "`axis words R roll, P pitch, Y yaw`. What means that nothing is set stands as `- unset`.",
    text: `\${1:THEIRS} \${2:ours}`,
  },
  {
    word: "letters",
    what: "an order of letters, nothing between",
    more: "`order letters R roll, P pitch, T throttle, Y yaw`",
    text: `\${1:A} \${2:ours}, \${3:B} \${4:ours}`,
  },
  {
    word: "list",
    what: "items of another code, with text between",
    more: '`alarms list alarm by "/"`',
    text: `\${1:CODE} by "\${2:,}"`,
  },
  {
    word: "bits",
    what: "several values in one number",
    more: "`spot bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset`. Bits count from 0, the lowest. Right sides name a part as `{p.row}`.",
    text: `\${1:0-4} \${2:row}, \${3:5-10} \${4:column}`,
  },
  {
    word: "set",
    what: "a list in which each item is a bit",
    more: "`alarms set 0 low-pack, 1 weak-link, 3 hot-esc`",
    text: `0 \${1:ours}, 1 \${2:ours}`,
  },
  {
    word: "text",
    what: "text between marks",
    more: `\`tag text within '"' escape '\\' longest 16\``,
    text: `within '\${1:"}'`,
  },
];

/** What may stand behind the kind of a code. */
export const CODE_OPTIONS: Readonly<Partial<Record<Code["kind"], readonly DialectWord[]>>> = {
  number: [
    option("each", "how much one step is", "`each 0.02 V/cell`: the board's 175 is 3.5 V/cell.", `\${1:0.1 V}`),
    option(
      "from",
      "what the board's 0 means",
      "`from 880 us each 20 us`: 0 is 880 us, 1 is 900 us. `from ch5` counts channels from that one on.",
      `\${1:0}`,
    ),
    option(
      "to",
      "the highest number that the board writes",
      "`0 to 220` are the bounds of what the board writes; what lies outside is odd.",
      "$1",
    ),
    option(
      "into",
      "for what is divided",
      "`into 1000000 Hz`: the board writes n for 1000000 Hz / n.",
      `\${1:1000000 Hz}`,
    ),
    option("places", "decimal places that the board writes", "`places 2`: 3.30", `\${1:2}`),
    option("unset", "the number that means that nothing is set", "`unset 0`", `\${1:0}`),
    option(
      "base",
      "the base in which the board writes",
      "`base 16`. From 2 to 36; either case of letters is read.",
      `\${1:16}`,
    ),
    option("digits", "padded with noughts to so many digits", "`digits 4`: 00D2", `\${1:4}`),
  ],
  list: [option("by", "what stands between two items", '`by "/"`', `"\${1:,}"`)],
  bits: [
    option(
      "base",
      "the base in which the board writes",
      "`base 16`. From 2 to 36; either case of letters is read.",
      `\${1:16}`,
    ),
    option("digits", "padded with noughts to so many digits", "`digits 4`: 00D2", `\${1:4}`),
    option(
      "is",
      "a bit that always has this value",
      "`14 is 1`: another value is odd. `14 is 1 or unset`: another value says that nothing is set.",
      `\${1|1,0|}`,
    ),
    option("or", "else nothing is set", "`14 is 1 or unset`", "unset"),
  ],
  set: [
    option(
      "base",
      "the base in which the board writes",
      "`base 16`. From 2 to 36; either case of letters is read.",
      `\${1:16}`,
    ),
    option("digits", "padded with noughts to so many digits", "`digits 4`: 00D2", `\${1:4}`),
  ],
  text: [
    option("within", "the mark on both sides", `\`within '"'\``, `'\${1:"}'`),
    option("escape", "what stands before a mark that belongs to the text", "`escape '\\'`", `'\${1:\\\\}'`),
    option(
      "longest",
      "the most characters that the board takes",
      "`longest 16`: longer text is not written.",
      `\${1:16}`,
    ),
  ],
};

/** Words that begin a line of a section, besides board text. */
export const LINE_WORDS: readonly DialectWord[] = [
  fact(
    "under",
    "the lines from here on count below this heading",
    'As `under "firing 2"`. `under ""` is for lines above all headings. Slots of the heading serve below it.',
    `"$1"`,
  ),
  fact(
    "cannot",
    "what the board has no line for",
    "`cannot all`, or names: they are never reported as missing.",
    `\${1:all}`,
  ),
];

/** Words of right sides. */
export const RIGHT_WORDS: readonly DialectWord[] = [
  fact(
    "unset",
    "nothing is set",
    "A line that says so is read, and adds nothing to the script. Written, it tells the board to forget.",
    "",
  ),
  fact(
    "when",
    "begins the condition",
    "`{m} when {c} in {a} to {b}`; several ranges are joined by `and`. Or a mode, or `always`.",
    `{\${1:c}} in {\${2:a}} to {\${3:b}}`,
  ),
  fact(
    "at",
    "the place on the OSD",
    "`{e} at {x}, {y}`, or parts of one number: `{e} at {p.column}, {p.row}`.",
    `{\${1:x}}, {\${2:y}}`,
  ),
  fact(
    "follows",
    "the dial that moves a setting",
    "`{s} follows {d} from {a} to {b}`",
    `{\${1:d}} from {\${2:a}} to {\${3:b}}`,
  ),
  fact(
    "curve",
    "how the board computes the rate of turn",
    "In deg/s from `stick` (-1 to 1) and slots: `{a} curve 10 * ({s} * stick + {e} * stick ^ 5)`. Known are `+ - * / ^ ( )`, `abs`, `sign`, `min` and `max`.",
    `\${1:10 * {s\\} * stick}`,
  ),
  fact("stick", "the stick's deflection, from -1 to 1", "It stands in a `curve`.", ""),
];

function fact(word: string, what: string, more: string, text: string): DialectWord {
  return { word, what, more, text };
}

function option(word: string, what: string, more: string, text: string): DialectWord {
  return { word, what, more, text };
}

/** What a word means where it stands: in `text`, behind a code's kind, in a line of a section; null for other words. */
export function dialectWord(word: string, within: "text" | "line" | Code["kind"] | "kind"): DialectWord | null {
  const words =
    within === "text"
      ? TEXT_WORDS
      : within === "line"
        ? [...LINE_WORDS, ...RIGHT_WORDS]
        : within === "kind"
          ? CODE_WORDS
          : (CODE_OPTIONS[within] ?? []);
  return words.find((each) => each.word === word) ?? null;
}
