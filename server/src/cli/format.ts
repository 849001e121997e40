/** `fettle format`: scripts and dialects in canonical layout. */
import { resolve } from "node:path";
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { formatted, formattedScript, lineEndsOf, whyNotFormatted } from "../../../shared/ide/format/format.ts";
import { isScriptFile } from "../../../shared/model/file-names.ts";
import { MOST_BYTES } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { parse, print } from "../../../shared/syntax/parse.ts";
import type { Tree } from "../../../shared/syntax/tree.ts";
import { readAnyBytes, realPathOf } from "../node/disk.ts";
import { workspaceOf } from "../node/workspace-place.ts";
import { readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io, oneLine } from "./io.ts";
import { wordsAround, wordsIn } from "./own-words.ts";
import { openScripts } from "./scripts.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle format [PATH…] [--check]
       fettle format --print FILE

Lays scripts and dialects out: entries indented by two spaces, the values of entries below
one another in a column, two spaces behind the longest name; one space before a unit; one
blank line between sections and behind the header, never two; no blanks at the ends of
lines. Order, comments, texts in quotes and kept board text stay, and so does the meaning.
A line with a fault keeps its words as they are, and what stands between git's conflict
markers is not touched. Line ends stay; where a file mixes them, its most frequent one is
written. A PATH is a file or a folder (every .fettle file below it); without one, the
working folder. Files are rewritten in place, each whole or not at all, and listed. “-”
reads standard input and writes to standard output.

  --check       writes nothing, lists the files that would change: exit status 1
  --print FILE  writes the layout of one file to standard output and changes nothing; what
                cannot be laid out is written as it is (for git: diff.fettle.textconv)

Files in a newer edition of the language, and files that are no UTF-8 text, are never
rewritten: standard error says which.

Exit status: 0 all is laid out, 1 (with --check) some files would change, 2 a file could
not be read, written or laid out, or the arguments make no sense; the others are still
laid out.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { check: { type: "boolean" }, print: { type: "boolean" } });
  const { paths } = given;
  if (given.has("print")) {
    const [path, second] = paths;
    if (given.has("check")) throw new CannotRun("--check and --print do not go together: one of them at a time");
    if (path === undefined || second !== undefined) throw new CannotRun("--print is followed by one file");
    await printFile(path, io);
    return 0;
  }
  if (!paths.includes("-")) return formatFiles(paths.length > 0 ? paths : ["."], given.has("check"), io);
  if (paths.length > 1) throw new CannotRun("“-” stands alone: standard input is laid out by itself");
  return formatInput(given.has("check"), io);
}

async function formatFiles(paths: readonly string[], isCheck: boolean, io: Io): Promise<ExitStatus> {
  const { opened, refused, nameOf } = await openScripts(paths, io);
  const tell = (reason: string) => io.error(`fettle: ${oneLine(reason)}\n`);
  for (const reason of refused) tell(reason);
  let [changed, failed] = [0, refused.length];
  for (const { file, workspace } of opened) {
    const name = nameOf(file);
    const script = workspace.script(file)!;
    const { tree } = script;
    const answer = workspace.view.read(file);
    const why = whyNotInPlace(file) ?? whyNot(tree, answer?.kind === "text" && answer.validUtf8);
    const text = why === null ? formattedScript(script) : "";
    const isSame = text === print(tree);
    const problem = why ?? whyTooLong(text) ?? (isSame || isCheck ? null : replace(file, print(tree), text, io));
    if (problem !== null) {
      failed++;
      tell(`${name}: ${problem}`);
    } else if (!isSame) {
      changed++;
      io.out(`${oneLine(name)}\n`);
      const ends = lineEndsOf(tree);
      if (ends.mixed) tell(`${name}: its lines end in several ways; the most frequent one is ${ends.name}`);
    }
  }
  if (changed > 0 && isCheck) tell(`${changed} of ${opened.length} files would change: “fettle format” lays them out`);
  return failed > 0 ? 2 : changed > 0 && isCheck ? 1 : 0;
}

/** Puts another text in place of the one that was read; gives the reason where that is not possible. */
function replace(file: string, before: string, text: string, io: Io): string | null {
  const now = readAnyBytes(file);
  if (typeof now === "string" || !Buffer.from(before).equals(now))
    return "it was changed meanwhile, so it is not rewritten: run this again";
  try {
    writeOut(file, text, "replace", io);
    return null;
  } catch (error) {
    if (error instanceof CannotRun) return error.message.slice(file.length + 1);
    throw error;
  }
}

function whyNotInPlace(file: string): string | null {
  if (isScriptFile(file)) return null;
  return "its name does not end in .fettle, so it is not rewritten: give it to “fettle format -” on standard input";
}

function whyNot(tree: Tree, isUtf8: boolean): string | null {
  if (!isUtf8) return "it holds bytes that are no UTF-8 text, so it is not rewritten: save it as UTF-8 first";
  return whyNotFormatted(tree);
}

/** A file that grows beyond what is read of any would be lost to this program. */
function whyTooLong(text: string): string | null {
  if (text.length * 3 <= MOST_BYTES || new TextEncoder().encode(text).length <= MOST_BYTES) return null;
  return "laid out it would be larger than the largest file that is read, so it is not rewritten";
}

async function formatInput(isCheck: boolean, io: Io): Promise<ExitStatus> {
  const bytes = await io.input();
  const laid = laidOut(bytes, (await wordsAround(io)).catalogue);
  if (typeof laid !== "string") {
    if (!isCheck) io.out(bytes);
    io.error(`fettle: -: ${laid.why}\n`);
    return 2;
  }
  const isSame = Buffer.from(laid).equals(bytes);
  if (!isCheck) io.out(laid);
  else if (!isSame) io.out("-\n");
  return isCheck && !isSame ? 1 : 0;
}

/** Writes the layout of a file to standard output; git asks for that of a copy of it, which stands anywhere. */
async function printFile(path: string, io: Io): Promise<void> {
  const bytes = path === "-" ? await io.input() : read(path, io);
  const place = workspaceOf(realPathOf(resolve(io.folder, path)), realPathOf(io.folder));
  const words = place.reach === "below" ? await wordsIn(place, io, (file) => file) : await wordsAround(io);
  const laid = laidOut(bytes, words.catalogue);
  io.out(typeof laid === "string" ? laid : bytes);
}

function read(path: string, io: Io): Uint8Array {
  const bytes = readAnyBytes(resolve(io.folder, path));
  if (typeof bytes === "string") throw new CannotRun(`${path}: ${bytes}`);
  return bytes;
}

/** The layout of a file's bytes, or why there is none. */
function laidOut(bytes: Uint8Array, catalogue: Catalogue): string | { readonly why: string } {
  const answer = textAnswer(bytes);
  if (answer.kind !== "text") return { why: answer.kind === "unreadable" ? answer.why : "it cannot be read" };
  const tree = parse(answer.text);
  const why = whyNot(tree, answer.validUtf8);
  return why === null ? formatted(tree, catalogue) : { why };
}

export const command: Command = { help, run };
