/** `fettle compare`: what differs in meaning between two craft, riskiest first. */
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { comparedRows } from "../../../shared/ide/compare/rows.ts";
import { missingReport } from "../../../shared/ide/reports/missing-report.ts";
import type { Source } from "../../../shared/model/craft.ts";
import { oneOf, readArguments } from "./arguments.ts";
import { type ComparedSides, type OpenedSide, openSides } from "./compare-sides.ts";
import { compareText } from "./compare-text.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";

const help = `Usage: fettle compare A B [--format text|json]

What B has otherwise than A, in meaning and riskiest first: settings, modes as the positions
in which they are on, outputs, places on the OSD, the handset and its controls. Layout,
order, units, comments and ways of writing a condition or a place are no difference. Names
of the craft do not count.

A and B are each a file if that path exists, else REV:PATH of git, such as
HEAD:craft/jug.fettle: the file with all that it uses as that revision has them. As in git
a path is meant from the top of the repository, and with ./ from the working folder; :PATH
is what is staged. “-” reads standard input. A layer or a handset is compared by itself; a
layer that names no handset has that of the other side. Settings and words of your own
(*.catalogue.json, *.aliases.json) are those of the working tree, and in a bare repository
those of the revision.

Where the controls of both differ, conditions are compared as they are written.

  --format FORMAT   text for people (the usual), or json: {"differences":[{"what",
                    "kind","risk","before","after","file","line"}]}: what as SECTION.NAME;
                    kind setting, mode, output, osd, control or handset; risk high,
                    medium or low; before and after canonical, null where that side does
                    not have it; file and line, from 0, of B, or of A where B has none.
                    A file of a revision is named REV:PATH. Where a used file is missing
                    or has errors, there is a member missing as in fettle show.

Exit status: 0 no difference, 1 some, 2 the command could not run.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { format: { type: "string" } });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const [first, second, third] = given.paths;
  if (first === undefined) throw new CannotRun("say which two: fettle compare A B");
  if (second === undefined) throw new CannotRun(`say with what ${first} is compared: fettle compare A B`);
  if (third !== undefined) throw new CannotRun(`two are compared at a time, and “${third}” is one too many`);
  const sides = await openSides(first, second, io);
  return format === "json" ? asJson(sides, io) : asText(sides, io);
}

function asJson({ before, after, mine, theirs }: ComparedSides, io: Io): ExitStatus {
  const found = differencesOf(before, after, theirs.workspace.catalogue);
  const differences = found.map(({ what, kind, risk, before: from, after: to, beforeAt, afterAt }) => {
    const at = afterAt ? placed(afterAt, theirs, mine) : placed(beforeAt, mine, theirs);
    return { what, kind, risk, before: from, after: to, ...at };
  });
  const missing = [
    ...(missingReport(before, (file) => nameIn(file, mine, theirs)).missing ?? []),
    ...(missingReport(after, (file) => nameIn(file, theirs, mine)).missing ?? []),
  ];
  io.out(`${JSON.stringify({ differences, ...(missing.length > 0 && { missing }) }, null, 2)}\n`);
  return differences.length === 0 ? 0 : 1;
}

function asText({ before, after, mine, theirs, notes }: ComparedSides, io: Io): ExitStatus {
  const rows = comparedRows(before, after, theirs.workspace.catalogue).map((row) => ({
    ...row,
    mineAt: placeText(row.mineAt, mine, theirs),
    theirsAt: placeText(row.theirsAt, theirs, mine),
  }));
  const told = {
    mine: { name: before.name, from: mine.argument },
    theirs: { name: after.name, from: theirs.argument },
    notes,
    rows,
  };
  io.out(compareText(told, io.colour ? "coloured" : "plain"));
  return rows.length === 0 ? 0 : 1;
}

function placed(at: Source | null, side: OpenedSide, other: OpenedSide) {
  return { file: at && nameIn(at.file, side, other), line: at?.line ?? null };
}

function placeText(at: Source | null, side: OpenedSide, other: OpenedSide): string | null {
  return at && `${nameIn(at.file, side, other)}:${at.line + 1}`;
}

/** A handset that stands in lies among the files of the other side. */
function nameIn(file: string, side: OpenedSide, other: OpenedSide): string {
  return (side.workspace.script(file) ? side : other).nameOf(file);
}

export const command: Command = { help, run };
