/** `fettle git text`: what git shows of a script. */
import { resolve } from "node:path";
import { diffText } from "../../../shared/ide/changes/diff-text.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { readAnyBytes } from "../node/disk.ts";
import { onePath, readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";

const help = `Usage: fettle git text FILE

Writes a script as git shows it in a diff: in its canonical layout (fettle format), with the
name of the craft as a comment behind the name of each section, since that line stands at
the head of each piece of a diff. git runs it, as “fettle git install” tells it to. What is
no text of a script, or of a newer edition of the language, is written as it is.

Exit status: 0, or 2 where the file cannot be read.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const path = onePath(readArguments(args, {}), "file");
  const bytes = path === "-" ? await io.input() : readAnyBytes(resolve(io.folder, path));
  if (typeof bytes === "string") throw new CannotRun(`${path}: ${bytes}`);
  const answer = scriptAnswer(textAnswer(bytes));
  const isText = answer.kind === "text" && answer.validUtf8 && !answer.text.includes("\0");
  io.out(isText ? diffText(answer.text) : bytes);
  return 0;
}

export const command: Command = { help, run };
