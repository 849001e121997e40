/**
 * What a finding rests on is declared: where a line less in an example changes how many findings its rule has,
 * the rule looks at what stands in that line. This also holds what a rule reads through readers that several share.
 */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { declaredNames } from "../../../shared/rules/engine/looks-at.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import type { BothRule, CraftRule, ExampleFiles, LookedAtKind, Rule } from "../../../shared/rules/engine/rule.ts";
import { exampleView } from "../example-view.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const wholeCraftRules = rules.filter((rule): rule is CraftRule | BothRule => rule.scope !== "file");
/** Of the sections of a script those whose lines are modes, and those whose lines are elements. */
const KINDS: Readonly<Record<string, LookedAtKind>> = { modes: "modes", osd: "elements", "osd-second": "elements" };

/** Rules to which all lines of a kind are alike, so that they look at none of them in particular. */
const ALL_ALIKE: readonly { readonly rules: string; readonly kind: LookedAtKind; readonly why: string }[] = [
  {
    rules: "arm-missing channel-beyond control-idle levels-lost thin-margin",
    kind: "modes",
    why: "the controls that a condition names count, and not whose condition it is",
  },
  { rules: "drop-nothing unusual-value wrong-type", kind: "settings", why: "any line may have the fault" },
];

function count(rule: Rule, files: ExampleFiles): number {
  const found = findingsOf(core.at(exampleView(rule, files, core)), Object.keys(files)[0]!);
  return found.filter(({ code }) => code === rule.code).length;
}

/** The names in lines of an example without each of which it has more findings of a rule, or fewer. */
function restsOn(rule: Rule, files: ExampleFiles): { kind: LookedAtKind; name: string }[] {
  const whole = count(rule, files);
  const workspace = core.at(exampleView(rule, files, core));
  return Object.keys(files).flatMap((file) =>
    workspace.script(file)!.entries.flatMap(({ section, name, line }) => {
      const known = catalogue.setting(section ?? "", name);
      const kind = known ? "settings" : KINDS[section ?? ""];
      if (!kind) return [];
      const less = files[file]!.split("\n").filter((_, at) => at !== line);
      if (count(rule, { ...files, [file]: less.join("\n") }) === whole) return [];
      return { kind, name: known ? `${section}.${name}` : name };
    }),
  );
}

test.each(wholeCraftRules.map((rule) => [rule.code, rule] as const))("%s declares what it rests on", (code, rule) => {
  const undeclared = [rule.examples.bad, rule.examples.good]
    .flatMap((files) => restsOn(rule, files))
    .filter(({ kind, name }) => !declaredNames(rule.looksAt, kind, catalogue).includes(name));
  const alike = ALL_ALIKE.flatMap(({ rules, kind }) => (rules.split(" ").includes(code) ? kind : []));
  expect(undeclared.filter(({ kind }) => !alike.includes(kind))).toEqual([]);
  // An exception that is none any more goes.
  expect(alike.filter((each) => !undeclared.some(({ kind }) => kind === each))).toEqual([]);
});
