/** What becomes of a line that was left by typing a line end. */
import type { Position, TextEdit } from "../../syntax/span.ts";
import type { Line, LineNode, Tree } from "../../syntax/tree.ts";
import { keptLines, layOutStretch, type Reading } from "./lay-out.ts";
import { lineEdits } from "./layout-edits.ts";

/** The edits for the line above a position, and for those of its run; none where the new line is not a blank one. */
export function editsBehind(tree: Tree, reading: Reading, { line: at }: Position): TextEdit[] {
  const { lines } = tree;
  const left = at - 1;
  if (lines[at]?.node.kind !== "blank" || !lines[left] || !isLaid(lines[left], reading, left)) return [];
  if (keptLines(tree)?.[left]) return [];
  const [first, last] = runAround(tree, left, at);
  const typing = { first, last, at };
  const laid = layOutStretch(tree, reading, { ...typing, without: null });
  const others = layOutStretch(tree, reading, { ...typing, without: left });
  // The others stand in their own columns, or in those that this line has had before it was changed.
  const isSo = (texts: ReadonlyMap<number, string>) =>
    [...others.keys()].every((line) => lines[line]!.text.trimEnd() === texts.get(line));
  if (!isSo(others) && !isSo(laid)) return [];
  return [...laid]
    .sort(([a], [b]) => a - b)
    .flatMap(([line, text]) => (lines[line]!.text === text ? [] : lineEdits(line, lines[line]!.text, text)));
}

const LAID: ReadonlySet<LineNode["kind"]> = new Set(["header", "use", "section", "entry", "drop", "fact"]);

/** Whether a line is one that has a layout: nothing is wrong with it by the grammar, and its value can be read. */
function isLaid({ node, issues }: Line, reading: Reading, line: number): boolean {
  if (!LAID.has(node.kind) || issues.length > 0) return false;
  if (node.kind !== "entry" || node.value.start === node.value.end) return true;
  const read = reading(line);
  return read === undefined || read?.value != null;
}

/** The first and the last line of the run in which a line stands; the line that is being typed does not end it. */
function runAround({ lines, sections, header }: Tree, left: number, at: number): [first: number, last: number] {
  const starts = new Set(sections.map(({ line }) => line));
  const isEnd = (line: number) => {
    const kind = lines[line]?.node.kind;
    return kind === undefined || kind === "conflict" || (kind === "blank" && line !== at);
  };
  let first = left;
  while (!starts.has(first) && first !== header && !isEnd(first - 1)) first--;
  let last = left;
  while (!isEnd(last + 1) && !starts.has(last + 1)) last++;
  return [first, last === at ? left : last];
}
