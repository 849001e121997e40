/** Right sides of facts in every form, as what they were read as. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { Ref, Template, ValueTemplate } from "../../shared/dialect/dialect.ts";
import { readDialect } from "../../shared/dialect/read-dialect.ts";
import { parse } from "../../shared/syntax/parse.ts";

const catalogue = makeCatalogue();

/** The right side as it was understood: `(…)` around each part, with its kind. */
function understood(section: string, left: string, right: string): string {
  const { issues, meanings } = readDialect(
    "/d.fettle",
    parse(`dialect "D"\n${section}\n  ${left}  ${right}\n`),
    catalogue,
  );
  const [meaning] = meanings;
  if (!meaning) return issues.map(({ code, message }) => `${code}: ${message}`).join("\n");
  return `${words(meaning.right.name)} = ${shown(meaning.right.value)}`;
}

function ref({ slot, part }: Ref): string {
  return part === null ? `{${slot}}` : `{${slot}.${part}}`;
}

function words(template: Template): string {
  return template.map((part) => (typeof part === "string" ? part : ref(part))).join("");
}

function shown(value: ValueTemplate): string {
  switch (value.kind) {
    case "value":
      return `value(${value.terms.map(ref).join(" + ")}${value.unit === "" ? "" : ` in ${value.unit}`})`;
    case "constant":
      return `constant(${value.text})`;
    case "text":
    case "word":
      return `${value.kind}(${words(value.parts)})`;
    case "fields":
      return `fields(${value.fields.map(({ name, value: each }) => `${words(name)}: ${shown(each)}`).join(", ")})`;
    case "cell":
      return `cell(${shown(value.column)}, ${shown(value.row)})`;
    case "range":
    case "follows":
      return `${value.kind}(${shown(value.from)}, ${shown(value.to)})`;
    case "size":
      return `size(${shown(value.columns)}, ${shown(value.rows)})`;
    case "list":
    case "order":
      return `${value.kind}(${value.items.map(shown).join(", ")})`;
    case "condition": {
      const { shape } = value;
      if (shape.kind === "always") return "always";
      const end = (one: Ref | string | number) => (typeof one === "object" ? ref(one) : String(one));
      if (shape.kind === "mode") return `mode(${end(shape.mode)})`;
      return shape.ranges.map(({ channel, from, to }) => `${end(channel)} ${end(from)}..${end(to)}`).join(" and ");
    }
    case "curve":
      return `curve(${value.formula.kind})`;
    case "unset":
      return "unset";
  }
}

test.each([
  ["pack", '"c {c}"', "capacity {c} mAh", "capacity = value({c} in mAh)"],
  ["pack", '"h {h} l {l}"', "warn-at {h} + {l} V/cell", "warn-at = value({h} + {l} in V/cell)"],
  ["pack", '"h {h} l {l}"', "divider-ratio {h} + {l}", "divider-ratio = value({h} + {l})"],
  ["pack", '"c"', "chemistry lipo", "chemistry = constant(lipo)"],
  ["rates", '"s {s} e {e}"', "roll slope {s} end {e}", "roll = fields(slope: value({s}), end: value({e}))"],
  [
    "rates",
    '"s {a} {s} {e}"',
    "{a} slope {s} deg/s end {e} deg/s bend 3",
    "{a} = fields(slope: value({s} in deg/s), end: value({e} in deg/s), bend: constant(3))",
  ],
  ["rates", '"s {f} {v}"', "roll {f} {v}", "roll = fields({f}: value({v}))"],
  [
    "rates",
    '"s {f} {v} {g} {w}"',
    "roll {f} {v} deg/s {g} {w}",
    "roll = fields({f}: value({v} in deg/s), {g}: value({w}))",
  ],
  [
    "rates",
    '"s {h} {l} {e}"',
    "roll slope {h} + {l} end {e}",
    "roll = fields(slope: value({h} + {l}), end: value({e}))",
  ],
  ["osd", '"n {n}"', 'craft "no. {n}"', "craft = text(no. {n})"],
  ["motors", '"m {n} {d}"', "motor{n} place {d}", "motor{n} = fields(place: value({d}))"],
  ["osd", '"p {e} {x} {y}"', "{e} at {x}, {y}", "{e} = cell(value({x}), value({y}))"],
  ["osd", '"p {e} {x} {y}"', "{e} at left+{x}, bottom-{y}", "{e} = cell(word(left+{x}), word(bottom-{y}))"],
  ["osd", '"p {e}"', "{e} unset", "{e} = unset"],
  ["osd", '"none"', "unset", " = unset"],
  ["osd", '"g {c} {r}"', "grid {c} x {r}", "grid = size(value({c}), value({r}))"],
  ["modes", '"m {c} {a} {b}"', "arm when {c} in {a} to {b}", "arm = {c} {a}..{b}"],
  [
    "modes",
    '"m {c} {d} {a}"',
    "arm when {c} in 900 us to {a} and {d} in {a} to 2100",
    "arm = {c} 900..{a} and {d} {a}..2100",
  ],
  ["modes", '"m {m}"', "arm when {m}", "arm = mode({m})"],
  ["modes", '"m"', "arm when level", "arm = mode(level)"],
  ["modes", '"m {m}"', "{m} when always", "{m} = always"],
])("%s: %s  %s", (section, left, right, expected) => {
  expect(understood(section, left, right)).toBe(expected);
});

test("a number and the heading's slot are said once for all lines that share them", () => {
  const text = `dialect "D"
modes
  "slot {#} by {c}"  arm when {c} in 900 to 2100
  "slot {#:0 to 3} mode {m}"  {m} when always
pack
  under "row {n}"
  "holds {c}"  capacity {c} mAh
rates
  under "row {n:1 to 3=1}"
  "s {s}"  roll slope {s} deg/s
`;
  const { lefts, issues } = readDialect("/d.fettle", parse(text), catalogue);
  expect(issues).toEqual([]);
  expect(
    lefts.map(({ pattern, under }) => [
      pattern.key,
      pattern.slots.get("#")?.whole,
      under.kind === "heading" && under.pattern.slots.get("n")?.whole,
    ]),
  ).toEqual([
    ["holds {c}", undefined, { from: 1, to: 3 }],
    ["s {s}", undefined, { from: 1, to: 3 }],
    ["slot {#} by {c}", { from: 0, to: 3 }, false],
    ["slot {#} mode {m}", { from: 0, to: 3 }, false],
  ]);
});
