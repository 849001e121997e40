/** The sections of a script in the order of the catalogue, which is that of the reference's pages. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { Tree } from "../../syntax/tree.ts";
import { whyNotFormatted } from "./format.ts";
import { lineEndOf } from "./lay-out.ts";

/**
 * The edits that put the sections of a script in order, each with its notes and what stands below it, and `use` lines
 * above them all. Sections of one name keep their order, so the script means the same. None where they are in order, and
 * where they must stay: in a dialect, whose lines are tried in their order, in an unresolved merge, beside a second
 * header, and in a file that must not be rewritten.
 */
export function organizeEdits({ tree }: Script, catalogue: Catalogue): TextEdit[] {
  if (!mayOrganize(tree)) return [];
  const { head, sections, tail, uses } = partsOf(tree, catalogue);
  const sorted = sections.toSorted((a, b) => a.rank - b.rank);
  if (uses.length === 0 && sorted.every((part, i) => part === sections[i])) return [];
  // Behind other `use` lines there is no blank line.
  const isApart = tree.lines[head.at(-1)!]!.node.kind !== "use";
  const above = isApart ? [head, uses] : [[...head, ...uses]];
  const parts = [...above, ...sorted.map(({ lines }) => lines), tail];
  return [wholeText(tree, parts)];
}

function mayOrganize(tree: Tree): boolean {
  const { lines, sections, header } = tree;
  if (whyNotFormatted(tree) || tree.kind === "dialect" || header === null || sections.length === 0) return false;
  if (sections[0]!.line < header) return false;
  return lines.every(({ node }, line) => node.kind !== "conflict" && (node.kind !== "header" || line === header));
}

interface Parts {
  readonly head: readonly number[];
  /** `use` lines from below the name of a section, with their notes. */
  readonly uses: readonly number[];
  readonly sections: readonly { readonly rank: number; readonly lines: readonly number[] }[];
  /** Comments at the margin behind everything. */
  readonly tail: readonly number[];
}

/** The lines of each part, without blank ones at its ends. */
function partsOf(tree: Tree, catalogue: Catalogue): Parts {
  const { lines, sections } = tree;
  const places = new Map(catalogue.sections.map(({ name }, i) => [name, i]));
  const starts = sections.map(({ line }, i) => (i === 0 ? noteStart(tree, line) : startOf(tree, line)));
  const end = startOf(tree, lines.length);
  const moved = new Set(
    tree.uses.filter((line) => line > starts[0]!).flatMap((line) => span(noteStart(tree, line), line + 1)),
  );
  const stretch = (from: number, to: number) =>
    withoutEnds(
      tree,
      span(from, to).filter((line) => !moved.has(line)),
    );
  let rank = -1;
  return {
    // Its first line stays the first one.
    head: span(0, (stretch(0, starts[0]!).at(-1) ?? -1) + 1),
    uses: [...moved].sort((a, b) => a - b),
    sections: sections.map(({ name }, i) => {
      // One that is not known stays behind the one that it stood behind.
      rank = places.get(name) ?? rank;
      return { rank, lines: stretch(starts[i]!, starts[i + 1] ?? end) };
    }),
    tail: withoutEnds(tree, span(end, lines.length)),
  };
}

/** The first line of the comments directly above a line. */
function noteStart({ lines }: Tree, line: number): number {
  let first = line;
  while (lines[first - 1]?.node.kind === "comment") first--;
  return first;
}

/**
 * The same, with comments at the margin that stand above by themselves, as a heading of several sections does. One that
 * follows an entry without a blank line, such as an entry that is commented out, stays below it.
 */
function startOf(tree: Tree, line: number): number {
  const { lines } = tree;
  let start = line < lines.length ? noteStart(tree, line) : line;
  for (;;) {
    let above = start;
    while (lines[above - 1]?.node.kind === "blank") above--;
    const first = noteStart(tree, above);
    const isApart = (above < start || start === lines.length) && !isInSection(tree, first - 1);
    if (first === above || !isApart || !span(first, above).every((each) => lines[each]!.text.startsWith("#")))
      return start;
    start = first;
  }
}

function isInSection({ lines }: Tree, line: number): boolean {
  return ["entry", "drop", "kept"].includes(lines[line]?.node.kind ?? "blank");
}

function span(from: number, to: number): number[] {
  return Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);
}

function withoutEnds({ lines }: Tree, part: readonly number[]): readonly number[] {
  const isBlank = (line: number) => lines[line]!.node.kind === "blank";
  const first = part.findIndex((line) => !isBlank(line));
  const last = part.findLastIndex((line) => !isBlank(line));
  return first < 0 ? [] : part.slice(first, last + 1);
}

/** The edit that replaces all lines by those of some parts, with a blank line between two. */
function wholeText(tree: Tree, parts: readonly (readonly number[])[]): TextEdit {
  const { lines, ends } = tree;
  const end = lineEndOf(tree);
  const last = lines.length - 1;
  const texts = parts.filter((part) => part.length > 0).map((part) => part.map((line) => lines[line]!.text).join(end));
  const isEnded = lines[last]!.text === "" && ends.length > 1;
  const range = { start: { line: 0, character: 0 }, end: { line: last, character: lines[last]!.text.length } };
  return { range, text: texts.join(end + end) + (isEnded ? end : "") };
}
