/** Turns the issues found while reading a file into reports of the rule with the same code. */
import type { ReadingCode, Script } from "../../model/script.ts";
import type { Report } from "../engine/rule.ts";
import { locationOf } from "./locations.ts";

/** The reports for one code. */
export function readingReports(script: Script, code: ReadingCode): Report[] {
  return script.issues.flatMap((issue) =>
    issue.code === code
      ? [
          {
            at: locationOf(script.file, issue.span),
            message: issue.message,
            ...(issue.fixes && { fixes: issue.fixes }),
            related: (issue.related ?? []).map(({ message, span }) => ({ message, at: locationOf(script.file, span) })),
          },
        ]
      : [],
  );
}
