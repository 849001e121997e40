/** Hovers, definitions, outline, folds and colours in dialects. */
import { expect, test } from "vitest";
import { foldsOf } from "../../../shared/ide/editor/folding.ts";
import type { ScriptSymbol } from "../../../shared/ide/editor/script-symbol.ts";
import { symbolsOf } from "../../../shared/ide/editor/symbols.ts";
import { tokensOf } from "../../../shared/ide/editor/tokens.ts";
import { pageNameAt } from "../../../shared/ide/reference/page-name-at.ts";
import { pageAddress } from "../../../shared/ide/reference/page-names.ts";
import { definedIn, hoverIn, inDialect, KILN, kilnAt, kilnWith } from "./kiln.ts";

/** A place in the dialect, and what its hover says. */
test.each([
  ['dia|lect "Kiln', ["reads 10 kinds of lines with 11 codes", "craft “Jug”", "> fired in spring", "word/dialect"]],
  ["kno|wn-by", ["**known-by** — a text that holds this", "word/dialect"]],
  ['"kiln of| spring', ["**known-by**"]],
  ['heading   "fir|ing', ["**heading** — a line of this form"]],
  ["\nte|xt\n", ["**text** — How the board's text is built", "word/dialect"]],
  ["\nco|des\n", ["**codes** — How the board spells", "word/dialect-codes"]],
  ["\nmo|des\n", ["**modes** — What each switch", "section/modes", "what the board writes, and what it means"]],
  ["gla|ze  number", ["`0` is `0 V/cell`", "`110` is `2.2 V/cell`", "`220` is `4.4 V/cell`", "Named by 2 slots"]],
  ["dr|aw   number", ["`0` is `880 us`", "`60` is `2080 us`"]],
  ["fl|ue   number", ["`0` is `ch5`", "`11` is `ch16`"]],
  ["ax|is   words", ["`R` is `roll`", "`Y` is `yaw`"]],
  ["do|es   words", ["`-` is `unset`", "`a` is `arm`"]],
  ["sp|ot   bits", ["`40C2` is `row 2, column 3`", "`0000` is `unset`"]],
  ["wat|ch  list", ["`lo/hot` is `low-pack, hot-esc`"]],
  ["num|ber 0 to 220", ["**number** — a number in steps"]],
  ["number 0 to 220 ea|ch", ["**each** — how much one step is"]],
  ["14 i|s 1", ["**is** — a bit that always has this value"]],
  ["list ala|rm", ["**alarm** — a code", "`lo` is `low-pack`"]],
  ["R ro|ll", ["**rates.roll**", "setting/rates.roll"]],
  ["hot hot-e|sc", ["of `osd.alert-on`", "controller is hotter"]],
  ["a ar|m, f", ["**arm**", "mode/arm"]],
  ["9 am|ps", ["**amps**", "element/amps"]],
  [
    "falls a|t {w:glaze}",
    ["falls at 175, ends 165", "pack warn-at 3.5 V/cell\npack land-at 3.3 V/cell", "more in line 24"],
  ],
  ["ho|lds {c:0 to 9999} on", ["holds 1300 on 0", "pack capacity 1300 mAh", "`{s}` stands beside"]],
  ["hov|er {h", ["hover 9 0", "pack hover-current 9 A"]],
  ["lea|ks {r}", ["pack divider-bottom 1 kohm"]],
  ["jar| {n}", ["pack/3 capacity 1300 mAh"]],
  ["she|lf {#", ["modes arm when ch10 in 1480 us to 1840 us"]],
  ["ti|le {e", ["tile 3 40C2", "osd pack-volts at 3, 2"]],
  ["be|lls {a", ["osd alert-on low-pack"]],
  ["sp|in {a", ["firing 1\nspin R 180 680", "rates roll slope 180 deg/s  end 680 deg/s  bend 3"]],
  ["{w:gl|aze}, ends", ["by the code `glaze`, a number in steps"]],
  ["land-at {l|}", ["by the code `glaze`"]],
  ["{#|:0 to 9}", ["the number of the line, from 0 to 9"]],
  ["{c:0 t|o 9999} on", ["a whole number from 0 to 9999"]],
  ["leaks {r|}", ["as a script writes it"]],
  ["{p.ro|w}", ["`row` is bits 0 to 4 of it", "the board has `0000` there"]],
  ["warn-a|t {w}", ["**pack.warn-at**", "setting/pack.warn-at"]],
  ["divider-ra|tio", ["(top + bottom) / bottom"]],
  ["can|not", ["**cannot** — what the board has no line for"]],
  ["cannot  pl|ug", ["**pack.plug**"]],
  ["{m} wh|en", ["**when** — begins the condition"]],
  ['under "fir|ing 1', ["**under** — the lines from here on"]],
  ["alert-|on {a}", ["**osd.alert-on**"]],
])("the hover at %s", (marked, parts) => {
  const hover = hoverIn(kilnAt(marked));
  for (const part of parts) expect(hover).toContain(part);
});

test("a line with a fault, a code that is none and a comment have no wrong hover", () => {
  expect(hoverIn(kilnWith("pack", '"oo|ps {v"  capacity {v} mAh'))).toContain("has a fault");
  expect(hoverIn(kilnWith("pack", '"oops {v:gla|ss}"  capacity {v} mAh'))).not.toContain("220");
  expect(hoverIn(kilnWith("pack", "# a com|ment"))).toBeNull();
});

test.each([
  ["{w:gl|aze}, ends", ["glaze  number 0 to 220 each 0.02 V/cell"]],
  ["warn-at {w|}", ["glaze  number 0 to 220 each 0.02 V/cell"]],
  ["list ala|rm", ["alarm  words lo low-pack, hot hot-esc"]],
  ['on {s=0}"        capacity {c|}', ["{c:0 to 9999}"]],
  ["{e|} at", ["pot    words 3 pack-volts, 9 amps"]],
  ["{p.ro|w}", ["spot   bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset"]],
  ['under "fir|ing 1', ['heading   "firing {n}"']],
  ['capa|city {c} mAh\n  "hover', []],
])("the definition at %s", (marked, words) => {
  expect(definedIn(kilnAt(marked))).toEqual(words);
});

test.each([
  ['dia|lect "Kiln', "word/dialect"],
  ["\nco|des\n", "word/dialect-codes"],
  ["\nmo|des\n", "section/modes"],
  ["kno|wn-by", "word/dialect"],
  ["gla|ze  number", "word/dialect-codes"],
  ["falls a|t {w:glaze}", "word/dialect-lines"],
  ["warn-a|t {w}", "setting/pack.warn-at"],
  ["a ar|m, f", "mode/arm"],
  ["9 am|ps", "element/amps"],
  ["divider-ra|tio", "word/dialect-lines"],
  ['under "fir|ing 1', "word/dialect-reading"],
])("the page at %s", (marked, address) => {
  const { workspace, file, at } = inDialect(kilnAt(marked));
  const page = pageNameAt(workspace, file, at);
  expect(page && pageAddress(page)).toBe(address);
});

test("the outline has sections, codes, lines with what they mean, and headings with theirs", () => {
  const { workspace, file } = inDialect(`${KILN}|`);
  const shown = (symbols: readonly ScriptSymbol[], indent = ""): string[] =>
    symbols.flatMap(({ name, detail, children }) => [`${indent}${name}: ${detail}`, ...shown(children, `${indent}  `)]);
  const lines = shown(symbolsOf(workspace.script(file)!, workspace.catalogue));
  expect(lines.slice(0, 6)).toEqual([
    "Kiln, spring: dialect",
    "  text: ",
    '    known-by: "kiln of spring"',
    '    comment: ";"',
    '    heading: "firing {n}"',
    "  codes: ",
  ]);
  expect(lines).toContain("    glaze: number 0 to 220 each 0.02 V/cell");
  expect(lines).toContain('    "falls at {w}, ends {l}": land-at {l}');
  expect(lines).toContain("  pack {n}: ");
  expect(lines.slice(-5)).toEqual([
    "  rates: ",
    '    under "firing 1": ',
    '      "spin {a:axis} {s:1 to 999} {e:1 to 1999}": {a} slope {s} deg/s end {e} deg/s bend 3',
    "  rates-second: ",
    '    under "firing 2": ',
  ]);
});

test("sections fold, and lines below a heading", () => {
  const { workspace, file } = inDialect(`${KILN}|`);
  const folds = foldsOf(workspace.script(file)!).map(({ startLine, endLine }) => `${startLine}-${endLine}`);
  expect(folds).toEqual(["3-6", "8-19", "21-27", "29-30", "32-33", "35-37", "39-41", "40-41", "43-44"]);
});

/** Each word of a line with the kind by which it is coloured. */
test.each([
  [
    '  "falls {w:glaze} {c:0 to 9=1}"  warn-at {w}  # why',
    'left:"falls · slot:{w · operator:: · code:glaze · slot:} · left: · slot:{c · operator:: · number:0 to 9 · operator:= · left:1 · slot:} · left:" · setting:warn-at · slot:{w} · comment:# why',
  ],
  [
    "  'a # \"b\" {v}' motor{n} direction {v}",
    "left:'a # \"b\" · slot:{v · slot:} · left:' · setting:motor · slot:{n} · choice:direction · slot:{v}",
  ],
  ['  "a {v}"  capacity {v} mAh', 'left:"a · slot:{v · slot:} · left:" · setting:capacity · slot:{v} · unit:mAh'],
  ['  under "jar {n}"', 'keyword:under · left:"jar · slot:{n · slot:} · left:"'],
  ["  cannot all", "keyword:cannot · keyword:all"],
  ['  "a {', 'left:"a · slot:{'],
])("the colours of %s", (line, kinds) => {
  const { workspace, file } = inDialect(`dialect "A"\n\npack\n${line}|`);
  const script = workspace.script(file)!;
  const tokens = tokensOf(script, workspace.catalogue).filter((token) => token.line === 3);
  const text = script.tree.lines[3]!.text;
  expect(tokens.map(({ kind, start, end }) => `${kind}:${text.slice(start, end).trim()}`).join(" · ")).toBe(kinds);
  for (const [i, token] of tokens.entries()) if (i > 0) expect(token.start).toBeGreaterThanOrEqual(tokens[i - 1]!.end);
});
