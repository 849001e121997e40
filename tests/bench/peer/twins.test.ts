import Ajv from "ajv";
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { typingPlaceOf, withTyped } from "./place.ts";
import { schemaOf } from "./twin-schema.ts";
import { twinsOf } from "./twins.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const linesFound = (script: string) =>
  findingsOf(core.at(memoryFiles({ "/craft.fettle": script })), "/craft.fettle").map(({ range }) => range.start.line);
const isValid = new Ajv({ strict: false }).compile(schemaOf(catalogue));

describe.each([100, 500, 1000])("the craft of %i lines, told twice", (lines) => {
  const twins = twinsOf(lines, catalogue);
  const [scriptLines, jsonLines] = [twins.script.trimEnd().split("\n"), twins.json.trimEnd().split("\n")];

  test("is as long as it was to be on both sides, nine lines of ten are settings, no two alike", () => {
    expect(scriptLines).toHaveLength(lines);
    expect(jsonLines.length - lines).toBeLessThanOrEqual(4);
    expect(twins.settings / lines).toBeGreaterThan(0.84);
    const numbers = scriptLines.filter((line) => /^ .*\d\.\d/.test(line));
    expect(new Set(numbers).size).toBeGreaterThan(0.9 * numbers.length);
  });

  test("is sound on both sides, and each fault at the place that is typed at is one on both", () => {
    expect(linesFound(twins.script)).toEqual([]);
    expect(isValid(JSON.parse(twins.json))).toBe(true);
    const place = typingPlaceOf(twins, linesFound);
    const [script, json] = [twins.script.split("\n"), twins.json.split("\n")];
    expect(isValid(JSON.parse(withTyped(json, place.json, place.typed(7))))).toBe(true);
    expect(linesFound(withTyped(script, place.script, place.typed(7)))).toEqual([]);
    for (const fault of place.faults) {
      expect(linesFound(withTyped(script, place.script, fault.script))).toEqual([place.script.line]);
      expect(isValid(JSON.parse(withTyped(json, place.json, fault.json)))).toBe(false);
      expect(isValid.errors).toHaveLength(1);
    }
  });
});
