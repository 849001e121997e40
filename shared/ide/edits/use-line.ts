/** The edit that makes a script use another one. */
import type { Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { quote } from "../../syntax/scanner.ts";
import type { TextEdit } from "../../syntax/span.ts";

/** The line after which a `use` is written: the last `use`, else the header. */
export function lineForUse({ tree, uses }: Script): number {
  return Math.max(tree.header ?? -1, ...uses.map(({ line }) => line));
}

/** Writes `use` after those that are there, or after the header with a blank line around it: later files win. */
export function writeUse(script: Script, file: string): TextEdit {
  const { tree } = script;
  const line = lineForUse(script);
  const text = `use ${quote(pathBetween(script.file, file))}`;
  if (line < 0) {
    const start = { line: 0, character: 0 };
    const eol = lineEnd(tree, 0);
    return { range: { start, end: start }, text: `${text}${eol}${eol}` };
  }
  const eol = lineEnd(tree, line);
  const at = { line, character: tree.lines[line]!.text.length };
  const range = { start: at, end: at };
  if (script.uses.length > 0) return { range, text: `${eol}${text}` };
  const below = tree.lines[line + 1]?.text.trim() ?? "";
  return { range, text: `${eol}${eol}${text}${below === "" ? "" : eol}` };
}
