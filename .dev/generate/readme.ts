/** Generates the README's table of rules from the registry. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { rules } from "../../shared/rules/engine/registry.generated.ts";

const START = "<!-- rules: made by npm run generate -->";
const END = "<!-- /rules -->";

/** The README with its table of rules; throws if it has no place for one. */
export function generate(root: string): { path: string; text: string }[] {
  const readme = readFileSync(join(root, "README.md"), "utf8");
  const start = readme.indexOf(START);
  const end = readme.indexOf(END);
  if (start < 0 || end < start)
    throw new Error(`README.md has no place for the table of rules: put ${START} and ${END} there.`);
  const rows = rules.map((rule) => `| \`${rule.code}\` | ${rule.severity} | ${rule.summary} |`);
  const table = ["| rule | severity | fires when |", "| --- | --- | --- |", ...rows].join("\n");
  return [{ path: "README.md", text: `${readme.slice(0, start + START.length)}\n\n${table}\n\n${readme.slice(end)}` }];
}
