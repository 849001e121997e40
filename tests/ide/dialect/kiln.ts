/** A dialect with one line of every kind, and what an editor answers at a place in it. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { completionsAt } from "../../../shared/ide/completion/complete.ts";
import { definitionsAt } from "../../../shared/ide/editor/definition.ts";
import { hoverAt } from "../../../shared/ide/hover/hover.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import type { Position } from "../../../shared/syntax/span.ts";
import { testLinks } from "../cursor.ts";

export const KILN = `# fired in spring
dialect "Kiln, spring"

text
  known-by  "kiln of spring"
  comment   ";"
  heading   "firing {n}"

codes
  glaze  number 0 to 220 each 0.02 V/cell
  draw   number 0 to 60 from 880 us each 20 us
  flue   number 0 to 11 from ch5
  axis   words R roll, P pitch, Y yaw
  does   words - unset, a arm, f level, t turtle
  pot    words 3 pack-volts, 9 amps
  spot   bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset
  alarm  words lo low-pack, hot hot-esc
  watch  list alarm by "/"
  coarse number 0 to 200 each 1 A
  fine   number 0 to 99 each 0.01 A

pack
  "falls at {w:glaze}, ends {l:glaze}"  warn-at {w}
  "falls at {w}, ends {l}"              land-at {l}
  "holds {c:0 to 9999} on {s=0}"        capacity {c} mAh
  "hover {h:coarse} {l:fine}"           hover-current {h} + {l}
  "leaks {r}"                           divider-ratio {r}
  cannot  plug bought-on

pack "{n}"
  "jar {n} holds {c:0 to 9999}"  capacity {c} mAh

modes
  "shelf {#:0 to 9} {m:does} by {c:flue=0} {a:draw=0}..{b:draw=0}"  {m} when {c} in {a} to {b}

osd
  "tile {e:pot} {p:spot=0000}"  {e} at {p.column}, {p.row}
  "bells {a:watch}"             alert-on {a}

rates
  under "firing 1"
  "spin {a:axis} {s:1 to 999} {e:1 to 1999}"  {a} slope {s} deg/s end {e} deg/s bend 3

rates-second
  under "firing 2"
`;

const core = makeCore(makeCatalogue());

/** A workspace with a dialect in which the cursor stands at `|`. */
export function inDialect(text: string): { workspace: Workspace; file: string; at: Position } {
  const offset = text.indexOf("|");
  if (offset < 0) throw new Error("no | says where the cursor stands");
  const before = text.slice(0, offset).split("\n");
  const file = "/boards/kiln.fettle";
  const workspace = core.at(
    memoryFiles({
      [file]: text.slice(0, offset) + text.slice(offset + 1),
      "/jug.fettle": 'craft "Jug"\n\nboard\n  dialect "boards/kiln.fettle"\n',
    }),
  );
  return { workspace, file, at: { line: before.length - 1, character: before.at(-1)!.length } };
}

/** The dialect above with `|` put into a line of it: `find` stands there, the cursor behind its part before `|`. */
export function kilnAt(marked: string): string {
  const plain = marked.replace("|", "");
  const at = KILN.indexOf(plain);
  if (at < 0 || KILN.indexOf(plain, at + 1) >= 0) throw new Error(`stands not once in the dialect: ${plain}`);
  const cursor = at + marked.indexOf("|");
  return `${KILN.slice(0, cursor)}|${KILN.slice(cursor)}`;
}

/** The dialect above with a line more in a section; the cursor stands in that line. */
export function kilnWith(section: string, line: string): string {
  return KILN.replace(`\n${section}\n`, `\n${section}\n  ${line}\n`);
}

/** The hover's words, with links as addresses. */
export function hoverIn(text: string): string | null {
  const { workspace, file, at } = inDialect(text);
  return hoverAt(workspace, file, at, testLinks)?.markdown ?? null;
}

/** What is offered, the likeliest first. */
export function offeredIn(text: string): string[] {
  const { workspace, file, at } = inDialect(text);
  const sorted = completionsAt(workspace, file, at).toSorted((a, b) => (a.sort < b.sort ? -1 : 1));
  return sorted.map(({ label }) => label);
}

/** The line as it is once an offer was taken. */
export function takenIn(label: string, text: string): string {
  const { workspace, file, at } = inDialect(text);
  const item = completionsAt(workspace, file, at).find((each) => each.label === label);
  const line = workspace.script(file)!.tree.lines[at.line]!.text;
  if (!item) return `“${label}” is not offered`;
  return line.slice(0, item.range.start.character) + item.text + line.slice(item.range.end.character);
}

/** The words that the definitions lead to. */
export function definedIn(text: string): string[] {
  const { workspace, file, at } = inDialect(text);
  return definitionsAt(workspace, file, at).map(({ range }) => {
    const line = workspace.script(file)!.tree.lines[range.start.line]!.text;
    return line.slice(range.start.character, range.end.character);
  });
}
