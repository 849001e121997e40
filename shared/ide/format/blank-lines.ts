/** Where blank lines stand: one before a section and behind the header, never two, none at the ends of a file. */
import type { LineNode, Tree } from "../../syntax/tree.ts";

export interface BlankLines {
  /** 1 for a line that is taken out. */
  readonly removed: Uint8Array;
  /** 1 for a line before which a blank one is put. */
  readonly before: Uint8Array;
}

/** What a layout does to the blank lines of a tree; lines for which `isKept` is true, and those beside them, stay. */
export function blankLines(tree: Tree, isKept: (line: number) => boolean): BlankLines {
  const { lines } = tree;
  const removed = new Uint8Array(lines.length);
  const before = new Uint8Array(lines.length);
  const kindOf = (line: number) => (line >= 0 && line < lines.length && !isKept(line) ? lines[line]!.node.kind : null);
  const starts = headings(tree);
  const startsSection = new Set(tree.sections.map(({ line }) => line));
  /** The last line of the run of blank lines at which a line stands, and that of the comments behind it. */
  const past = (line: number, kind: LineNode["kind"]) => {
    let next = line;
    while (kindOf(next) === kind) next++;
    return next;
  };
  // The last line is what follows the last line end: it is no line of its own where nothing stands in it.
  const last = lines.length - 1;
  for (let i = 0; i < lines.length; i++) {
    const kind = kindOf(i);
    if (kind === "blank") {
      const end = past(i, "blank");
      const isFirst = i === 0 && !countsAtStart(tree, end);
      const isUseless = isFirst || end > last || (startsSection.has(i - 1) && isBody(kindOf(past(end, "comment"))));
      for (let line = isUseless ? i : i + 1; line < Math.min(end, last); line++) removed[line] = 1;
      i = end - 1;
      continue;
    }
    const above = kindOf(i - 1);
    if (kind === null || above === null || above === "blank" || above === "comment") continue;
    const first = kind === "comment" ? past(i, "comment") : i;
    const isAnotherUse = kindOf(first) === "use" && above === "use";
    if (i - 1 === tree.header || (starts.has(first) && !isAnotherUse)) before[i] = 1;
  }
  return { removed, before };
}

/** The lines that begin a part of the file. */
function headings(tree: Tree): ReadonlySet<number> {
  const starts = new Set([...tree.sections.map(({ line }) => line), ...tree.uses]);
  if (tree.header !== null) starts.add(tree.header);
  return starts;
}

/** Whether a line would mean something else as the first one of the file. */
function countsAtStart({ header, lines }: Tree, line: number): boolean {
  // The character would become the file's byte-order mark; and where the header is missing, that is told of the first line.
  return lines[line]?.text.startsWith("\uFEFF") === true || (header === null && (lines[line]?.issues.length ?? 0) > 0);
}

function isBody(kind: LineNode["kind"] | null): boolean {
  return kind === "entry" || kind === "drop" || kind === "kept" || kind === "fact";
}
