/** `fettle check`: the findings of files, or of every script below a folder. */

import { checkReport } from "../../../shared/ide/reports/check-report.ts";
import type { RuleLevels } from "../../../shared/model/rule-levels.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { realPathOf } from "../node/disk.ts";
import { makeCheckedPasts } from "../node/git-checks.ts";
import { type Arguments, oneOf, readArguments } from "./arguments.ts";
import { findingsText } from "./findings-text.ts";
import type { Command, ExitStatus, Io } from "./io.ts";
import { oneLine } from "./io.ts";
import { ruleLevels } from "./rule-levels.ts";
import { openScripts } from "./scripts.ts";

const help = `Usage: fettle check [PATH…] [--format text|json|sarif] [--strict] [--handset PATH]
                    [--together CRAFT…] [--since REV] [--staged] [--rule CODE=LEVEL…]

Says what is wrong, doubtful or unusual in scripts. A PATH is a file, a folder (every
.fettle file below it) or “-” for standard input; without one, the craft that --together
names, else the working folder.

  --format FORMAT   text for people (the usual), json, or sarif (SARIF 2.1.0)
  --strict          warnings count as well: exit status 1
  --handset PATH    this handset in place of the one that each craft names
  --together CRAFT… these craft, up to the next option, are flown at the same time: also says
                    whose analogue picture disturbs whose, and which channels do not
  --since REV       only findings that the working tree has and a revision of git had not
  --staged          only findings that what is staged has and the last commit had not;
                    with --since, and that revision had not
  --rule CODE=LEVEL all findings of a rule at this level: off, hint, info, warning or
                    error; may be given for several rules. The exit status follows. Rules
                    that say what was not understood may be set lower, but not off.

Settings and words of your own, in *.catalogue.json and *.aliases.json anywhere in the
workspace, count as those that ship, and a “use” may lead to any file in it. The workspace
of a script is the nearest folder around it that is a git repository or has a file named
.fettle-root in it (it may be empty); else the working folder, if the script lies below
that; else the folder that was named. A script that was named by itself has its own
folder, without those below, and whatever its “use” lines lead to.

“fleet-habit” compares the craft of the workspace that use one handset file, whichever of
them are named; where no folder is marked as a workspace, those that are named.

With --since and --staged a finding is the same as before where its code, its name and its
words are, though its line has moved, stands in another file of the craft, or the file has
another name; a second of the same kind is new. What a layer brings counts on each craft
that uses it, changed or not. REV is any revision of git, and it is that one which the files
are held to, not where branches parted: for that, --since "$(git merge-base main HEAD)".
Own words are those of each state. Files that git does not track yet count, in --since;
those of submodules do not.

Exit status: 0 no error (with --strict: no warning either), 1 findings, 2 a file could
not be read or the arguments make no sense; whatever could be read is still checked.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    format: { type: "string" },
    strict: { type: "boolean" },
    handset: { type: "string" },
    together: { type: "string", multiple: true, variadic: true },
    since: { type: "string" },
    staged: { type: "boolean" },
    rule: { type: "string", multiple: true },
  });
  const format = oneOf(given, "format", ["text", "json", "sarif"], "text");
  const together = given.all("together");
  const paths = given.paths.length > 0 ? given.paths : together.length > 0 ? together : ["."];
  const levels = ruleLevels(given);
  const change = await changeOf(given, paths, levels, io);
  const scripts =
    change?.scripts ??
    (await openScripts(paths, io, { handset: given.text("handset"), levels, pasts: makeCheckedPasts(), together }));
  const { opened, refused, wordsFaulty, handset, nameOf } = scripts;
  for (const reason of refused) io.error(`fettle: ${oneLine(reason)}\n`);
  // That a change leaves no script is no fault, and nobody could name one.
  if (opened.length === 0 && (refused.length > 0 || !change)) return 2;
  const found = change?.findings() ?? opened.flatMap(({ file, workspace }) => findingsOf(workspace, file, handset));
  const report = checkReport(found, opened.length, nameOf);
  if (format === "json") io.out(`${JSON.stringify(report, null, 2)}\n`);
  else if (format === "sarif") {
    const { sarifText } = await import("./sarif.ts");
    io.out(
      sarifText({
        findings: found,
        opened,
        handset,
        levels,
        folder: realPathOf(io.folder),
        isChange: change !== undefined,
        refused,
        nameOf,
      }),
    );
  }

  if (format === "text") io.out(findingsText(report, io.colour ? "coloured" : "plain", change?.words));
  if (refused.length > 0 || wordsFaulty) return 2;
  const { errors, warnings } = report.summary;
  return errors > 0 || (given.has("strict") && warnings > 0) ? 1 : 0;
}

/** The two states that are compared; undefined where all findings are wanted. */
async function changeOf(given: Arguments, paths: readonly string[], levels: RuleLevels, io: Io) {
  const [since, staged] = [given.text("since"), given.has("staged")];
  if (since === undefined && !staged) return undefined;
  const { openChange } = await import("./change.ts");
  const [handset, together] = [given.text("handset"), given.all("together")];
  return openChange({ paths, since, staged, handset, levels, together }, io);
}

export const command: Command = { help, run };
