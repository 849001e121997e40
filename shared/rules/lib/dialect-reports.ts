/** Turns what was found while reading a dialect into reports of the rule with the same code. */
import type { DialectCode } from "../../dialect/dialect.ts";
import { dialectOf } from "../../dialect/dialects.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Report } from "../engine/rule.ts";
import { locationOf } from "./locations.ts";

/** The reports for one code; none for a file of another kind. */
export function dialectReports({ file, kind, tree }: Script, workspace: Workspace, code: DialectCode): Report[] {
  if (kind !== "dialect" || tree.newer) return [];
  const issues = dialectOf(workspace, file)?.issues ?? [];
  return issues.flatMap((issue) =>
    issue.code === code
      ? [
          {
            at: locationOf(file, issue.span),
            message: issue.message,
            ...(issue.fixes && { fixes: issue.fixes }),
            related: (issue.related ?? []).map(({ message, span }) => ({ message, at: locationOf(file, span) })),
          },
        ]
      : [],
  );
}
