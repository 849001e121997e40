/** Makes the registry of rules from the folder of rules, and the table of them in the README. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Rule } from "../../shared/rules/types.ts";

const FOLDER = "shared/rules";
const START = "<!-- rules: made by npm run generate -->";
const END = "<!-- /rules -->";

/** What .dev/generate.mjs hands to a generator. */
export interface Project {
  readonly root: string;
  importTs(file: string): Promise<Record<string, unknown>>;
}

export async function generate({ root, importTs }: Project): Promise<{ path: string; text: string }[]> {
  const inProject = (...parts: string[]) => join(root, ...parts);
  const codes = ruleCodes(inProject(FOLDER));
  const made = [{ path: `${FOLDER}/registry.generated.ts`, text: registry(codes) }];
  const readme = inProject("README.md");
  if (existsSync(readme)) {
    const rules = await Promise.all(
      codes.map(async (code) => (await importTs(inProject(FOLDER, `${code}.ts`))).rule as Rule),
    );
    made.push({ path: "README.md", text: withTable(readFileSync(readme, "utf8"), rules) });
  }
  return made;
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

function withTable(readme: string, rules: readonly Rule[]): string {
  const start = readme.indexOf(START);
  const end = readme.indexOf(END);
  if (start < 0 || end < start)
    throw new Error(`README.md has no place for the table of rules: put ${START} and ${END} there.`);
  const rows = rules.map((rule) => `| \`${rule.code}\` | ${rule.severity} | ${rule.summary} |`);
  const table = ["| rule | severity | fires when |", "| --- | --- | --- |", ...rows].join("\n");
  return `${readme.slice(0, start + START.length)}\n\n${table}\n\n${readme.slice(end)}`;
}
