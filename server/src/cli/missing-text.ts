/** The parts of a craft that are missing, as a person reads them. */
import type { ReportedMissing } from "../../../shared/ide/reports/missing-report.ts";
import { oneLine } from "./io.ts";

/** Lines for the head of a report, under the craft and its handset; empty where nothing is missing. */
export function missingText(missing: readonly ReportedMissing[] | undefined): string {
  if (!missing) return "";
  const lines = missing.map(({ message, file, line }) => `missing  ${oneLine(`${message} (${file}:${line + 1})`)}\n`);
  return `${lines.join("")}What a missing part says is not in what follows.\n`;
}
