import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { settingExamples } from "../../shared/catalogue/examples/index.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { numbersOfOperand, oneNumberOf } from "../../shared/numbers/operands.ts";
import { packIn } from "../../shared/numbers/pack-of.ts";
import { randomOf } from "../fire/random.ts";

const SEED = 16;
const CRAFTS = 30;
const catalogue = makeCatalogue();
const ends = [
  ...new Map(
    catalogue.comparisons.flatMap(({ of, than, unit }) =>
      [of, than].map((end) => [`${end} in ${unit}`, { end, unit }]),
    ),
  ).values(),
];

/** Some of all settings as their examples have them; a pack beside the plain one says some as shares, and some wrongly. */
function craftAt(i: number): string {
  const { onceIn, oneOf } = randomOf(SEED, i);
  const linesOf = (section: string) =>
    Object.entries(settingExamples[section] ?? {}).flatMap(([name, value]) => (onceIn(4) ? [] : `  ${name} ${value}`));
  const sections = catalogue.sections.filter(({ holds, like }) => holds === "settings" && !like);
  const shelf = ["capacity", "reserve", "warn-after", "pack-mass", "cells", "full-at", "hover-current"].map(
    (name) => `  ${name} ${oneOf(["20 %", "900 mAh", "1 Ah", "4", "3.5 V/cell", "5 A", "0.2 kg", "detect", "much"])}`,
  );
  return [
    'craft "Jug"',
    ...sections.flatMap(({ name }) => [name, ...linesOf(name)]),
    'pack "Shelf"',
    ...shelf.filter(() => !onceIn(3)),
  ].join("\n");
}

test("an end of a comparison that is found in one step is what all steps find", () => {
  let found = 0;
  for (let i = 0; i < CRAFTS; i++) {
    const craft = makeCore(catalogue)
      .at(memoryFiles({ "/jug.fettle": craftAt(i) }))
      .craft("/jug.fettle")!;
    for (const section of ["pack", "pack/Shelf"]) {
      const [own, plain] = [section, "pack"].map((each) => craft.settings.get(each) ?? new Map());
      const pack = { figures: packIn(craft, catalogue, section), own: own!, plain: plain! };
      const sectionOf = (each: string) => (each === "pack" ? section : each);
      for (const { end, unit } of ends) {
        const one = oneNumberOf(craft, catalogue, end, unit, pack);
        if (one === undefined) continue;
        const all = numbersOfOperand(craft, catalogue, end, unit, sectionOf);
        expect([end, unit, one === null ? [] : [one]], `craft ${i}, ${section}`).toEqual([end, unit, all]);
        if (one !== null) found++;
      }
    }
  }
  expect(found).toBeGreaterThan(CRAFTS * ends.length * 0.5);
});
