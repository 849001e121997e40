/** `fettle board move`: the text of one board as the text of another. */
import { moveBoard } from "../../../shared/ide/board-move/board-move.ts";
import { oneOf, onePath, readArguments } from "./arguments.ts";
import { boardBytesOf, readBoardText } from "./board-bytes.ts";
import { openDialect } from "./board-dialects.ts";
import { boardMoveText } from "./board-move-text.ts";
import { openHandset } from "./board-scripts.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle board move --from DIALECT --to DIALECT [--handset HANDSET] [TEXT]
                         [--out FILE] [--format text|json]

A board's text as the text of another board, or of newer firmware on the same one: read by
one dialect, written by the other as for a board of which no text was saved. Without TEXT,
or with “-”, it is read from standard input. The new text goes to standard output. What is
lost, renamed, rounded (with both values) or new, and what to look at on the bench, goes to
standard error. Propellers off while the board takes a text and until all of that is seen.

  --from DIALECT     the dialect of the text
  --to DIALECT       the dialect to write it in
  --handset HANDSET  the handset whose controls the channels are
  --out FILE         write the text there, whole or not at all; an existing file is replaced
  --format FORMAT    text: the text (the usual); json: {text, script, lost, renamed, rounded,
                     gained, kept, filled, curves, bench, notes}: lost [{what, was, why,
                     lines}], renamed [{what, was, now}] with lines of text, rounded [{what,
                     was, now}], gained [what], kept [{line, text, why}] with lines from 0,
                     filled [{what, value, why}], curves [{what, deviation}] in deg/s,
                     bench [{what, because}]

Text that is not UTF-8 is taken as Latin-1, and so is what is written. Exit status: 0, or 2
where it could not run.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    from: { type: "string" },
    to: { type: "string" },
    handset: { type: "string" },
    out: { type: "string" },
    format: { type: "string" },
  });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const [from, to] = [given.text("from"), given.text("to")];
  if (from === undefined || to === undefined) throw new CannotRun("say from which dialect to which: --from and --to");
  const path = given.paths.length === 0 ? "-" : onePath(given, "text");
  const named = given.text("handset");
  const handset = named === undefined ? null : await openHandset(named, io);
  const [older, newer] = [await openDialect(from, io), await openDialect(to, io)];
  const { text, encoding } = await readBoardText(path, io);
  const moved = moveBoard(older.dialect, newer.dialect, text, {
    workspace: handset?.workspace ?? newer.workspace,
    handset: handset?.script ?? null,
  });
  const bytes = boardBytesOf(moved.text, encoding);
  const out = given.text("out");
  if (out !== undefined) writeOut(out, bytes, "replace", io);
  if (format === "json") {
    const curves = moved.curves.map(({ what, deviationDegS }) => ({ what, deviation: deviationDegS }));
    io.out(`${JSON.stringify({ ...moved, curves }, null, 2)}\n`);
    return 0;
  }
  if (out === undefined) io.out(encoding === "latin-1" ? bytes : moved.text);
  io.error(boardMoveText(moved, older.name, newer.name));
  return 0;
}

export const command: Command = { help, run };
