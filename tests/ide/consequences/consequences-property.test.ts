/** For any values within their limits, consequences have finite figures and name existing settings. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { SettingSpec, SimpleType, ValueType } from "../../../shared/catalogue/specs.ts";
import { consequencesOf } from "../../../shared/ide/consequences/consequences.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const sections = catalogue.sections.filter(({ in: where, name }) => where.includes("craft") && name !== "verbatim");

/** A number in a type's limits, at either end of them often. */
function number(type: Extract<SimpleType, { is: "quantity" | "integer" }>): fc.Arbitrary<string> {
  const [min, max] = [type.min?.at ?? 1, type.max?.at ?? 100];
  const within = fc.integer({ min: 0, max: 100 }).map((of) => min + ((max - min) * of) / 100);
  const unit = type.is === "quantity" && type.unit !== "" ? ` ${type.unit}` : "";
  return fc
    .oneof(fc.constantFrom(min, max), within)
    .map((value) => `${type.is === "integer" ? Math.round(value) : Number(value.toPrecision(6))}${unit}`)
    .filter((text) => !/\de/.test(text));
}

function simple(type: SimpleType): fc.Arbitrary<string> {
  switch (type.is) {
    case "quantity":
    case "integer":
      return number(type);
    case "choice":
      return fc.constantFrom(...type.choices.map(({ word }) => word));
    case "yes-no":
      return fc.constantFrom("yes", "no");
    case "range":
      return fc.tuple(number(type.of), number(type.of)).map((ends) => {
        const sorted = ends.sort((a, b) => Number.parseFloat(a) - Number.parseFloat(b));
        return sorted.join(" to ");
      });
    case "list":
      return type.of.is === "quantity" || type.of.is === "integer"
        ? fc
            .array(number(type.of), { minLength: type.fewest, maxLength: type.fewest + 3 })
            .map((items) => items.join(", "))
        : fc.constant("none");
    case "size":
      return fc.constantFrom("1 x 1", "30 x 16", "60 x 22");
    default:
      return fc.constant("2026-05-01");
  }
}

function anyValue(types: readonly ValueType[]): fc.Arbitrary<string> {
  return fc.oneof(
    ...types.map((type) =>
      type.is === "fields"
        ? fc
            .tuple(
              ...type.fields.map((field) =>
                fc.option(anyValue(field.types)).map((said) => (said === null ? "" : ` ${field.name} ${said}`)),
              ),
            )
            .map((fields) => fields.join("").trim())
            .filter((text) => text !== "")
        : simple(type),
    ),
  );
}

const entry = (setting: SettingSpec) =>
  fc.option(anyValue(setting.types)).map((said) => (said === null ? "" : `  ${setting.name} ${said}\n`));

const craft = fc
  .tuple(
    ...sections.map(({ name }) =>
      fc
        .tuple(...catalogue.settingsOf(name).map(entry))
        .map((lines) => (lines.join("") === "" ? "" : `${name}\n${lines.join("")}\n`)),
    ),
  )
  .map((parts) => `craft "Jug"\n\n${parts.join("")}osd\n  amps at right, bottom\n`);

test("no sentence holds NaN or Infinity; every name it depends on is in the catalogue", () => {
  let consequences = 0;
  fc.assert(
    fc.property(craft, (text) => {
      const made = core.at(memoryFiles({ "jug.fettle": text })).craft("jug.fettle")!;
      for (const { section, name, kind } of made.script.entries) {
        for (const each of consequencesOf(made, catalogue, { section, name, kind })) {
          consequences++;
          expect(`${each.text} ${each.brief}`, text).not.toMatch(/NaN|Infinity|null|\[object|\de[+-]\d| {2}|%%/);
          expect(each.text).toMatch(/^[A-Za-z0-9]/);
          for (const path of each.from) {
            const [owner, of] = path.split(":")[0]!.split(".") as [string, string];
            const known = catalogue.setting(owner.split("/")[0]!, of) ?? catalogue.element(of);
            expect(known, `${path} of: ${each.text}`).toBeDefined();
          }
        }
      }
    }),
    { numRuns: 60 },
  );
  expect(consequences).toBeGreaterThan(1000);
});
