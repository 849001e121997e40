/** The lines that reference pages show as examples are lines that one could write. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { exampleOfElement, exampleOfMode, exampleOfSetting } from "../../../shared/ide/reference/example-line.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { fileFindings } from "../../../shared/rules/engine/engine.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);

function findingsOf(kind: string, text: string): string[] {
  const file = "jug.fettle";
  const workspace = core.at(memoryFiles({ [file]: `${kind} "Jug"\n\n${text}\n` }));
  return fileFindings(workspace, workspace.script(file)!).map(({ code, message }) => `${code}: ${message}`);
}

const settings = catalogue.sections.flatMap((section) =>
  section.settings.map((setting) => ({ path: `${section.name}.${setting.name}`, section, setting })),
);

test("every setting's example reads without a finding, in a file where its section may stand", () => {
  expect(settings.length).toBeGreaterThanOrEqual(220);
  for (const { path, section, setting } of settings) {
    const text = exampleOfSetting(section, setting);
    expect(text, path).toContain(`  ${setting.name}  `);
    expect(findingsOf(section.in.includes("craft") ? "craft" : section.in[0]!, text), `${path}\n${text}`).toEqual([]);
  }
});

test("every mode's and every element's example reads without a finding", () => {
  for (const { name } of catalogue.modes) expect(findingsOf("craft", exampleOfMode(name)), name).toEqual([]);
  for (const { name } of catalogue.elements) expect(findingsOf("craft", exampleOfElement(name)), name).toEqual([]);
});
