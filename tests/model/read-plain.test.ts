import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { settingExamples } from "../../shared/catalogue/examples/index.ts";
import { readByTypes, readSetting } from "../../shared/model/read-value.ts";
import { units } from "../../shared/model/units.ts";
import { type Random, randomOf } from "../fire/random.ts";

const SEED = 16;
const CASES = 20;
const { sections, settingsOf } = makeCatalogue();
const settings = sections.flatMap(({ name }) => settingsOf(name).map((spec) => ({ section: name, spec })));
const words = settings.flatMap(({ spec }) =>
  spec.types.flatMap((type) => (type.is === "choice" ? type.choices.map(({ word }) => word) : [])),
);

const digits = ({ below, oneOf, onceIn }: Random) =>
  `${onceIn(5) ? "-" : ""}${oneOf(["0", "00", "3", "3.5", "007", "1000", "3.", ".5", "9".repeat(17), "9".repeat(400), `${below(5000)}`])}`;
const unit = ({ oneOf }: Random) =>
  oneOf(["", ...units.all, "µs", "μs", "v", "V/cel", "V/cell/s", "V_", "S", "x", "%%"]);
const part = (random: Random) =>
  random.oneOf([
    `${digits(random)}${random.oneOf([" ", "  ", "\t", "", ""])}${unit(random)}`,
    random.oneOf(["yes", "no", "true", "Yes", "none-", "no_", "to", "16:9", '"no"', ...words]),
    random.oneOf([",", "to", "1 x 1", "left+2, top", "2026-01-02", "5 %5", '"a text"', "#"]),
  ]);

test("a value is read in one step as it is read type by type", () => {
  let readable = 0;
  for (const [i, { section, spec }] of settings.entries()) {
    for (let j = 0; j < CASES; j++) {
      const random = randomOf(SEED, i * CASES + j);
      const example = settingExamples[section]?.[spec.name];
      const value =
        j === 0 && example !== undefined
          ? example
          : random.some(random.oneOf([1, 1, 1, 2]), () => part(random)).join(" ");
      const before = `  ${spec.name}${random.oneOf([" ", "\t  "])}`;
      const text = `${before}${value}${random.oneOf(["", "  # noted", " "])}`;
      const at = { start: before.length, end: before.length + value.length };
      const read = readSetting(text, at, spec, units);
      expect(read, `seed ${SEED}, ${text}`).toStrictEqual(readByTypes(text, at, spec, units));
      if (read.value !== null) readable++;
    }
  }
  expect(readable).toBeGreaterThan(settings.length);
});
