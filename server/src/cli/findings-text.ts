/** Findings as a person reads them. */

import type { CheckReport, Counts, ReportedFinding } from "../../../shared/ide/reports/check-report.ts";
import type { Severity } from "../../../shared/protocol/findings.ts";
import { oneLine } from "./io.ts";

/** The terminal's own colours, which its owner chose: bold red, yellow, blue, grey. */
const COLOURS: Readonly<Record<Severity, string>> = { error: "1;31", warning: "33", info: "34", hint: "90" };

/**
 * One line a finding (`file:line:col  severity  code  message`, from 1), then a line that counts them; `since` is what
 * they are new since, where not all are told.
 */
export function findingsText(report: CheckReport, ink: "plain" | "coloured", since?: string): string {
  const places = report.findings.map(placeOf);
  const widths = {
    place: Math.max(0, ...places.map((place) => place.length)),
    severity: Math.max(0, ...report.findings.map(({ severity }) => severity.length)),
    code: Math.max(0, ...report.findings.map(({ code }) => code.length)),
  };
  const rows = report.findings.map(({ severity, code, message }, i) => {
    const word = severity.padEnd(widths.severity);
    const shown = ink === "coloured" ? `\u001b[${COLOURS[severity]}m${word}\u001b[0m` : word;
    return `${places[i]!.padEnd(widths.place)}  ${shown}  ${code.padEnd(widths.code)}  ${oneLine(message)}\n`;
  });
  return `${rows.join("")}${rows.length > 0 ? "\n" : ""}${summaryLine(report.summary, since)}\n`;
}

function placeOf({ file, range }: ReportedFinding): string {
  return `${oneLine(file)}:${range.start.line + 1}:${range.start.character + 1}`;
}

function summaryLine({ files, errors, warnings, infos, hints }: Counts, since: string | undefined): string {
  const parts = [
    counted(errors, "error", "errors"),
    counted(warnings, "warning", "warnings"),
    counted(infos, "info", "infos"),
    counted(hints, "hint", "hints"),
  ].filter((part) => part !== null);
  const what = since === undefined ? "" : `, new since ${oneLine(since)}`;
  return `${files} ${files === 1 ? "file" : "files"}${what}: ${parts.length > 0 ? parts.join(", ") : "nothing found"}`;
}

function counted(number: number, one: string, many: string): string | null {
  return number === 0 ? null : `${number} ${number === 1 ? one : many}`;
}
