/** Generates the registry of rules from the folder of rules. */
import { readdirSync } from "node:fs";
import { join } from "node:path";

const RULES = "shared/rules/all";
const REGISTRY = "shared/rules/engine/registry.generated.ts";

/** The registry, in order of code. */
export function generate(root: string): { path: string; text: string }[] {
  return [{ path: REGISTRY, text: registry(ruleCodes(join(root, RULES))) }];
}

/** The codes of all rules: every file of the folder is a rule, named by its code. */
function ruleCodes(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith(".ts"))
    .map((name) => name.slice(0, -".ts".length))
    .sort();
}

function registry(codes: readonly string[]): string {
  const local = (code: string) => code.replaceAll(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
  return [
    "// Made by npm run generate from the rules in shared/rules/all. Do not edit.",
    ...codes.map((code) => `import { rule as ${local(code)} } from "../all/${code}.ts";`),
    'import type { Rule } from "./rule.ts";',
    "",
    "export const rules: readonly Rule[] = [",
    ...codes.map((code) => `  ${local(code)},`),
    "];",
    "",
  ].join("\n");
}
