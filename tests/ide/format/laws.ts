/** What every layout holds to, whatever the text. */
import { isDeepStrictEqual } from "node:util";
import { formatEdits, formatted, formattedScript } from "../../../shared/ide/format/format.ts";
import { conflictsIn } from "../../../shared/syntax/conflict-markers.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import { splitLines } from "../../../shared/syntax/split-lines.ts";
import type { Tree } from "../../../shared/syntax/tree.ts";
import { catalogue, edited, meaningOf, scriptOf } from "./meaning.ts";

/** The first law that the layout of a text breaks, with what shows it; null where it breaks none. */
export function brokenLaw(text: string): string | null {
  const tree = parse(text);
  const laid = formatted(tree, catalogue);
  if (formatted(parse(laid), catalogue) !== laid)
    return `idempotent: ${firstDifference(laid, formatted(parse(laid), catalogue))}`;
  const before = meaningOf(text);
  if (!isDeepStrictEqual(before, meaningOf(laid)))
    return `meaning: ${firstDifference(shown(before), shown(meaningOf(laid)))}`;
  if (words(text) !== words(laid)) return `words: ${firstDifference(words(text), words(laid))}`;
  const [said, kept] = [commentsOf(tree), commentsOf(parse(laid))];
  if (!isDeepStrictEqual(said, kept)) return `comments: ${firstDifference(said.join("\n"), kept.join("\n"))}`;
  const conflicts = conflictTexts(text);
  if (!isDeepStrictEqual(conflicts, conflictTexts(laid))) return `conflicts: ${conflicts.join("")}`;
  return lawOfEdits(text, laid);
}

function lawOfEdits(text: string, laid: string): string | null {
  const script = scriptOf(text);
  if (formattedScript(script) !== laid) return `script: ${firstDifference(laid, formattedScript(script))}`;
  const edits = formatEdits(script, null);
  if (edited(text, edits) !== laid) return `edits: ${firstDifference(laid, edited(text, edits))}`;
  const { lines } = script.tree;
  const last = lines.length - 1;
  const all: Range = { start: { line: 0, character: 0 }, end: { line: last, character: lines[last]!.text.length } };
  if (last > 0 && lines[last]!.text !== "" && edited(text, formatEdits(script, all)) !== laid)
    return "range: all is not the whole";
  for (const { range, text: written } of edits) {
    const { start, end } = range;
    if (start.line === end.line && lines[start.line]!.text.slice(start.character, end.character) === written)
      return `edits: nothing is changed at line ${start.line}`;
    if (end.line > start.line && end.character !== 0) return `edits: more than blanks at line ${start.line}`;
  }
  return null;
}

/** The law of a range: what is outside of it stays, and the meaning too. */
export function brokenRange(text: string, first: number, last: number): string | null {
  const script = scriptOf(text);
  const range = {
    start: { line: first, character: 0 },
    end: { line: last, character: script.tree.lines[last]!.text.length },
  };
  const edits = formatEdits(script, range);
  const outside = edits.find((edit) => edit.range.start.line < first || edit.range.start.line > last);
  if (outside) return `range: line ${outside.range.start.line} is outside of it`;
  const after = edited(text, edits);
  const [before, now] = [meaningOf(text), meaningOf(after)];
  return isDeepStrictEqual(before, now) ? null : `meaning: ${firstDifference(shown(before), shown(now))}`;
}

/** All but blanks and line ends; a unit's “µ” is written “u”. */
function words(text: string): string {
  return text.replace(/[ \t\r\n]/g, "").replace(/[\u00b5\u03bc]/g, "u");
}

function commentsOf({ lines }: Tree): string[] {
  return lines.flatMap(({ text, comment }) => (comment ? [text.slice(comment.start).replace(/[ \t]+$/, "")] : []));
}

function conflictTexts(text: string): string[] {
  const { lines, ends } = splitLines(text.replace(/^\uFEFF/, ""));
  return conflictsIn(lines).map(({ first, last }) => {
    let found = "";
    for (let i = first; i <= last; i++) found += lines[i]! + (i < last ? ends[i]! : "");
    return found;
  });
}

function shown(value: unknown): string {
  return JSON.stringify(value, null, 1);
}

export function firstDifference(a: string, b: string): string {
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  return `${JSON.stringify(a.slice(Math.max(0, at - 60), at + 80))} is ${JSON.stringify(b.slice(Math.max(0, at - 60), at + 80))}`;
}
