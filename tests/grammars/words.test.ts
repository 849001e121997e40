/** What a double click and the next occurrence take as one word: the two settings of the editor agree on every name. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { rules } from "../../shared/rules/engine/registry.generated.ts";

const read = (path: string) => JSON.parse(readFileSync(inProject(path), "utf8"));
const separators: string = read("package.json").contributes.configurationDefaults["[fettle]"]["editor.wordSeparators"];
const wordPattern = new RegExp(read("grammars/language-configuration.json").wordPattern, "g");

/** The word at a column, as a double click takes it: up to a blank or a separator. */
function clicked(line: string, column: number): string {
  const ends = (char: string | undefined) => char === undefined || /\s/.test(char) || separators.includes(char);
  let start = column;
  let end = column;
  while (!ends(line[start - 1])) start--;
  while (!ends(line[end])) end++;
  return line.slice(start, end);
}

/** The word at a column, as the language's own pattern has it. */
function matched(line: string, column: number): string {
  const found = [...line.matchAll(wordPattern)].find(
    ({ index, 0: word }) => index <= column && column <= index + word.length,
  );
  return found?.[0] ?? "";
}

test("every name is taken whole, wherever in it one clicks", () => {
  const { sections, modes, elements } = makeCatalogue();
  const settings = sections.flatMap((section) => section.settings.map(({ name }) => name));
  const names = [...sections, ...modes, ...elements, ...rules.map(({ code }) => ({ name: code }))].map(
    ({ name }) => name,
  );
  const all = new Set([...names, ...settings, "TL", "ch5", "three-up"]);
  expect(all.size).toBeGreaterThan(400);
  for (const name of all) {
    const line = `  ${name}  when (${name}) is “${name}”, # allow ${name}: yes`;
    for (const { index } of line.matchAll(new RegExp(`(?<![a-z0-9-])${name}(?![a-z0-9-])`, "gi"))) {
      for (const column of [index, index + 1, index + name.length - 1]) {
        expect(clicked(line, column)).toBe(name);
        expect(matched(line, column)).toBe(name);
      }
    }
  }
});

test.each([
  ["  pack-volts  at left+2, bottom-1", 17, "left"],
  ["  pack-volts  at left+2, bottom-1", 26, "bottom-1"],
  ['pack "Big one"', 8, "Big"],
  ['use "layers/osd-wide.fettle"', 14, "osd-wide"],
  ["  warn-at  3.5 V/cell", 11, "3"],
])("%s, at %i", (line, column, word) => {
  expect(clicked(line, column)).toBe(word);
});
