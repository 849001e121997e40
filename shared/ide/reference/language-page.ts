/**
 * The language, as its reference describes it: files, grammar, how files combine, what each construct
 * means. Fenced examples are complete scripts, and tests check them.
 */

import { MOST_BYTES, MOST_LINE, MOST_LINES } from "../../model/script-limits.ts";
import { benchTopic } from "./bench/pages.ts";
import { dialectPage } from "./dialect/pages.ts";
import { fleetTopic } from "./fleet/pages.ts";
import { gitPage } from "./git/pages.ts";

/** The page of the language, as Markdown. */
export function languagePage(): string {
  return [intro, files, grammar, layout, units, notes, handsets, conditions, places, combining, further, kept].join(
    "\n\n",
  );
}

const intro = `# The language

*edition 1*

A script says what a craft *is and does*, in the pilot's words and with a unit on every quantity; how a board stores it is not its business. One fact a line and no line continues on the next, so that a change reads well in a diff and a line can be quoted to a friend. Later files win, and every value knows the file and the line that it comes from. Reading never fails and never loses a byte.`;

const files = `## Files

The extension is \`.fettle\`, the text UTF-8; a byte-order mark and the line ends that a file has are kept. Capitals matter. The first statement says what the file is:

- \`craft "NAME"\`: one whole machine
- \`layer "NAME"\`: a part made to be reused: a maker's base, a pilot's habits, an OSD layout
- \`handset "NAME"\`: the pilot's transmitter and its controls; only \`transmitter\`, \`controls\` and \`use\` of handsets
- \`dialect "NAME"\`: how one board's text and our words map onto each other; a language of its own, on the page \`dialect\`; no \`use\` in it, and no file uses it

\`edition 1\` may follow the name, and is meant where nothing does. A higher edition than this tool knows gives one finding and nothing else, and such a file is never rewritten. A text that no person would write by hand, of more than ${MOST_BYTES / 1024 ** 2} MB, ${MOST_LINES} lines or ${MOST_LINE} characters on a line, is not read as a script, and a message says so. \`use\` lines and sections follow in any order.

\`\`\`fettle
craft "Tankard"

use "handsets/wheel.fettle"

pack
  chemistry  lipo
  cells      6
  capacity   1100 mAh

modes
  # always the left shoulder switch, pulled down
  arm       when TL is down
  level     when TR is mid
  recorder  when arm

osd
  grid        53 x 20
  pack-volts  at left+3, bottom-2
\`\`\``;

const grammar = `## Grammar

\`\`\`
file      = { blank | comment } header { blank | comment | use | section }
header    = kind string [ "edition" integer ] EOL
use       = "use" string EOL
section   = name [ string ] EOL { blank | comment | entry }    name in the first column; string for pack, verbatim
entry     = INDENT ( drop | name-or-control value... ) EOL      one or more spaces or tabs
drop      = "drop" ( "all" | ( name | control ) { name | control } )
comment   = "#" to the end of the line, outside a string; at any indent
string    = '"' { any but '"' '\\' EOL | '\\"' | '\\\\' } '"'
name      = lower { lower | digit | "-" }
control   = upper { letter | digit }
channel   = "ch" integer
number    = [ "-" ] digits [ "." digits ] [ unit ]              a unit straight after, or after a space
range     = number "to" number                                  must rise; the second may lend its unit
size      = integer "x" integer
cell      = axis "," axis                                       column, row
axis      = integer | anchor [ ("+" | "-") integer ]            left centre right / top middle bottom
list      = value { "," value }                                 a unit on the last serves those without
order     = word { word }                                       each once
fields    = name value { name value }                           each once
date      = dddd "-" dd "-" dd
choice    = word | integer ":" integer
yes-no    = "yes" | "no"
verbatim  = "verbatim" string EOL { INDENT "|" any-text EOL }
\`\`\`

Each setting has its type, and the type picks the production; of two types the first that fits counts. What is left over on a line is \`syntax\`; a word that is no choice is \`unknown-name\`; anything else that does not fit is \`wrong-type\`, and a bare number where a unit is due \`missing-unit\`.

Without a header a file is read as a layer, with a finding. A second header, an entry outside a section, a text after a section's name: the line is ignored, with a finding. The entries of an unknown section are kept and not checked. Of a merge conflict the first side is read.`;

const layout = `## Layout

Blanks between the words of a line, blank lines, and how far a line is indented mean nothing, so everybody may write as they like; \`fettle format\`, and the formatting of the editor, lay a file out so that a change reads well in a diff:

- Entries, and the comments above them, are indented by two spaces; the name of a section, \`use\` and the header stand in the first column. How wide a tab is does not matter.
- Values stand below one another, two spaces behind the longest name. A blank line begins a column of its own, a comment does not. Names of more than 64 characters stand in no column.
- One space stands before a unit and between words, two between fields and before a comment at the end of a line. Fields of one name stand below one another in neighbouring lines, and so do the kinds and the channels of controls, and comments that stood so before.
- One blank line stands between sections and behind the header, never two, none at the ends of the file or below the name of a section, no blanks at the ends of lines, and a line end behind the last one.
- Order, digits, brackets, comments and texts in quotes stay; \`µs\` becomes \`us\`. Of a line of board text nothing changes behind its \`|\`. A byte-order mark stays, and the line ends; where a file mixes them, the most frequent ones are written.
- A value that cannot be read keeps its words in its column; a line whose name is not known, or that does not parse, keeps them where they are. What stands between git's conflict markers is not touched. A file of a newer edition, or one that is no UTF-8 text, is not laid out at all.
- In a dialect the right sides stand in a column, and nothing within either side changes.

What a file means, its notes and its findings stay the same, and laid out again it stays as it is.`;

const units = `## Units

A number is converted inside its family and never across: volts are not volts a cell.

V mV · V/cell · A mA · mAh Ah · us ms s min · Hz kHz MHz GHz · mW W dBm · dB · deg · deg/s · % · mm cm m in ft · g kg oz · rpm/V · ohm kohm mohm · kbit/s · degC · C (discharge rating) · m/s km/h mph

\`µ\` is read, \`us\` is written.`;

const notes = `## Notes, and findings that are accepted

The whole-line comments straight above an entry and the comment at its end are its note; above a section's name they are the section's. A note is shown wherever the entry takes effect, also in another file. An entry that was commented out is no note.

\`# allow CODE: reason\` in a note accepts the findings of that code: in the note of an entry for that entry, wherever it takes effect; in the note of a section's name for the section; in the note of the header for the file. What a layer accepts in any of these places is accepted in every craft that uses it, so one layer of habits can hold a pilot's opinions:

\`\`\`fettle
# allow control-idle: I keep a spare position on every switch
layer "Habits"

# allow osd-centre-clutter: I want the timer where I look
osd
  flight-time  at centre, middle+2

safety
  arm-hold  4 s  # allow unusual-value: I count to three before the motors may start
\`\`\`

Without a reason it says so (\`allow-unexplained\`); a code that no rule has is \`allow-unknown\`, and one that silences nothing, in this file or in any craft of the workspace that uses it, \`allow-unused\`. \`syntax\`, \`unknown-name\`, \`use-*\`, \`edition-newer\` and \`allow-*\` cannot be accepted.`;

const handsets = `## Handsets

\`\`\`fettle
handset "Wheel"

transmitter
  band   2.4 GHz
  power  100 mW

controls
  TL  switch    ch5   up 1000 us  down 2000 us  lies left shoulder
  TR  switch    ch6   up 1000 us  mid 1500 us  down 2000 us  lies right shoulder
  PB  button    ch7   rest 1000 us  held 2000 us  lies right face
  KN  dial      ch9   1000 us to 2000 us  lies middle
  SX  selector  ch10  one 1000 us  two 1500 us  three 2000 us  rests two
\`\`\`

\`\`\`
control-line = CONTROL ( "switch" | "selector" | "button" ) CHANNEL { POSITION number } [ "rests" POSITION ] [ lies ]
             | CONTROL "dial" CHANNEL range [ lies ]
lies         = "lies" ( "left" | "right" | "middle" ) [ "shoulder" | "face" | "back" ]
\`\`\`

A switch has 2 or 3 positions, a selector 2 to 16, a button 2, of which it springs back to one (a button that the handset latches is a switch). A dial's range may fall: then it turns the other way. The position listed first is where the control rests when the handset is switched on, unless \`rests\` says another; a dial may rest anywhere. Channels 1 to 4 carry the sticks in the order of \`link.order\`.

\`lies\` says where the hand finds a control: at the left hand, at the right, or in the middle between them; on the shoulder (the edge under the index fingers), on the face (under the thumbs), or on the back (under the other fingers). It changes nothing of what the craft does. The panel and \`fettle draw --view switches\` lay the controls out by it: left and right as the hands hold them, shoulders first, then those of which only the side is said, then the face, then the back; a control of which nothing is said follows below all of them, in the order of the script. In a narrow panel the left hand's stand first, then the middle's, then the right's, each under its name.

A craft has one handset: the last that is met among all its \`use\` lines, with what that one uses; others are left out whole. It lies under every layer. \`controls\` in a layer or a craft restates a control whole, for that craft.`;

const conditions = `## Conditions

\`\`\`
entry     = MODE "when" condition
condition = both { "or" both }
both      = part { "and" part }
part      = "not" part | "(" condition ")" | test
test      = CONTROL "is" [ "not" ] POSITION | "always" | MODE
          | ( CONTROL | CHANNEL ) ( "in" range | "above" number | "below" number )
\`\`\`

\`in\` includes both ends; \`above\` and \`below\` leave out the bound. A mode stands for its own condition in the effective craft; one that nobody set up is off.

A *state* gives every switch, selector and button a position, every dial a whole number of microseconds of its range, and every channel without a control any within \`link.endpoints\` (of a stick that \`bench\` has measured, within its measured ends: what it never sends need not be considered). On a channel that carries two levels only, the positions between a control's ends do not arrive. Rules hold in all states. *At rest* every control stands at its rest, dials anywhere. *Armed* is \`arm\`, and \`arm-permit\` too where it is set up. A mode is *selected* when its condition holds; it *acts* when, besides, what takes precedence over it is off.

A position stands for the pulses half-way to its neighbours, and at either end for all that lie beyond.`;

const places = `## Places on the OSD

Cells count from 0 at the top left. \`3, 18\` is a cell; \`left+2\` puts the element's left edge two cells in, \`right-2\` its right edge two cells before the last column, \`centre\` its middle in the middle (rounded to the left), \`centre-4\` four to the left of that; \`top\`, \`middle\` and \`bottom\` likewise. An element is as wide as its widest text; \`craft\` and \`pilot\` as the name that they show. All places are computed on the effective grid (\`pal\` is 30 x 16, \`ntsc\` 30 x 13), whichever file said it.`;

const combining = `## How files combine

\`use\` names a file from where it is written, with \`/\`. A craft or a layer may use layers and handsets, a handset only handsets. A file's own sections lie over all that it uses, in the order of the \`use\` lines; a file met a second time is skipped.

A \`use\` leads to files of the workspace only: in an editor, the folders that are open; on the command line, the nearest folder around the script that is a git repository or has a file named \`.fettle-root\` in it, which may be empty. A script in neither has the working folder, where it lies below that; one that lies by itself has its own folder, without those below, and what its \`use\` lines lead to. Settings and words of one's own count in the workspace in which they lie.

Within a file, lines of one mode join as "or", lines of \`fields\` join field by field, repeatable settings form a list, and for all else the later line wins, with a finding. Across files, fields merge one by one; a mode's lines and a repeatable setting's are replaced together; everything else is replaced whole.

\`drop A B\` removes each of A and B as far as earlier files said it, \`drop all\` the whole section. A file's drops act before its entries, so that dropping and setting in one file starts afresh.

A default stands in for rules, numbers and pictures only: it is never written to a board, and a rule never fires on defaults alone. A line with a fault leaves its name without value: nothing earlier shows through.`;

const further = `## Second sets, several packs, dials that adjust, single motors

\`rates-second\`, \`gains-second\` and \`osd-second\` take the entries of \`rates\`, \`gains\` and \`osd\` (without \`grid\` and \`picture\`); the first two fall back to what those say. \`pack "NAME"\` lies over plain \`pack\`. In \`adjust\`, \`SETTING follows DIAL from VALUE to VALUE\` moves a matter of taste: gains, the throttle's limit and softness, the smoothing of sticks, the brightness of lights. The first VALUE belongs to the dial's first stop, as its line in \`controls\` names it, also where its range falls; between the stops the setting goes in proportion. What the craft is made of, what keeps people whole, and what link, failsafe and pack rest on follow no dial; the page of a setting says whether it may. \`motor1\` to \`motor8\` in \`motors\` are fields over the plain ones.`;

const kept = `## Board text, and lines that are kept

In the section \`board\`, \`dialect "FILE"\` names the dialect of the craft's board, and \`text "FILE"\` the text that was last saved from it: both are paths from the file that says so. With them a craft is written as text for its board, onto what the board says already. The page \`dialect\` says how.

\`verbatim "DIALECT"\` holds lines of board text that were not understood: all after \`|\` is kept as it is, and goes back to the board where it stood. Parts for one dialect join in the order of the files. Nothing that was pasted is ever lost.`;

/** Words of the language, by the parts of the page that explain them. */
const TOPICS: readonly { readonly part: string; readonly words: string }[] = [
  { part: files, words: "craft layer header edition file files" },
  { part: grammar, words: "grammar syntax string" },
  { part: layout, words: "format layout indent" },
  { part: units, words: "unit units" },
  { part: notes, words: "note notes allow comment comments" },
  { part: handsets, words: "handset handsets control controls switch selector button dial rests lies shoulder face" },
  {
    part: conditions,
    words: "when condition conditions is and or not in above below always state states rest armed position",
  },
  { part: places, words: "at place places left centre right top middle bottom" },
  { part: combining, words: "use layer layers drop merge" },
  { part: further, words: "follows" },
  { part: kept, words: "verbatim" },
];

/** The parts of the page about a word of the language, such as “use” or “when”, as Markdown; null for any other word. */
export function languageTopic(word: string): string | null {
  const asked = word.toLowerCase();
  if (asked === "language") return languagePage();
  const ownPage = dialectPage(asked) ?? gitPage(asked) ?? benchTopic(asked) ?? fleetTopic(asked);
  if (ownPage !== null) return ownPage;
  const parts = TOPICS.filter(({ words }) => words.split(" ").includes(asked)).map(({ part }) => part);
  if (parts.length === 0) return null;
  return parts.map((part) => part.replace(/^## (.*)$/m, "# $1\n\n*of the language*")).join("\n\n---\n\n");
}
