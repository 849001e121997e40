/** `fettle check`: the findings of files, or of every script below a folder. */

import { checkReport } from "../../../shared/ide/reports/check-report.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { oneOf, readArguments } from "./arguments.ts";
import { findingsText } from "./findings-text.ts";
import type { Command, ExitStatus, Io } from "./io.ts";
import { oneLine } from "./io.ts";
import { ruleLevels } from "./rule-levels.ts";
import { openScripts } from "./scripts.ts";

const help = `Usage: fettle check [PATH…] [--format text|json|sarif] [--strict] [--handset PATH]
                    [--rule CODE=LEVEL…]

Says what is wrong, doubtful or unusual in scripts. A PATH is a file, a folder (every
.fettle file below it) or “-” for standard input; without one, the working folder.

  --format FORMAT   text for people (the usual), json, or sarif (SARIF 2.1.0)
  --strict          warnings count as well: exit status 1
  --handset PATH    this handset in place of the one that each craft names
  --rule CODE=LEVEL all findings of a rule at this level: off, hint, info, warning or
                    error; may be given for several rules. The exit status follows. Rules
                    that say what was not understood may be set lower, but not off.

Settings and words of your own, in *.catalogue.json and *.aliases.json anywhere in the
workspace, count as those that ship, and a “use” may lead to any file in it. The workspace
of a script is the nearest folder around it that is a git repository or has a file named
.fettle-root in it (it may be empty); else the working folder, if the script lies below
that; else the folder that was named. A script that was named by itself has its own
folder, without those below, and whatever its “use” lines lead to.

Exit status: 0 no error (with --strict: no warning either), 1 findings, 2 a file could
not be read or the arguments make no sense; whatever could be read is still checked.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    format: { type: "string" },
    strict: { type: "boolean" },
    handset: { type: "string" },
    rule: { type: "string", multiple: true },
  });
  const format = oneOf(given, "format", ["text", "json", "sarif"], "text");
  const paths = given.paths.length > 0 ? given.paths : ["."];
  const levels = ruleLevels(given);
  const scripts = await openScripts(paths, io, given.text("handset"), levels);
  const { opened, refused, wordsFaulty, handset, nameOf } = scripts;
  for (const reason of refused) io.error(`fettle: ${oneLine(reason)}\n`);
  if (opened.length === 0) return 2;
  const found = opened.flatMap(({ file, workspace }) => findingsOf(workspace, file, handset));
  const report = checkReport(found, opened.length, nameOf);
  if (format === "json") io.out(`${JSON.stringify(report, null, 2)}\n`);
  else if (format === "sarif") io.out((await import("./sarif.ts")).sarifText(report, levels));
  else io.out(findingsText(report, io.colour ? "coloured" : "plain"));
  if (refused.length > 0 || wordsFaulty) return 2;
  const { errors, warnings } = report.summary;
  return errors > 0 || (given.has("strict") && warnings > 0) ? 1 : 0;
}

export const command: Command = { help, run };
