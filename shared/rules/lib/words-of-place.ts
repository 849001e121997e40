/** Lines of scripts in words. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Line } from "../../syntax/tree.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { joinWithAnd } from "../../text/list.ts";

/** `line 12`, or with its file where that is not the craft's own: `line 12 of habits.fettle`. */
export function lineInWords({ file, line }: Source, craft: Craft): string {
  const name = fileNameOf(file);
  return file === craft.file ? `line ${line + 1}` : `line ${line + 1} of ${name}`;
}

/** Lines of which some may stand in other files: `line 5`, `lines 5 and 6`, `lines 5 and 3 of habits.fettle`. */
export function linesInWords(sources: readonly Source[], craft: Craft): string {
  const all = [...new Set(sources.map((source) => lineInWords(source, craft)))];
  if (all.length < 2) return all.join("");
  return `lines ${joinWithAnd(all.map((each) => each.slice("line ".length)))}`;
}

/** A line that is longer is cut where it is quoted. */
const MOST_LETTERS = 80;

/**
 * A message about a line of another file than the craft's, which is shown where that file is used, or at a line of the
 * craft that it rests on as well: with that line at its end, `It stands in line 12 of habits.fettle: turtle when TR is
 * down.`, unless the message names it already.
 */
export function withItsLine(
  message: string,
  source: Source,
  shown: Source,
  craft: Craft,
  workspace: Workspace,
): string {
  const place = lineInWords(source, craft);
  const line = workspace.script(source.file)?.tree.lines[source.line];
  if (!line || message.includes(place)) return message;
  const text = asWritten(line);
  const lead = craft.answersFor(source).line === shown.line ? "It stands in" : "The other line is";
  return `${message} ${lead} ${place}: ${text.length > MOST_LETTERS ? `${text.slice(0, MOST_LETTERS - 1)}…` : text}.`;
}

/** What a line says, without indent, comment and columns. */
function asWritten({ text, comment }: Line): string {
  return text
    .slice(0, comment?.start ?? text.length)
    .trim()
    .replace(/[ \t]+/g, " ");
}
