/** What a dialect says, read from its file. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { Dialect } from "../../shared/dialect/dialect.ts";
import { readDialect } from "../../shared/dialect/read-dialect.ts";
import { parse } from "../../shared/syntax/parse.ts";

const KILN = `dialect "Kiln, spring"

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

pack
  "falls at {w:glaze}, ends {l:glaze}"  warn-at {w}
  "falls at {w}, ends {l}"              land-at {l}
  "holds {c:0 to 9999}"                 capacity {c} mAh

modes
  "shelf {#:0 to 9} {m:does} by {c:flue=0} {a:draw=0}..{b:draw=0}"  {m} when {c} in {a} to {b}

osd
  "tile {e:pot} {p:spot=0000}"  {e} at {p.column}, {p.row}

rates
  "spin {a:axis} {s:1 to 99} {e:0 to 99}"  {a} curve 10 * ({s} * stick + {e} * stick ^ 5)

rates-second
  under "firing 2"
`;

function dialectOf(text: string): Dialect {
  return readDialect("/kiln.fettle", parse(text), makeCatalogue());
}

/** Each left side with what it means, as text one can read. */
function told({ lefts, codes }: Dialect): string[] {
  return [
    ...[...codes.values()].map(({ name, kind, lines }) => `${name}: ${kind}, line ${lines.join(", ")}`),
    ...lefts.map(({ pattern, under, meanings, beside }) => {
      const below =
        under.kind === "heading" ? ` under ${under.pattern.key}` : under.kind === "above-all" ? " above all" : "";
      const slots = [...pattern.slots.values()].map(
        (slot) =>
          `${slot.name}:${slot.code?.kind ?? (slot.whole ? `${slot.whole.from}-${slot.whole.to}` : "plain")}${slot.default === null ? "" : `=${slot.default}`}`,
      );
      const says = meanings.map(
        ({ section, right, line }) =>
          `${section} ${right.name.map((part) => (typeof part === "string" ? part : `{${part.slot}}`)).join("")} ${right.value.kind} (line ${line})`,
      );
      return `${pattern.key}${below} | ${slots.join(" ")} | ${says.join("; ")}${beside.length > 0 ? ` | beside ${beside.join(" ")}` : ""}`;
    }),
  ];
}

test("a dialect with a code of each kind reads without an issue", () => {
  const dialect = dialectOf(KILN);
  expect(dialect.issues).toEqual([]);
  expect(dialect.text).toMatchObject({ knownBy: ["kiln of spring"], comments: [";"], blanks: "loose" });
  expect(told(dialect)).toMatchInlineSnapshot(`
    [
      "glaze: number, line 8",
      "draw: number, line 9",
      "flue: number, line 10",
      "axis: words, line 11",
      "does: words, line 12",
      "pot: words, line 13",
      "spot: bits, line 14",
      "spin {a} {s} {e} under firing 2 | a:words s:1-99 e:0-99 | rates-second {a} curve (line 28)",
      "falls at {w}, ends {l} | w:number l:number | pack warn-at value (line 17); pack land-at value (line 18)",
      "holds {c} | c:0-9999 | pack capacity value (line 19)",
      "shelf {#} {m} by {c} {a}..{b} | #:0-9 m:words c:number=0 a:number=0 b:number=0 | modes {m} condition (line 22)",
      "tile {e} {p} | e:words p:bits=0000 | osd {e} cell (line 25)",
      "spin {a} {s} {e} | a:words s:1-99 e:0-99 | rates {a} curve (line 28)",
    ]
  `);
});

test("fields stand one after another, as in a script, and a unit may stand behind both ends of a range", () => {
  const dialect = dialectOf(`dialect "Loom"

filters
  "notch {f} {w}"  notch at {f} Hz width {w} Hz

rates
  "spin {a} {s} {e}"  {a} slope {s} deg/s end {e} deg/s bend 3

modes
  "on {m} {a} {b}"  {m} when ch5 in {a} us to {b} us

pack
  "volts {r}"  divider-ratio {r}
  "amps {r}"   shunt-scale {r} mohm
`);
  expect(dialect.issues).toEqual([]);
  const fields = dialect.meanings.map(({ right: { value } }) =>
    value.kind === "fields" ? value.fields.map((field) => `${field.name.join("")} ${field.value.kind}`) : value.kind,
  );
  expect(fields).toEqual([
    ["at value", "width value"],
    ["slope value", "end value", "bend constant"],
    "condition",
    "value",
    "value",
  ]);
});

test("lines with the same text before the number share its bounds, which are said once", () => {
  const shared = dialectOf(`dialect "Loom"

filters
  "notch {#:0 to 3} at {f}"  notch at {f} Hz
  "notch {#} wide {w}"       notch width {w} Hz
`);
  expect(shared.issues).toEqual([]);
  expect(shared.lefts.map(({ pattern }) => pattern.slots.get("#")!.whole)).toEqual([
    { from: 0, to: 3 },
    { from: 0, to: 3 },
  ]);
  const without = dialectOf(`dialect "Loom"

filters
  "notch {#} wide {w}"  notch width {w} Hz
`);
  expect(without.issues.map(({ message }) => message.slice(0, 44))).toEqual([
    "A number needs its bounds, as in “{#:0 to 9}",
  ]);
});
