/** How values hang together: each relation has its reason, its source and both its ends, and stands on the pages of both. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { needTables } from "../../shared/catalogue/relations/index.ts";
import { HAVING_WORDS, havingKey } from "../../shared/catalogue/relations/needs-words.ts";
import { comparisonSchema, figureSchema } from "../../shared/catalogue/schema.ts";
import type { Need } from "../../shared/catalogue/specs.ts";
import { convert } from "../../shared/catalogue/units.ts";
import { briefComparisonLines } from "../../shared/ide/context/brief-relations.ts";
import { describeName } from "../../shared/ide/context/describe.ts";
import { pageOfNamed } from "../../shared/ide/reference/page.ts";
import { COMPUTED_FIGURES } from "../../shared/numbers/figures-of.ts";
import { operandPath, settingsOfOperand } from "../../shared/numbers/operands.ts";

const catalogue = makeCatalogue();
const { comparisons, figures, sections, modes, elements } = catalogue;

const settings = sections.flatMap((section) =>
  section.settings.map((setting) => ({ ...setting, name: `${section.name}.${setting.name}` })),
);
const needs: { readonly name: string; readonly need: Need }[] = [...settings, ...modes, ...elements].flatMap(
  ({ name, needs: all = [] }) => all.map((need) => ({ name, need })),
);

function exists(path: string): boolean {
  const { section, name } = operandPath(path);
  return catalogue.setting(section, name) !== undefined;
}

test("there are as many relations as a pilot's mistakes ask for", () => {
  expect(comparisons.length).toBeGreaterThanOrEqual(60);
  expect(comparisons.length + needs.length).toBeGreaterThanOrEqual(180);
});

test.each(comparisons.map((each) => [`${each.of} must ${each.must} ${each.than}`, each] as const))(
  "%s: reason, source, and both ends",
  (_, each) => {
    expect(comparisonSchema.parse(each)).toEqual(each);
    // A second sentence says what to do, or how the slip may have come about.
    expect(each.reason.length).toBeGreaterThan(40);
    const ends = [each.of, each.than].map((operand) => settingsOfOperand(operand, catalogue));
    expect(ends[0]!.length).toBeGreaterThan(0);
    if (!/^\d/.test(each.than)) expect(ends[1]!.length).toBeGreaterThan(0);
    expect(ends.flat().filter((path) => !exists(path))).toEqual([]);
    for (const operand of [each.of, each.than]) expectPart(operand, each.unit);
    for (const name of ends.flat()) {
      const page = pageOfNamed(catalogue, { name, kind: "setting" });
      expect(page, name).toContain(`${each.reason} *(${each.severity ?? "error"}; ${each.source})*`);
      const [section = "", setting = ""] = name.split(".");
      const hover = describeName(catalogue, section, setting)?.rest;
      const isInput = !ends[0]!.includes(name) && each.than.startsWith("=");
      // Of a limit that is computed from many figures, their hovers may leave the reason to the page.
      if (!isInput) expect(hover, name).toContain(firstSentence(each.reason));
      else expect(hover, name).toContain(inCode(each.of));
    }
  },
);

/** As a hover names it: a part stands beside the setting. */
function inCode(operand: string): string {
  const { section, name, part } = operandPath(operand);
  return `\`${section}.${name}${part === undefined ? "" : ` ${part}`}\``;
}

function firstSentence(reason: string): string {
  return reason.split(/(?<=\.) (?=[A-Z])/)[0]!;
}

test("no hover is a wall of relations", () => {
  const long = settings.filter(({ name }) => briefComparisonLines(catalogue, name).join("").length > 950);
  expect(long.map(({ name }) => name)).toEqual([]);
});

test("a hover names together what stands to a setting in the same way, and gives the reason once", () => {
  const lines = briefComparisonLines(catalogue, "link.centre");
  const same = "Must agree with `bench.centres roll`, `bench.centres pitch` and `bench.centres yaw`: ";
  expect(lines.filter((line) => line.startsWith("Must agree"))).toEqual([
    `${same}With the stick let go the craft goes on turning.`,
  ]);
});

test("where there is room a hover says what to do as well", () => {
  expect(briefComparisonLines(catalogue, "rates.top-rate").join("\n")).toContain("Raise the cap");
});

/** The part of a setting that is compared exists and has the unit. */
function expectPart(operand: string, unit: string): void {
  if (operand.startsWith("=") || /^\d/.test(operand)) return;
  const { section, name, part } = operandPath(operand);
  const types = catalogue.setting(section, name)!.types.flatMap((type) => {
    if (type.is === "fields") return type.fields.filter((field) => field.name === part).flatMap((field) => field.types);
    if (type.is === "range") return part === "from" || part === "to" ? [type.of] : [];
    return part !== undefined ? [] : type.is === "list" ? [type.of] : [type];
  });
  const fits = types.some((type) =>
    type.is === "integer" ? unit === "" : type.is === "quantity" && convert(1, type.unit, unit) !== undefined,
  );
  expect(fits, `${operand} in ${unit}`).toBe(true);
}

test.each(figures)("the figure $name: what it is, where it comes from, and a computation", (figure) => {
  expect(figureSchema.parse(figure)).toEqual(figure);
  expect(figure.from.filter((path) => !exists(path))).toEqual([]);
  expect(COMPUTED_FIGURES).toContain(figure.name);
  expect(comparisons.some(({ of, than }) => [of, than].includes(`=${figure.name}`))).toBe(true);
});

test("what is computed is a figure of the catalogue", () => {
  expect([...COMPUTED_FIGURES].sort()).toEqual(figures.map(({ name }) => name).sort());
});

test("every need has its reason, and stands on the pages of both its ends", () => {
  for (const { name, need } of needs) {
    expect(need.source, name).toBeTruthy();
    const kind = name.includes(".") ? "setting" : catalogue.mode(name) ? "mode" : "element";
    const page = pageOfNamed(catalogue, { name, kind });
    expect(page, name).toContain(need.reason);
    for (const { setting, mode } of [need, ...(need.or ?? [])]) {
      const other = setting ?? mode;
      if (other === undefined) continue;
      const otherPage = pageOfNamed(catalogue, { name: other, kind: setting === undefined ? "mode" : "setting" });
      expect(otherPage, `${other}, needed by ${name}`).toContain(`\`${name}\``);
    }
  }
});

test("what stands in a table exists, and every table says where it has its needs from", () => {
  for (const [name, all] of needTables.flatMap((table) => Object.entries(table))) {
    const known = name.includes(".") ? exists(name) : (catalogue.mode(name) ?? catalogue.element(name));
    expect(known, name).toBeTruthy();
    expect(all.filter(({ source }) => source === undefined)).toEqual([]);
  }
});

test("a word that has a need is one that the setting takes", () => {
  for (const { name, need } of needs) {
    if (need.word === undefined) continue;
    const setting = settings.find((each) => each.name === name)!;
    if (setting.types.some(({ is }) => is === "size") && /^\d+ x \d+$/.test(need.word)) continue;
    const words = setting.types.flatMap((type) => {
      const of = type.is === "list" ? type.of : type;
      return of.is === "choice" ? of.choices.map(({ word }) => word) : of.is === "yes-no" ? ["yes", "no"] : [];
    });
    expect(words, `${name} ${need.word}`).toContain(need.word);
  }
});

test("what a need asks for is said in plain words, and no words are left over", () => {
  const keys = needs.flatMap(({ need }) => [need, ...(need.or ?? [])].map(havingKey));
  const leftOver = Object.keys(HAVING_WORDS).filter((key) => !keys.includes(key));
  expect([...new Set(keys)].filter((key) => !(key in HAVING_WORDS) && !key.startsWith("mode "))).toEqual([]);
  expect(leftOver).toEqual([]);
});

test("where there is no room, a hover only names the limits that a setting is one figure of many for", () => {
  const lines = briefComparisonLines(catalogue, "pack.cells");
  expect(lines).toHaveLength(1);
  expect(lines[0]).toMatch(
    /^Sets limits to `board\.input-limit`, `motors\.kv`, .* and `filters\.motor-notches floor`$/,
  );
});
