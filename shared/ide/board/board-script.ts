/** The script that a board's text becomes, as a new file beside it: with its handset, and with the board's dialect and text named. */
import type { Dialect } from "../../dialect/dialect.ts";
import { readBoardSteps } from "../../dialect/read/read-board.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import { fileNameOf } from "../../text/file-name.ts";
import type { Steps } from "../../text/steps.ts";
import { textWith, withFile } from "../context/trial.ts";
import { appendEntries, headingOf, lastSectionOf } from "../edits/script-edits.ts";
import { countsOf, type LineCounts } from "./states.ts";

export interface BoardScript {
  readonly text: string;
  readonly counts: LineCounts;
  readonly notes: readonly string[];
}

/** Where the script goes, and where the text is that it is read from. */
export interface ScriptPlace {
  readonly file: FilePath;
  readonly textFile: FilePath;
}

/** Reads the text and names its files by their paths from the script. A name that the text itself says comes first. */
export function* boardScript(
  workspace: Workspace,
  dialect: Dialect,
  text: string,
  handset: Script | null,
  { file, textFile }: ScriptPlace,
): Steps<BoardScript> {
  const uses = handset ? [pathBetween(file, handset.file)] : [];
  const reading = yield* readBoardSteps(dialect, text, { workspace, handset, craft: null, uses });
  const named = withBoardLines(workspace, file, withName(reading.script, nameFor(textFile)), [
    { name: "dialect", rest: quote(pathBetween(file, dialect.file)) },
    { name: "text", rest: quote(pathBetween(file, textFile)) },
  ]);
  return { text: named, counts: countsOf(reading.lines), notes: reading.notes };
}

/** A craft is called after the file of its text, and not after the dialect. */
function withName(script: string, name: string): string {
  return script.replace(/^craft ".*"$/m, () => `craft ${quote(name)}`);
}

/** `old-jug.txt` is “Old jug”. */
export function nameFor(file: FilePath): string {
  const stem = fileNameOf(file).replace(/\.[^.]*$/, "");
  const words = stem.replace(/[-_]+/g, " ").trim() || "Board";
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function withBoardLines(
  workspace: Workspace,
  file: FilePath,
  text: string,
  entries: readonly { readonly name: string; readonly rest: string }[],
): string {
  const script = withFile(workspace, file, text).script(file)!;
  if (lastSectionOf(script.tree, "board"))
    return textWith(script, appendEntries(script, new Map([["board", entries]])));
  // The catalogue's order: board comes before what a board says.
  const first = script.tree.sections[0];
  const lines = [headingOf("board"), ...entries.map(({ name, rest }) => `  ${name.padEnd(9)}${rest}`)].join("\n");
  if (!first) return `${text.trimEnd()}\n\n${lines}\n`;
  const at = { line: first.line, character: 0 };
  return textWith(script, [{ range: { start: at, end: at }, text: `${lines}\n\n` }]);
}
