/** Generates, in the manifest, the setting that has a level for every rule, so that the settings editor completes them. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { levelsFor } from "../../shared/rules/engine/levels.ts";
import { rules } from "../../shared/rules/engine/registry.generated.ts";

/** The manifest with one property for each rule in `fettle.rules`. */
export function generate(root: string): { path: string; text: string }[] {
  const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const { properties } = manifest.contributes.configuration;
  properties["fettle.rules"] = {
    type: "object",
    default: {},
    scope: "window",
    markdownDescription:
      "How the findings of a rule are shown: `off`, or as `hint`, `info`, `warning` or `error`; a rule that is not here keeps its own severity. Rules that say what was not understood cannot be turned off. On the command line: `fettle check --rule CODE=LEVEL`.",
    properties: Object.fromEntries(
      rules.map((rule) => {
        const levels = levelsFor(rule);
        return [
          rule.code,
          {
            type: "string",
            enum: levels,
            default: rule.severity,
            description: rule.summary,
          },
        ];
      }),
    ),
    additionalProperties: false,
  };
  return [{ path: "package.json", text: `${JSON.stringify(manifest, null, 2)}\n` }];
}
