/** Generates the README's tables: of rules from the registry, of settings from the manifest. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { rules } from "../../shared/rules/engine/registry.generated.ts";

interface Property {
  readonly type: string;
  readonly default: unknown;
  readonly description?: string;
  readonly markdownDescription?: string;
}

/** The README with its tables; throws if it has no place for one. */
export function generate(root: string): { path: string; text: string }[] {
  const readme = readFileSync(join(root, "README.md"), "utf8");
  return [{ path: "README.md", text: placed(placed(readme, "rules", rulesTable()), "settings", settingsTable(root)) }];
}

function rulesTable(): string {
  const rows = rules.map((rule) => `| \`${rule.code}\` | ${rule.severity} | ${rule.summary} |`);
  return ["| rule | severity | fires when |", "| --- | --- | --- |", ...rows].join("\n");
}

function settingsTable(root: string): string {
  const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const properties = manifest.contributes.configuration.properties as Record<string, Property>;
  const rows = Object.entries(properties).map(([name, { default: usual, description, markdownDescription }]) => {
    const text = markdownDescription ?? description ?? "";
    return `| \`${name}\` | \`${JSON.stringify(usual)}\` | ${text.replaceAll("|", "\\|")} |`;
  });
  return ["| setting | as it ships | what it does |", "| --- | --- | --- |", ...rows].join("\n");
}

/** The text between the two comments that mark a table's place is made anew. */
function placed(readme: string, name: string, table: string): string {
  const start = `<!-- ${name}: made by npm run generate -->`;
  const end = `<!-- /${name} -->`;
  const from = readme.indexOf(start);
  const to = readme.indexOf(end);
  if (from < 0 || to < from)
    throw new Error(`README.md has no place for the table of ${name}: put ${start} and ${end} there.`);
  return `${readme.slice(0, from + start.length)}\n\n${table}\n\n${readme.slice(to)}`;
}
