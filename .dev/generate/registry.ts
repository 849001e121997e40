/** Makes the registry of rules from the folder of rules. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const FOLDER = "shared/rules";

/** The registry, in order of code. */
export function generate(root: string): { path: string; text: string }[] {
  return [{ path: `${FOLDER}/registry.generated.ts`, text: registry(ruleCodes(join(root, FOLDER))) }];
}

/** A rule's file is the one that holds its own name as its code. */
function ruleCodes(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith(".ts"))
    .map((name) => name.slice(0, -".ts".length))
    .filter((code) => readFileSync(join(folder, `${code}.ts`), "utf8").includes(`code: "${code}"`))
    .sort();
}

function registry(codes: readonly string[]): string {
  const local = (code: string) => code.replaceAll(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
  return [
    "// Made by npm run generate from the rules in this folder. Do not edit.",
    ...codes.map((code) => `import { rule as ${local(code)} } from "./${code}.ts";`),
    'import type { Rule } from "./types.ts";',
    "",
    "export const rules: readonly Rule[] = [",
    ...codes.map((code) => `  ${local(code)},`),
    "];",
    "",
  ].join("\n");
}
