/** `fettle board write`: a craft as its board's text. */

import { boardFileOf } from "../../../shared/dialect/dialects.ts";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import { boardWriteReport } from "../../../shared/ide/reports/board-report.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { type Arguments, oneOf, onePath, readArguments } from "./arguments.ts";
import { type BoardText, boardBytesOf, readBoardText } from "./board-bytes.ts";
import { dialectOfText, named, type OpenedDialect, openDialect } from "./board-dialects.ts";
import { boardWriteText } from "./board-write-text.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { openCraft } from "./scripts.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle board write [--dialect DIALECT] CRAFT [--base TEXT | --no-base]
                          [--changes] [--strict] [--out FILE] [--format text|json]

The effective craft, without defaults, as the text that a board takes, written onto the text
that the board last gave: what that says already stays as it is, and so do the lines that
the script does not speak of. The text goes to standard output; what was rounded (with both
values), filled in, cannot be said or is to be cleared by hand goes to standard error. Read
it before you send anything. Propellers off while the board takes a text.

  --dialect DIALECT  the dialect, a file; without it the craft's own (board.dialect), else
                     the one of the workspace that knows the base (known-by)
  --base TEXT        the board's last text, “-” for standard input; without it the craft's
                     own (board.text)
  --no-base          as for a board of which no text was saved: all that can be unset is
  --changes          only the lines that change, with their headings; nothing where nothing
                     changes
  --strict           exit status 1 where something has a line and cannot be written by it
  --out FILE         write the text there, whole or not at all; an existing file is replaced
  --format FORMAT    text: the text (the usual); json: {text, changes, rounded, filled,
                     unsaid, onlyBase, byHand, cannot, curves}: rounded [{what, said,
                     written}], filled [{what, value, why}], cannot [{what, why,
                     positions}], curves [{what, deviation}] in deg/s

The encoding of the base (UTF-8, else Latin-1) and its line ends stay. Exit status: 0; with
--strict 1, as said there; 2 where it could not run.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    dialect: { type: "string" },
    base: { type: "string" },
    "no-base": { type: "boolean" },
    changes: { type: "boolean" },
    strict: { type: "boolean" },
    out: { type: "string" },
    format: { type: "string" },
  });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const path = onePath(given, "craft");
  if (given.text("base") !== undefined && given.has("no-base"))
    throw new CannotRun("--base and --no-base contradict each other");
  if (path === "-" && given.text("base") === "-")
    throw new CannotRun("standard input is either the craft or the base, and not both");
  const { craft, workspace, nameOf } = await openCraft(path, io);
  const base = await baseOf(craft, given, nameOf, io);
  const { dialect, name } = await dialectFor(craft, workspace, base?.text ?? null, given, nameOf, io);
  const written = writeBoard(dialect, craft, workspace, base?.text ?? null);
  const report = boardWriteReport(written);
  const isKnown = dialect.text.knownBy.length === 0 || dialect.text.knownBy.some((each) => base?.text.includes(each));
  if (base && !isKnown)
    io.error(`Careful: nothing in the base says that it is of this dialect, ${name}: is it of this board?\n`);
  const text = given.has("changes") ? report.changes : report.text;
  const bytes = boardBytesOf(text, base?.encoding ?? "utf-8");
  const out = given.text("out");
  if (out !== undefined) writeOut(out, bytes, "replace", io);
  const status = given.has("strict") && report.cannot.length > 0 ? 1 : 0;
  if (format === "json") {
    io.out(`${JSON.stringify(report, null, 2)}\n`);
    return status;
  }
  if (out === undefined) io.out(base?.encoding === "latin-1" ? bytes : text);
  io.error(boardWriteText(report, written.notes, name));
  return status;
}

/** The text to write onto: the one that is given, else the one that the craft names; null for none. */
async function baseOf(
  craft: Craft,
  given: Arguments,
  nameOf: (file: string) => string,
  io: Io,
): Promise<BoardText | null> {
  if (given.has("no-base")) return null;
  const base = given.text("base");
  if (base !== undefined) return readBoardText(base, io);
  const own = boardFileOf(craft, "text");
  if (own === null) return null;
  try {
    return await readBoardText(own, io);
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error;
    const why = error.message.slice(own.length);
    throw new CannotRun(
      `board.text leads to ${nameOf(own)}${why}: save the board's text there, or give another with --base, or --no-base`,
    );
  }
}

/** The dialect that is given, else the craft's own, else the one that knows the base. */
async function dialectFor(
  craft: Craft,
  workspace: Workspace,
  base: string | null,
  given: Arguments,
  nameOf: (file: string) => string,
  io: Io,
): Promise<Pick<OpenedDialect, "dialect" | "name">> {
  const path = given.text("dialect");
  if (path !== undefined) return openDialect(path, io);
  const own = boardFileOf(craft, "dialect");
  if (own !== null) return named(workspace, workspace.view.realPath(own), nameOf(own), io);
  if (base !== null) return dialectOfText(base, workspace, nameOf, io);
  throw new CannotRun("say in which dialect with --dialect, or in the craft with board.dialect");
}

export const command: Command = { help, run };
