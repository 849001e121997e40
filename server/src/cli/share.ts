/** `fettle share`: a craft as one script for others, what is private taken out. */
import { shareCraft } from "../../../shared/ide/share/share.ts";
import { shareReport } from "../../../shared/ide/share/share-report.ts";
import { oneOf, onePath, readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { openCraft } from "./scripts.ts";
import { shareText } from "./share-text.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle share CRAFT [--out FILE] [--format text|json] [--with-board-text]

The craft as one script that needs no other file, to give to others: its layers laid over
one another, the controls of its handset restated, its notes kept. Taken out are the
pairing secret, the owner, the registration, the number that is broadcast and the pilot's
name, wherever they are said; of notes and texts what looks like an address, a phone
number, coordinates, a link, a path, a serial number or a key; and board text that was
kept. A comment stands where something was. The script is checked to be the same craft
but for that. “-” reads the craft from standard input.

What was taken out, and from which line, goes to standard error; read the script once
before you give it away, as names in plain sentences are not found.

  --out FILE          write the script there, whole or not at all; an existing file is
                      replaced
  --format FORMAT     text: the script (the usual); json: {text, taken, kept}, each of
                      taken and kept [{what, why, file, line}], with lines from 0: what
                      is not in it, and what is in it and may be private
  --with-board-text   keep the lines of board text in which nothing hints at a name, a
                      place, a key or the number of a part
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    out: { type: "string" },
    format: { type: "string" },
    "with-board-text": { type: "boolean" },
  });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const { craft, workspace, nameOf } = await openCraft(onePath(given, "craft"), io);
  const shared = shareCraft(craft, workspace, given.has("with-board-text") ? "with" : "without");
  if (shared.kind === "refused") throw new CannotRun(shared.message);
  const report = shareReport(shared, nameOf);
  const out = given.text("out");
  if (out !== undefined) writeOut(out, shared.text, "replace", io);
  if (format === "json") {
    io.out(`${JSON.stringify(report, null, 2)}\n`);
    return 0;
  }
  if (out === undefined) io.out(report.text);
  io.error(shareText(report));
  return 0;
}

export const command: Command = { help, run };
