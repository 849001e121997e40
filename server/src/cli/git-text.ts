/** `fettle git text`: what git shows of a script. */
import { resolve } from "node:path";
import { diffText } from "../../../shared/ide/changes/diff-text.ts";
import { formatted, whyNotFormatted } from "../../../shared/ide/format/format.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import { readAnyBytes } from "../node/disk.ts";
import { onePath, readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { wordsAround } from "./own-words.ts";

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
  io.out((await shownText(bytes, io)) ?? bytes);
  return 0;
}

/** The text that is shown; null where the bytes are shown as they are. */
async function shownText(bytes: Uint8Array, io: Io): Promise<string | null> {
  const answer = scriptAnswer(textAnswer(bytes));
  if (answer.kind !== "text" || !answer.validUtf8) return null;
  const tree = parse(answer.text);
  if (whyNotFormatted(tree) !== null) return null;
  // What is wrong with own words is for others to tell: a diff has no place for it.
  const { catalogue } = await wordsAround({ ...io, error: () => {} });
  return shownLines(diffText(formatted(tree, catalogue)));
}

/** What git shows is read at a terminal, so it is text alone; line ends stay, as a diff tells of them too. */
function shownLines(text: string): string {
  return text
    .split(/(\r\n?|\n)/)
    .map((part, i) => (i % 2 === 0 ? visibleText(part) : part))
    .join("");
}

export const command: Command = { help, run };
