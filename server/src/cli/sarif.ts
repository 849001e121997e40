/** Findings in SARIF 2.1.0 (OASIS), as services that gather findings of many tools read them. */

import type { CheckReport, ReportedFinding } from "../../../shared/ide/reports/check-report.ts";
import type { RuleLevel, RuleLevels } from "../../../shared/model/rule-levels.ts";
import type { PlaceRange, Severity } from "../../../shared/protocol/findings.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { version } from "./version.ts";

const LEVELS: Readonly<Record<Severity, "error" | "warning" | "note">> = {
  error: "error",
  warning: "warning",
  info: "note",
  hint: "note",
};

/**
 * The report as the text of one SARIF log with one run, each rule configured as these levels have it. Lines and
 * columns count from 1, in UTF-16 units.
 */
export function sarifText({ findings }: CheckReport, levels: RuleLevels): string {
  const indexes = new Map(rules.map(({ code }, i) => [code, i]));
  const log = {
    $schema: "https://json.schemastore.org/sarif-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: {
          driver: {
            name: "fettle",
            version,
            rules: rules.map(({ code, severity, summary, prose }) => ({
              id: code,
              shortDescription: { text: summary },
              fullDescription: { text: prose },
              help: { text: prose },
              defaultConfiguration: configurationAt(levels.get(code) ?? severity),
            })),
          },
        },
        columnKind: "utf16CodeUnits",
        results: findings.map((finding) => sarifResult(finding, indexes.get(finding.code) ?? -1)),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

/** A rule that is off is not enabled; services then know that its findings were not looked for. */
function configurationAt(level: RuleLevel) {
  return level === "off" ? { enabled: false, level: "none" } : { level: LEVELS[level] };
}

function sarifResult({ code, severity, message, file, range, related }: ReportedFinding, ruleIndex: number) {
  return {
    ruleId: code,
    ruleIndex,
    level: LEVELS[severity],
    message: { text: message },
    locations: [{ physicalLocation: physicalLocation(file, range) }],
    ...(related.length > 0 && {
      relatedLocations: related.map((each, id) => ({
        id,
        message: { text: each.message },
        physicalLocation: physicalLocation(each.file, each.range),
      })),
    }),
  };
}

function physicalLocation(file: string, { start, end }: PlaceRange) {
  return {
    artifactLocation: { uri: uriOf(file) },
    region: {
      startLine: start.line + 1,
      startColumn: start.character + 1,
      endLine: end.line + 1,
      endColumn: end.character + 1,
    },
  };
}

/** A relative path stays relative; an absolute one, with or without a drive, becomes a file URI. */
function uriOf(file: string): string {
  const escaped = file
    .replace(/[\ud800-\udfff]/gu, "\ufffd")
    .split("/")
    .map(encodeURIComponent)
    .join("/");
  if (file.startsWith("/")) return `file://${escaped}`;
  return /^[A-Za-z]:\//.test(file) ? `file:///${escaped.replace("%3A", ":")}` : escaped;
}
