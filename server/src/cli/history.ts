/** `fettle history`: who changed a value of a craft when, and what it was. */

import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { historyOf } from "../../../shared/ide/history/history.ts";
import { type HistoryReport, historyReport } from "../../../shared/ide/history/history-report.ts";
import { type NamedValue, valueNamed, wordsOfName } from "../../../shared/ide/history/value-names.ts";
import { baseOf } from "../../../shared/model/craft.ts";
import { joinWithOr } from "../../../shared/text/list.ts";
import { finish } from "../../../shared/text/steps.ts";
import { oneOf, readArguments } from "./arguments.ts";
import { openMoments } from "./history-moments.ts";
import { historyText } from "./history-text.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";

const help = `Usage: fettle history CRAFT NAME [--format text|json]

Who changed a value of a craft, when, and what it was before, from git: of every commit
that changed what the craft comes to, whichever of its files it touched. A line that moves
into a layer with its value as it was is no change; a layer that changes is one on every
craft that uses it. Files are followed through their renames. What is not committed yet
stands first, and the last change before the first.

CRAFT is a file, or REV:PATH of git, such as v2:craft/jug.fettle: then the history ends
with that revision. In a bare repository a path alone is meant as that of HEAD. A layer or
a handset is looked at by itself. Settings and words of your own are those of now.

NAME is a setting, mode, output, element, control or what a dial adjusts: SECTION.NAME,
such as pack.cells, modes.arm or osd.pack-volts; SECTION.NAME.FIELD for one of several
fields, such as gains.roll.p; verbatim/DIALECT for kept lines; handset for the name of the
handset; or the name alone, or plain words, where only one can be meant.

Every parent of a merge is followed. A merge itself counts where it says something else
than all of them; a change that a later merge did not keep is marked. Where a commit
cannot be read, as with a fault or a conflict in the line, its value is told as not known.

  --format FORMAT   text for people (the usual), or json: {"what","craft","now":VALUE,
                    "changes":[{"commit","author","date","subject","before":VALUE,
                    "after":VALUE,"file","line","note","respelled","kept"}],"notes":[…]}.
                    VALUE is {"text","unknown"}: text in canonical spelling, null where no
                    line says it; unknown the reason why it is not known, else null. Of
                    what is not committed, commit, author and date are null. file and line,
                    from 0, of the line that says it (or takes it back), as that commit had
                    them; null where none does. respelled: the same was only written
                    otherwise. kept: false where a later merge did not keep it.

Exit status: 0 it was told, 2 the command could not run.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { format: { type: "string" } });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const [path, ...words] = given.paths;
  if (path === undefined) throw new CannotRun("say which craft, and which of its values: fettle history CRAFT NAME");
  const asked = words.join(" ");
  if (asked.trim() === "") throw new CannotRun(`say which value of ${path}: fettle history CRAFT NAME`);
  const { moments, notes, nameOf } = await openMoments(path, io);
  const { workspace, file } = moments[0]!;
  const name = theOne(valueNamed(asked, workspace.craftLike(file), workspace.catalogue), asked, workspace.catalogue);
  const script = workspace.script(file);
  const report = historyReport(finish(historyOf(moments, name)), {
    what: wordsOfName(name),
    craft: script?.name ?? path,
    notes,
    commitOf: ({ commit }) => commit,
    nameOf,
  });
  io.out(
    format === "json"
      ? `${JSON.stringify(report satisfies HistoryReport, null, 2)}\n`
      : historyText(report, io.colour ? "coloured" : "plain"),
  );
  return 0;
}

function theOne(named: NamedValue, asked: string, catalogue: Catalogue) {
  if (named.kind === "one") return named.name;
  if (named.kind === "several") throw new CannotRun(`“${asked}” may be ${joinWithOr(named.names)}: write which`);
  if (named.kind === "none" && catalogue.section(baseOf(asked)))
    throw new CannotRun(`“${asked}” is a section: write which of its names, as SECTION.NAME`);
  const near = named.near.length > 0 ? `did you mean ${named.near.join(", ")}?` : "fettle show lists what a craft has";
  throw new CannotRun(`nothing of a craft is called “${asked}”: ${near}`);
}

export const command: Command = { help, run };
