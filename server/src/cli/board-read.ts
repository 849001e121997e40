/** `fettle board read`: a board's text as a script. */
import { resolve } from "node:path";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { boardReadReport } from "../../../shared/ide/reports/board-report.ts";
import { pathBetween } from "../../../shared/model/uses.ts";
import { realPathOf, toPath } from "../node/disk.ts";
import { oneOf, onePath, readArguments } from "./arguments.ts";
import { readBoardText } from "./board-bytes.ts";
import { dialectOfText, openDialect } from "./board-dialects.ts";
import { boardReadText } from "./board-read-text.ts";
import { openHandset, workspaceAt } from "./board-scripts.ts";
import type { Command, ExitStatus, Io } from "./io.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle board read [--dialect DIALECT] [--handset HANDSET] [TEXT] [--out FILE]
                         [--format text|json]

A board's text as a script, by a dialect. Each line of the text is read, odd (a line of the
dialect fits, and its value does not), kept (no line of the dialect fits) or idle (blank, a
comment, a heading). What is read becomes entries; odd and kept lines and comments go into
the section verbatim, byte for byte. Without TEXT, or with “-”, it is read from standard
input. The script goes to standard output, what is to be known of it to standard error.

  --dialect DIALECT  the dialect, a file; without it, the one of the workspace whose
                     known-by stands in the text; where several do you are asked
  --handset HANDSET  the handset: channels become its controls, ranges its positions
  --out FILE         write the script there, whole or not at all; an existing file is
                     replaced, and “use” names the handset from there
  --format FORMAT    text: the script (the usual); json: {script, lines, notes}, lines being
                     [{line, state, by, says, why}], with line and by (lines of the dialect)
                     from 0 and says as “SECTION NAME VALUE”

Text that is not UTF-8 is taken as Latin-1. Exit status: 0, or 2 where it could not run.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    dialect: { type: "string" },
    handset: { type: "string" },
    out: { type: "string" },
    format: { type: "string" },
  });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const path = given.paths.length === 0 ? "-" : onePath(given, "text");
  const handset = given.text("handset") === undefined ? null : await openHandset(given.text("handset")!, io);
  const named = given.text("dialect");
  const byName = named === undefined ? null : await openDialect(named, io);
  const { text } = await readBoardText(path, io);
  const around = byName ? null : await workspaceAt(path, io);
  const { dialect, workspace, name } = byName ?? (await dialectOfText(text, around!.workspace, around!.nameOf, io));
  const out = given.text("out");
  const target = toPath(resolve(realPathOf(io.folder), out ?? "script.fettle"));
  const reading = readBoard(dialect, text, {
    workspace: handset?.workspace ?? workspace,
    handset: handset?.script ?? null,
    craft: null,
    uses: handset ? [pathBetween(target, handset.script.file)] : [],
  });
  const report = boardReadReport(reading);
  if (out !== undefined) writeOut(out, report.script, "replace", io);
  if (format === "json") {
    io.out(`${JSON.stringify(report, null, 2)}\n`);
    return 0;
  }
  if (out === undefined) io.out(report.script);
  io.error(boardReadText(report, name));
  return 0;
}

export const command: Command = { help, run };
