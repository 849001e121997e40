/**
 * Makes the table of which rules look at which names. Nobody has to list that: a rule looks at a
 * setting if another value of it, or none, changes what the rule finds. That is tried in its own
 * examples, also with one other setting changed first (a chemistry counts only once some volts are
 * low), in a craft for each mode, and in one that says nearly everything. Settings that its own text
 * names count too, and of modes and elements what it asks for by name as it runs on its examples.
 */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { boardOf } from "../../shared/logic/from-craft.ts";
import type { Craft } from "../../shared/model/craft.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../shared/model/workspace.ts";
import { rules } from "../../shared/rules/engine/registry.generated.ts";
import type { ExampleFiles, Rule } from "../../shared/rules/engine/rule.ts";
import { traced } from "./rule-trace.ts";
import { valuesOf } from "./rule-values.ts";

/** A craft that says nearly everything, and what it uses. */
const FULL_FOLDER = "tests/fixtures/sane";
const FULL = ["five-inch.fettle", "wheel.fettle", "common.fettle"];
/** Changes of one setting from which to try a second one: a few show it, and the rest take time. */
const MOST_CHANGED = 6;
const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const eachMode = catalogue.modes.map(
  ({ name }): ExampleFiles => ({
    "jug.fettle": `craft "Jug"\n\nuse "wheel.fettle"\n\nports\n  port1 receiver\n\nmodes\n  ${name} when TL is down\n`,
    "wheel.fettle": 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n',
  }),
);
type CraftRule = Exclude<Rule, { readonly scope: "file" }>;

/** The table, by code of a rule; it takes some seconds. */
export function generate(root: string): { path: string; text: string }[] {
  const inRules = (name: string) => readFileSync(join(root, "shared/rules", name), "utf8");
  const full = Object.fromEntries(FULL.map((name) => [name, readFileSync(join(root, FULL_FOLDER, name), "utf8")]));
  const texts = rules.map(({ code }) => inRules(`all/${code}.ts`));
  const lines = rules.flatMap((rule, i) => {
    if (rule.scope === "file") return [];
    // What only this rule brings in is part of it.
    const own = [...texts[i]!.matchAll(/from "\.\.\/(lib\/[a-z-]+\.ts)"/g)].map(([, name = ""]) => name);
    const parts = own.filter((name) => texts.filter((text) => text.includes(`from "../${name}"`)).length === 1);
    const names = namesOf(rule, [texts[i]!, ...parts.map(inRules)].join("\n"), full);
    return names.length === 0 ? [] : [`  "${rule.code}": "${names.join(" ")}",`];
  });
  const text = [
    "// Made by npm run generate from what the rules ask for. Do not edit.",
    "",
    "/** By code of a rule: the names that it looks at. */",
    "// biome-ignore format: one line a rule reads best.",
    "export const RULE_NAMES: Readonly<Record<string, string>> = {",
    ...lines,
    "};",
    "",
  ].join("\n");
  return [{ path: "shared/ide/reference/rule-names.generated.ts", text }];
}

/** Names of a rule, in order; ports and motors that differ by number only all count as soon as one does. */
function namesOf(rule: CraftRule, text: string, full: ExampleFiles): string[] {
  const found = new Set<string>(writtenIn(text));
  const { bad, good } = rule.examples;
  for (const files of [bad, good]) for (const name of askedFor(rule, files)) if (!name.includes(".")) found.add(name);
  const addFrom = (files: ExampleFiles) => {
    const open = [...askedFor(rule, files)].filter((name) => !found.has(name));
    for (const name of mattering(rule, files, open).keys()) found.add(name);
  };
  const mattersAlone = mattering(rule, bad, [...askedFor(rule, bad)]);
  for (const name of mattersAlone.keys()) found.add(name);
  const changed = [...mattersAlone.values()].flatMap((changes) => changes.slice(0, MOST_CHANGED));
  for (const files of [...changed, good, full, ...eachMode]) addFrom(files);
  const numbered = [...found].flatMap((name) => {
    const [, stem] = /^(.*[a-z])\d$/.exec(name) ?? [];
    const numbers = stem === undefined ? [] : [1, 2, 3, 4, 5, 6, 7, 8];
    return numbers.map((number) => `${stem}${number}`).filter(isName);
  });
  return [...new Set([...found, ...numbered])].sort();
}

/** Settings that a rule's own text names: as SECTION.NAME, or to a pack that it asks for one. */
function writtenIn(text: string): string[] {
  const whole = [...text.matchAll(/"([a-z-]+\.[a-z0-9-]+)"/g)].map(([, name = ""]) => name);
  const ofPack = [...text.matchAll(/pack\.said\("([a-z-]+)"\)/g)].map(([, name]) => `pack.${name}`);
  return [...whole, ...ofPack].filter((name) => name.includes(".") && isName(name));
}

/** Those of some settings that matter to a rule in these files, each with the files in which a change of it shows. */
function mattering(rule: CraftRule, files: ExampleFiles, names: readonly string[]): Map<string, ExampleFiles[]> {
  const first = Object.keys(files)[0]!;
  const findingsIn = (changed: ExampleFiles) => {
    const workspace = core.at(memoryFiles(changed));
    const craft = workspace.craft(first);
    return craft ? findings(rule, craft, workspace) : "";
  };
  const before = findingsIn(files);
  const found = new Map<string, ExampleFiles[]>();
  for (const name of names.filter((each) => each.includes("."))) {
    const changes = variantsOf(files, name).filter((changed) => findingsIn(changed) !== before);
    if (changes.length > 0) found.set(name, changes);
  }
  return found;
}

function isName(name: string): boolean {
  const [section = "", setting] = name.split(".");
  if (setting !== undefined) return catalogue.section(section)?.settings.some((each) => each.name === setting) ?? false;
  return catalogue.mode(name) !== undefined || catalogue.element(name) !== undefined;
}

function findings(rule: CraftRule, craft: Craft, workspace: Workspace): string {
  const reports = rule.scope === "craft" ? rule.check(craft, workspace) : rule.checkCraft(craft, workspace);
  return JSON.stringify(reports.map(({ message, severity }) => [message, severity]));
}

/** The files with a setting changed where it is said, also taken out, or said in addition where it is not. */
function variantsOf(files: ExampleFiles, name: string): ExampleFiles[] {
  const [first] = Object.keys(files) as [string];
  const [section = "", setting = ""] = name.split(".");
  const workspace = core.at(memoryFiles(files));
  const values = valuesOf(catalogue.setting(section, setting)!);
  const said = workspace.craft(first)?.settings.get(section)?.get(setting);
  if (!said) {
    return values.map((value) => ({
      ...files,
      [first]: `${files[first]!.trimEnd()}\n\n${section}\n  ${setting} ${value}\n`,
    }));
  }
  const { file, line } = said.source;
  const lines = files[file]!.split("\n");
  return ["", ...values].map((value) => ({
    ...files,
    [file]: lines.with(line, value === "" ? "" : `  ${setting} ${value}`).join("\n"),
  }));
}

/** Everything that a rule asks a craft for by name, and every setting of a section that it walks over. */
function askedFor(rule: CraftRule, files: ExampleFiles): Set<string> {
  const workspace = core.at(memoryFiles(files));
  const craft = workspace.craft(Object.keys(files)[0]!);
  const asked = new Set<string>();
  if (!craft) return asked;
  let listening = false;
  const note = (name: string) => {
    if (listening && isName(name)) asked.add(name);
  };
  const heard = traced(craft, catalogue, note);
  // What every rule on switches needs to know of the link says nothing of the rule.
  boardOf(heard, workspace);
  listening = true;
  findings(rule, heard, workspace);
  return asked;
}
