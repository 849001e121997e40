/** The page of the language says what the language does. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { languagePage } from "../../../shared/ide/reference/language-page.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";

const catalogue = makeCatalogue();
const page = languagePage();
/** What is found in so short a craft as that of the page. */
const LACKING: ReadonlySet<string> = new Set(["failsafe-unsaid", "osd-essentials"]);
const scripts = [...page.matchAll(/```fettle\n(.*?)```/gs)].map((match) => match[1]!);

test("its examples are scripts that use each other, without a finding but for what so short a craft lacks", () => {
  const [craft, layer, handset] = scripts;
  const files = {
    "/craft.fettle": craft!,
    "/layers/habits.fettle": layer!,
    "/handsets/wheel.fettle": handset!,
  };
  const workspace = makeCore(catalogue).at(memoryFiles(files));
  for (const file of Object.keys(files))
    expect(findingsOf(workspace, file).filter(({ code }) => !LACKING.has(code))).toEqual([]);
  expect(workspace.craft("/craft.fettle")!.handset?.name).toBe("Wheel");
});

test("it names every unit there is", () => {
  const said = page.slice(page.indexOf("## Units"), page.indexOf("## Notes"));
  const words = new Set(said.split(/[\s·,:;]+/));
  const symbols = catalogue.unitFamilies.flatMap(({ units }) => units.map(({ symbol }) => symbol));
  expect(symbols.filter((symbol) => !words.has(symbol))).toEqual([]);
});

test("it names every rule and section that it speaks of by the name they have", () => {
  const code = [...page.matchAll(/`([a-z]+(?:-[a-z]+)+)`/g)].map((match) => match[1]!);
  const known = (name: string) =>
    catalogue.section(name) ??
    catalogue.mode(name) ??
    catalogue.element(name) ??
    rules.some(({ code: of }) => of === name);
  expect(code.filter((name) => !known(name))).toEqual([]);
});
