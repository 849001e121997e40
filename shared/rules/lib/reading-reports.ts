/** What the reading of a file found, handed on to the rule of its code. */
import type { ReadingCode, Script } from "../../model/script.ts";
import type { Report } from "../engine/rule.ts";
import { locationOf } from "./locations.ts";

/** What the reading of a file found of one code. */
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
