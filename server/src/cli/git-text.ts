/** `fettle git text`: what git shows of a script. */
import { isUtf8 } from "node:buffer";
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
no text of a script, or of a newer edition of the language, keeps its layout. Characters
that a terminal obeys, that turn the text or do not show are named where they stand.

Exit status: 0, or 2 where the file cannot be read.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const path = onePath(readArguments(args, {}), "file");
  const bytes = path === "-" ? await io.input() : readAnyBytes(resolve(io.folder, path));
  if (typeof bytes === "string") throw new CannotRun(`${path}: ${bytes}`);
  io.out((await laidOut(bytes, io)) ?? asItStands(bytes));
  return 0;
}

/** A script in its layout; null for what is no text of one, or is of a newer edition. */
async function laidOut(bytes: Uint8Array, io: Io): Promise<string | null> {
  const answer = scriptAnswer(textAnswer(bytes));
  if (answer.kind !== "text" || !answer.validUtf8) return null;
  const tree = parse(answer.text);
  if (whyNotFormatted(tree) !== null) return null;
  // What is wrong with own words is for others to tell: a diff has no place for it.
  const { catalogue } = await wordsAround({ ...io, error: () => {} });
  return shownLines(diffText(formatted(tree, catalogue)));
}

/** A character of UTF-8 that may be obeyed or not show, in bytes that are written as characters. */
const MAY_HIDE =
  /[\0-\x08\x0b\x0c\x0e-\x1f\x7f]|\r(?!\n)|[\xc2-\xdf][\x80-\xbf]|[\xe0-\xef][\x80-\xbf]{2}|[\xf0-\xf4][\x80-\xbf]{3}/g;

/** Any bytes, with what a terminal would obey or does not show named; where they are no text, all others as they are. */
function asItStands(bytes: Uint8Array): string | Uint8Array {
  if (isUtf8(bytes)) return shownLines(Buffer.from(bytes).toString("utf8"));
  const shown = Buffer.from(bytes)
    .toString("latin1")
    .replaceAll(MAY_HIDE, (one) => {
      if (one === "\r") return Buffer.from(LONE_RETURN).toString("latin1");
      const character = Buffer.from(one, "latin1").toString("utf8");
      return character.includes("\ufffd") ? one : Buffer.from(visibleText(character)).toString("latin1");
    });
  return Buffer.from(shown, "latin1");
}

/**
 * What git shows is read at a terminal, so it is text alone; line ends stay, as a diff tells of them too, but for CR by
 * itself, after which a terminal writes the next line over the one before.
 */
function shownLines(text: string): string {
  return text
    .split(/(\r\n?|\n)/)
    .map((part, i) => (i % 2 === 0 ? visibleText(part) : part === "\r" ? LONE_RETURN : part))
    .join("");
}

const LONE_RETURN = "‹U+000D carriage return›\n";

export const command: Command = { help, run };
