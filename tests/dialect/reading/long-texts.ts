/** Long texts of boards, and texts made to be slow to read; for what measures them and what holds the measure. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { Dialect } from "../../../shared/dialect/dialect.ts";
import { readDialect } from "../../../shared/dialect/read-dialect.ts";
import { parse } from "../../../shared/syntax/parse.ts";

export const catalogue = makeCatalogue();

export function dialectOf(text: string): Dialect {
  const dialect = readDialect("/kiln.fettle", parse(`dialect "Kiln"\n${text}`), catalogue);
  const [fault] = dialect.issues.filter(({ code }) => code === "syntax" || code === "unknown-name");
  if (fault) throw new Error(`line ${fault.span.line + 1} of the dialect: ${fault.message}`);
  return dialect;
}

export const KILN = `
text
  comment   ";"
  heading   "firing {n}"
  repeats   "warns of "
codes
  glaze  number 0 to 220 each 0.02 V/cell
  draw   number 0 to 60 from 880 us each 20 us
  flue   number 0 to 11 from ch5
  axis   words R roll, P pitch, Y yaw
  does   words - unset, a arm, f level, t turtle
  pot    words 3 pack-volts, 9 amps
  spot   bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset
pack
  "falls at {w:glaze}, ends {l:glaze}"  warn-at {w}
  "falls at {w}, ends {l}"              land-at {l}
  "holds {c:0 to 9999}"                 capacity {c} mAh
modes
  "shelf {#:0 to 60000} {m:does} by {c:flue=0} {a:draw=0}..{b:draw=0}"  {m} when {c} in {a} to {b}
osd
  "tile {e:pot} {p:spot=0000}"  {e} at {p.column}, {p.row}
  "warns of {w}"  alert-on {w}
pack "{n}"
  under "crate {n}"
  "falls at {w:glaze}, ends {l:glaze}"  warn-at {w}
  "falls at {w}, ends {l}"              land-at {l}
  "holds {c:0 to 9999}"                 capacity {c} mAh
  "bought {d}"                          bought-on {d}
  "plug {t}"                            plug "{t}"
`;

/** Texts of so many lines, each of its own build. */
export const TEXTS: Readonly<Record<string, (lines: number) => string>> = {
  "packs under headings, each line read": (lines) =>
    filled(lines, (i) => [
      `crate Shelf ${i}`,
      `falls at ${170 + (i % 20)}, ends ${160 + (i % 10)}`,
      `holds   ${500 + (i % 9000)}`,
      `bought 2026-0${1 + (i % 9)}-1${i % 10}`,
      `plug XT ${i}`,
    ]),
  "numbered lines of three modes": (lines) =>
    filled(lines, (i) => [`shelf ${i} ${"aft"[i % 3]} by ${i % 12} ${i % 40}..${41 + (i % 20)}`]),
  "one name again and again": (lines) => filled(lines, (i) => [`holds ${i % 10_000}`]),
  "one number again and again": (lines) => filled(lines, (i) => [`shelf 1 a by 1 ${i % 40}..${41 + (i % 20)}`]),
  "lines that add up": (lines) => filled(lines, (i) => [`warns of ${["low-pack", "used-up"][i % 2]}`]),
  "lines of no kind": (lines) => filled(lines, (i) => [`glow ${i} deep ${i * 7}`]),
  "odd lines": (lines) => filled(lines, (i) => [`holds ${i}x`]),
  comments: (lines) => filled(lines, (i) => [`; note ${i}`]),
  "headings with nothing below": (lines) => filled(lines, (i) => [`crate Shelf ${i}`]),
  "blanks in columns": (lines) => filled(lines, (i) => [`  falls   at ${i % 220},\t ends   ${i % 200}  `]),
};

function filled(lines: number, make: (i: number) => string[]): string {
  const made: string[] = [];
  for (let i = 0; made.length < lines; i++) made.push(...make(i));
  return made.slice(0, lines).join("\n");
}

/** What is made to be slow: a dialect and a text of the size `n`, which is read n times as slowly and no more. */
export const HOSTILE: Readonly<Record<string, (n: number) => { readonly dialect: Dialect; readonly text: string }>> = {
  "near misses: all of a slot but its last letter": (n) => ({
    dialect: dialectOf(`pack\n  "x{c}${"a".repeat(60)}b"  capacity {c} mAh\n`),
    text: filled(n * 60, () => [`x${"a".repeat(2000)}`]),
  }),
  "slots one behind another, each of which nearly fits": (n) => ({
    dialect: dialectOf(`link\n  "${"{a}-{b}-{c}-{d}-{e}-{f}-{g}-{h}-"}end"  order {a} {b} {c} {d}\n`),
    text: filled(n * 60, () => ["-a".repeat(1500)]),
  }),
  "a line of megabytes": (n) => ({
    dialect: dialectOf(`osd\n  "p {t}"  pilot-name {t}\n`),
    text: `p ${"x".repeat(n * 1_000_000)}`,
  }),
  "many left sides that begin as no line does": (n) => ({
    dialect: manyLefts(10_000),
    text: filled(n * 2000, (i) => [`lamp${i} 1`]),
  }),
  "headings of many kinds": (n) => ({
    dialect: dialectOf(KILN),
    text: filled(n * 2000, (i) => [`crate ${i}`, `holds ${i % 9000}`]),
  }),
  "marks that do not close": (n) => ({
    dialect: dialectOf(`codes\n  said  text within '"' escape '\\'\nosd\n  'p {t:said} on {u=1}'  pilot-name {t}\n`),
    text: filled(n * 60, () => [`p "${'\\"'.repeat(1000)}`]),
  }),
  "halves that never meet": (n) => ({
    dialect: dialectOf(`osd\n  "{e} row {r}" "{e} column {c}"  {e} at {c}, {r}\n`),
    text: filled(n * 2000, (i) => [`e${i} row 2`]),
  }),
  "numbers that are set to one name after another": (n) => ({
    dialect: dialectOf(KILN),
    text: filled(n * 2000, (i) => [`shelf ${i % 7} ${"aft"[i % 3]} by 1 1..${2 + (i % 50)}`]),
  }),
};

/** A dialect of so many left sides, all with texts of their own before their slots. */
export function manyLefts(count: number): Dialect {
  const lines = Array.from({ length: count }, (_, i) => `  "kiln ${i} of {c}"  capacity {c} mAh`);
  return dialectOf(`pack\n${lines.join("\n")}\n`);
}
