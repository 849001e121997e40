/**
 * Which rules look at which names. Nobody has to list that: each rule is run on its own examples,
 * and what it asks the craft for is noted, where its examples say it too. What it only asks for
 * along the way, as all that is known of a pack, is not what it is about.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft } from "../model/craft.ts";
import { memoryFiles } from "../model/files.ts";
import { makeCore, type Workspace } from "../model/workspace.ts";
import { boardOf } from "../rules/problems.ts";
import { rules } from "../rules/registry.generated.ts";
import type { ExampleFiles, Rule } from "../rules/types.ts";

export interface RuleNames {
  /** Codes of the rules that look at a name: a setting as SECTION.NAME, a mode, an element. */
  rulesOf(name: string): readonly string[];
  /** What a rule looks at, in order of name; none for a rule that looks at every line alike. */
  namesOf(code: string): readonly string[];
}

const known = new WeakMap<Catalogue, RuleNames>();

export function ruleNames(catalogue: Catalogue): RuleNames {
  let names = known.get(catalogue);
  if (!names) {
    names = traceAll(catalogue);
    known.set(catalogue, names);
  }
  return names;
}

function traceAll(catalogue: Catalogue): RuleNames {
  const core = makeCore(catalogue);
  const byRule = new Map<string, readonly string[]>();
  const byName = new Map<string, string[]>();
  for (const rule of rules) {
    const asked = new Set<string>();
    const note = (name: string) => {
      if (isName(catalogue, name)) asked.add(name);
    };
    for (const files of [rule.examples.bad, rule.examples.good])
      traceExample(rule, files, core.at(memoryFiles(files)), note);
    const names = [...asked].sort();
    byRule.set(rule.code, names);
    for (const name of names) byName.set(name, [...(byName.get(name) ?? []), rule.code]);
  }
  return { rulesOf: (name) => byName.get(name) ?? [], namesOf: (code) => byRule.get(code) ?? [] };
}

function isName(catalogue: Catalogue, name: string): boolean {
  const [section = "", setting] = name.split(".");
  if (setting !== undefined) return catalogue.setting(section, setting) !== undefined;
  return catalogue.mode(name) !== undefined || catalogue.element(name) !== undefined;
}

function traceExample(rule: Rule, files: ExampleFiles, workspace: Workspace, note: (name: string) => void): void {
  const craft = workspace.craft(Object.keys(files)[0] ?? "");
  if (!craft || rule.scope === "file") return;
  let listening = false;
  const heard = traced(craft, (name) => {
    if (listening && says(craft, name)) note(name);
  });
  // What every rule on switches needs to know of the link says nothing of the rule.
  boardOf(heard, workspace);
  listening = true;
  if (rule.scope === "craft") rule.check(heard, workspace);
  else rule.checkCraft(heard, workspace);
}

/** Whether some file of the craft says a name. */
function says(craft: Craft, name: string): boolean {
  const [section = "", setting] = name.split(".");
  if (setting === undefined) return [craft.modes, craft.osd, craft.osdSecond].some((table) => table.has(name));
  return [...craft.settings].some(([title, table]) => title.split("/")[0] === section && table.has(setting));
}

/** The craft, which tells what it is asked for by name. */
function traced(craft: Craft, note: (name: string) => void): Craft {
  const settings = new Map(
    [...craft.settings].map(([section, table]) => [
      section,
      listened(table, (name) => note(`${section.split("/")[0]}.${name}`)),
    ]),
  );
  return {
    ...craft,
    settings,
    modes: listened(craft.modes, note),
    osd: listened(craft.osd, note),
    osdSecond: listened(craft.osdSecond, note),
  };
}

/** A map that tells which keys it is asked for; whoever walks over it all is not listened to. */
function listened<V>(map: ReadonlyMap<string, V>, note: (key: string) => void): ReadonlyMap<string, V> {
  return new Proxy(map, {
    get(target, property) {
      if (property === "get" || property === "has")
        return (key: string) => {
          note(key);
          return property === "get" ? target.get(key) : target.has(key);
        };
      const member: unknown = Reflect.get(target, property, target);
      return typeof member === "function" ? member.bind(target) : member;
    },
  });
}
