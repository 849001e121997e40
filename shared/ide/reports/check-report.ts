/** The report of `check`: findings in order, and their number for each severity. */
import type { Finding, Severity } from "../../protocol/findings.ts";

/** A finding with file names as they are shown to the user. */
export type ReportedFinding = Omit<Finding, "fixes" | "witness">;

export interface Counts {
  readonly files: number;
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
  readonly hints: number;
}

export interface CheckReport {
  readonly findings: readonly ReportedFinding[];
  readonly summary: Counts;
}

/**
 * The findings of `files` files, sorted by file, start and code. `nameOf` gives the name under
 * which a file is reported.
 */
export function checkReport(
  findings: readonly Finding[],
  files: number,
  nameOf: (file: string) => string,
): CheckReport {
  const reported = findings.map(
    ({ code, severity, message, file, range, related }): ReportedFinding => ({
      code,
      severity,
      message,
      file: nameOf(file),
      range,
      related: related.map((each) => ({ message: each.message, file: nameOf(each.file), range: each.range })),
    }),
  );
  const count = (severity: Severity) => reported.filter((each) => each.severity === severity).length;
  return {
    findings: reported.sort(inOrder),
    summary: {
      files,
      errors: count("error"),
      warnings: count("warning"),
      infos: count("info"),
      hints: count("hint"),
    },
  };
}

type Placed = Pick<ReportedFinding, "file" | "range" | "code" | "message">;

/** The order in which findings are reported: by file, start and code. */
export function inOrder(a: Placed, b: Placed): number {
  const start = (each: Placed) => each.range.start;
  return (
    compareText(a.file, b.file) ||
    start(a).line - start(b).line ||
    start(a).character - start(b).character ||
    compareText(a.code, b.code) ||
    compareText(a.message, b.message)
  );
}

/** Compares by code units, so that the order does not depend on the machine or its language. */
function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
