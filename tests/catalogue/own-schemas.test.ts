/**
 * The JSON Schemas that are contributed to the editor, held to the dialect that they name by an outside validator
 * (`ajv/dist/2020`): they offer words, and check nothing, since what is wrong the program itself says.
 */
import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { readAliasesFile, readCatalogueFile } from "../../shared/catalogue/own-files.ts";
import { glow } from "../ide/own-words/glow.ts";

const ajv = new Ajv2020({ allErrors: true });
// Words of the editor's own, which the standard leaves free.
ajv.addVocabulary(["enumDescriptions", "defaultSnippets"]);
const schemaOf = (name: string) =>
  JSON.parse(readFileSync(`client/schemas/fettle-${name}.schema.json`, "utf8")) as Record<string, unknown>;
const catalogueFile = ajv.compile(schemaOf("catalogue"));
const aliasesFile = ajv.compile(schemaOf("aliases"));

const file = (...settings: unknown[]) => ({ catalogue: "The lamp", settings });
const shipped = makeCatalogue().sections.flatMap(({ name: section, like, settings }) =>
  like ? [] : settings.map((setting) => ({ section, ...setting })),
);

test("every shipped setting is valid in a pilot's own catalogue", () => {
  expect(shipped.length).toBeGreaterThanOrEqual(220);
  catalogueFile(file(...shipped));
  expect(catalogueFile.errors).toBeNull();
});

test.each<[string, unknown]>([
  ["an own setting", file(glow)],
  ["no setting at all", file()],
  ["the schema named", { $schema: "./fettle-catalogue.schema.json", ...file(glow) }],
  ["a bare number", file({ ...glow, types: [{ is: "quantity", unit: "" }] })],
  ["parts", file({ ...glow, default: undefined, types: [{ is: "fields", fields: [part("red"), part("green")] }] })],
])("good: %s", (_, given) => {
  const json = JSON.parse(JSON.stringify(given));
  catalogueFile(json);
  expect(catalogueFile.errors).toBeNull();
  expect(readCatalogueFile(json).problems).toEqual([]);
});

function part(name: string) {
  return { name, types: [{ is: "yes-no" }], what: "Says whether that lamp is lit." };
}

test.each<[string, unknown]>([
  ["no object", []],
  ["no settings", { catalogue: "The lamp" }],
  ["a member that there is not", { ...file(glow), colour: "red" }],
  ["a name in capitals", file({ ...glow, name: "Glow" })],
  ["no kind", file({ ...glow, kind: undefined })],
  ["a why of three words", file({ ...glow, why: "It just glows." })],
  ["no words", file({ ...glow, words: [] })],
  ["a type that there is not", file({ ...glow, types: [{ is: "speed" }] })],
  ["a limit without source", file({ ...glow, types: [{ is: "integer", min: { at: 1 } }] })],
  ["a choice of none", file({ ...glow, types: [{ is: "choice", choices: [] }] })],
])("bad: %s", (_, given) => {
  const json = JSON.parse(JSON.stringify(given));
  expect(readCatalogueFile(json).problems.length).toBeGreaterThan(0);
  expect(catalogueFile(json)).toBe(true);
});

test("the schemas say nothing of any value at all", () => {
  fc.assert(
    fc.property(fc.json(), (text) => {
      const value: unknown = JSON.parse(text);
      for (const each of [value, file(value), { aliases: value }, file({ ...glow, types: [value] })]) {
        expect(catalogueFile(each)).toBe(true);
        expect(aliasesFile(each)).toBe(true);
      }
    }),
  );
  const setting = fc.constantFrom(...shipped);
  fc.assert(
    fc.property(setting, fc.nat(), fc.jsonValue(), (original, pick, value) => {
      const json = JSON.parse(JSON.stringify(file(original)));
      const ways = waysIn(json);
      expect(catalogueFile(withValue(json, ways[pick % ways.length]!, value))).toBe(true);
    }),
  );
});

test("they offer the sections, the units, the kinds and the types that there are, and names for aliases", () => {
  const text = JSON.stringify(schemaOf("catalogue"));
  for (const word of ["lights", "kohm", "hardware", "quantity", "fields", "missing"])
    expect(text).toContain(`"${word}"`);
  expect(text).not.toMatch(/"(pattern|minLength|minItems|oneOf)":/);
  const names = JSON.stringify(schemaOf("aliases"));
  for (const word of ["level", "finder", "pack.reserve", "pack-volts"]) expect(names).toContain(`"${word}"`);
});

type Way = readonly (string | number)[];

function waysIn(value: unknown, way: Way = []): Way[] {
  if (typeof value !== "object" || value === null) return [];
  const entries = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return entries.flatMap(([key, inner]) => [[...way, key], ...waysIn(inner, [...way, key])]);
}

function withValue(whole: unknown, way: Way, value: unknown): unknown {
  const [key, ...rest] = way;
  if (key === undefined) return value;
  const inner = withValue((whole as Record<string | number, unknown>)[key], rest, value);
  return Array.isArray(whole) ? whole.with(key as number, inner) : { ...(whole as object), [key]: inner };
}

test.each<[boolean, unknown]>([
  [true, { aliases: {} }],
  [true, { aliases: { "self level": "level", squealer: "finder", "juice left": "pack.reserve" } }],
  [true, { aliases: { "belly wait": "lights.glow-delay" } }],
  [false, {}],
  [false, { aliases: [] }],
  [false, { aliases: { x: "level" } }],
  [false, { aliases: { flat: "Level!" } }],
  [false, { aliases: { flat: ["level"] } }],
  [false, { aliases: {}, words: {} }],
])("aliases, %s: %j", (good, given) => {
  expect(aliasesFile(given)).toBe(true);
  expect(readAliasesFile(given).problems.length === 0).toBe(good);
});

test("every member has a description for completion", () => {
  const silent: string[] = [];
  const visit = (schema: unknown, at: string) => {
    if (typeof schema !== "object" || schema === null) return;
    for (const [key, inner] of Object.entries(schema)) {
      if (key === "properties")
        for (const [name, member] of Object.entries(inner as Record<string, { description?: string }>))
          if ((member.description ?? "").length < 10) silent.push(`${at}.${name}`);
      if (key !== "defaultSnippets") visit(inner, `${at}.${key}`);
    }
  };
  visit(schemaOf("catalogue"), "catalogue");
  visit(schemaOf("aliases"), "aliases");
  expect(silent).toEqual([]);
});
