/** Parses a script into a lossless tree, and prints the tree. */

import { conflictLines } from "./conflict-markers.ts";
import { FILE_KINDS, parseLine, type Within } from "./parse-line.ts";
import { splitLines } from "./split-lines.ts";
import type { FileKind, Line, LineIssue, LineNode, Section, SyntaxIssue, Tree } from "./tree.ts";

const CACHE_LIMIT = 50_000;
const BOM = "\uFEFF";

/** Parses lines and caches the results: equal lines share one `Line` object. */
export interface LineReader {
  /** `at` is the line's number, if it has one: while typing, most lines keep their numbers. */
  read(text: string, within: Within, at?: number): Line;
  /** The same for a line of a text that is read for the first time: it may keep that whole text in memory. */
  readFirst(text: string, within: Within, at: number): Line;
}

/** A reader whose cache is keyed by the text of the lines, and cleared when it has grown to its limit. */
export function lineReader(): LineReader {
  const known = { plain: new Map<string, Line>(), verbatim: new Map<string, Line>(), dialect: new Map<string, Line>() };
  // Comparing with the line that had this number before is cheaper than hashing a new string.
  const previous: Line[] = [];
  const previousWithin: Within[] = [];
  const lookUp = (text: string, within: Within, kept: (text: string) => string): Line => {
    const map = known[within];
    const found = map.get(text);
    if (found) return found;
    const line = parseLine(kept(text), within);
    if (map.size >= CACHE_LIMIT) map.clear();
    if (text.length < 400) map.set(line.text, line);
    return line;
  };
  const readAt = (text: string, within: Within, at: number, kept: (text: string) => string): Line => {
    if (at >= CACHE_LIMIT) return lookUp(text, within, kept);
    const here = previous[at];
    if (here?.text === text && previousWithin[at] === within) return here;
    const line = lookUp(text, within, kept);
    // Append only: an array with holes would be slow.
    if (at <= previous.length) {
      previous[at] = line;
      previousWithin[at] = within;
    }
    return line;
  };
  return {
    read: (text, within, at) => (at === undefined ? lookUp(text, within, ownCopy) : readAt(text, within, at, ownCopy)),
    readFirst: (text, within, at) => readAt(text, within, at, asItIs),
  };
}

/** An earlier text of the same file, and its tree. */
export interface PreviousParse {
  readonly text: string;
  readonly tree: Tree;
}

/**
 * Parses a script. Never throws, for any text, and `print` of the tree gives the text back.
 * `previous` only saves work: the result is the same without it. A line that has more than a
 * section's name starts no section: it is usually an entry that lost its indent, and the lines
 * after it still belong to the section above.
 */
export function parse(text: string, reader: LineReader = lineReader(), previous?: PreviousParse): Tree {
  const bom = text.startsWith(BOM);
  const known = previous?.tree.bom === bom ? previous : undefined;
  const body = (whole: string) => (bom ? whole.slice(BOM.length) : whole);
  const { lines: texts, ends } = splitLines(body(text), known && { ...known.tree, text: body(known.text) });
  // With each key a whole text more would stay in memory for the sake of one line.
  const readLine = known ? reader.read : reader.readFirst;
  const issues: SyntaxIssue[] = [];
  const unread = conflictLines(texts, issues);
  const lines = new Array<Line>(texts.length);
  const uses: number[] = [];
  const sections: (Section & { entries: number[] })[] = [];
  let header: number | null = null;
  let kind: FileKind = "layer";
  let name: string | null = null;
  let newer = false;
  let firstStatement: number | null = null;
  // True after an issue that explains why the next entries have no section: they are not reported again.
  let orphanReported = false;
  let section: (Section & { entries: number[] }) | null = null;

  const report = (line: number, message: string, start: number, end: number) =>
    issues.push({ code: "syntax", message, span: { line, start, end } });

  for (let i = 0; i < texts.length; i++) {
    const lineText = texts[i]!;
    if (newer || unread?.has(i)) {
      const kind = unread?.has(i) ? "conflict" : "blank";
      lines[i] = { ...reader.read(lineText, "plain"), node: { kind }, comment: null, issues: [], meaning: null };
      continue;
    }
    const within = kind === "dialect" ? "dialect" : section?.name === "verbatim" ? "verbatim" : "plain";
    const line = readLine(lineText, within, i);
    lines[i] = line;
    const { node } = line;
    if (node.kind === "blank" || node.kind === "comment") continue;
    for (const issue of line.issues) issues.push(issueAt(i, issue));
    if (node.kind === "header") {
      if (header === null) {
        header = i;
        kind = node.fileKind;
        name = node.name?.text ?? null;
        if (firstStatement !== null && line.issues.length === 0)
          report(i, "The header must be the first statement of the file: move it to the top.", 0, lineText.length);
        if (line.issues.some((issue) => issue.code === "edition-newer")) {
          newer = true;
          issues.splice(0, issues.length, ...issues.filter((issue) => issue.code === "edition-newer"));
          uses.length = 0;
          sections.length = 0;
        }
      } else if (line.issues.length === 0) {
        report(
          i,
          `This file has its header already, on line ${header + 1}: one file holds one ${kind}. Remove this line, or move what follows to a file of its own.`,
          0,
          node.word.end,
        );
      }
    } else if (node.kind === "use" && kind === "dialect") {
      report(i, "A dialect uses no other file: write its lines here, and remove this one.", 0, node.word.end);
    } else if (node.kind === "use") {
      uses.push(i);
    } else if (node.kind === "section") {
      const extra = line.issues.length > 0;
      const titled = node.name.text === "pack" || node.name.text === "verbatim";
      if (node.title && !titled && !extra) {
        report(
          i,
          `A name in quotes may follow only “pack” and “verbatim”; remove it.`,
          node.title.start,
          node.title.end,
        );
      }
      if (node.name.text === "verbatim" && !node.title && !extra) {
        report(
          i,
          'Say whose lines these are: verbatim "DIALECT", with the name of the dialect they came from.',
          node.name.start,
          node.name.end,
        );
      }
      if (!extra && (!node.title || titled)) {
        orphanReported = false;
        section = { line: i, name: node.name.text, title: titled ? (node.title?.text ?? null) : null, entries: [] };
        sections.push(section);
      }
    } else if (section && node.kind !== "stray") {
      section.entries.push(i);
    } else if (node.kind === "entry" || node.kind === "drop" || node.kind === "fact") {
      if (!orphanReported) issues.push(issueAt(i, orphanIssue(lineText, node)));
      orphanReported = true;
    } else if (node.kind === "stray" && indentOf(lineText) === 0) orphanReported = true;
    firstStatement ??= i;
  }
  if (header === null) reportMissingHeader(issues, lines, firstStatement);
  issues.sort((a, b) => a.span.line - b.span.line || a.span.start - b.span.start);
  return { bom, lines, ends, header, kind, name, newer, uses, sections, issues };
}

/** The issue of an entry outside of any section. */
function orphanIssue(text: string, node: LineNode & { kind: "entry" | "drop" | "fact" }): LineIssue {
  const at = { start: indentOf(text), end: text.length };
  if (node.kind !== "entry" || node.value.end > node.value.start)
    return {
      code: "syntax",
      ...at,
      message: "This entry stands in no section: write the section's name, not indented, above it.",
    };
  return {
    code: "syntax",
    ...at,
    message: `“${node.head.text}” is indented and stands in no section: if it is a section's name, remove its indent.`,
    repair: { title: "Remove the indent", start: 0, end: at.start, text: "" },
  };
}

/** Reports a missing header; if the first statement was meant as one, reports that alone. */
function reportMissingHeader(issues: SyntaxIssue[], lines: readonly Line[], firstStatement: number | null): void {
  const expected = 'craft "NAME", layer "NAME", handset "NAME" or dialect "NAME"';
  const first = firstStatement === null ? undefined : lines[firstStatement]!;
  if (first && firstStatement !== null && /["“]/.test(first.text)) {
    const { node } = first;
    if (node.kind === "stray" && first.issues.length > 0) return;
    if (node.kind === "section" && node.title && node.name.text !== "pack" && node.name.text !== "verbatim") {
      const { start, end, text } = node.name;
      const meant = FILE_KINDS.find((kind) => kind.charAt(0) === text.charAt(0));
      const issue: LineIssue = {
        code: "syntax",
        start,
        end,
        message: `The first statement is the header, and “${text}” is no kind of file: it must be ${expected}.`,
        // Only the first letter tells what was meant.
        ...(meant && { repair: { title: `Write ${meant}`, start, end, text: meant, doubtful: true } }),
      };
      const existing = issues.findIndex(({ span }) => span.line === firstStatement);
      issues.splice(Math.max(0, existing), existing < 0 ? 0 : 1, issueAt(firstStatement, issue));
      return;
    }
  }
  issues.unshift({
    code: "syntax",
    message: `This file has no header: its first statement must be ${expected}. It is read as a layer.`,
    span: { line: 0, start: 0, end: lines[0]?.text.length ?? 0 },
  });
}

/** The text of a tree, exactly as it was parsed. */
export function print(tree: Tree): string {
  let text = tree.bom ? BOM : "";
  for (let i = 0; i < tree.lines.length; i++) text += tree.lines[i]!.text + tree.ends[i]!;
  return text;
}

const asItIs = (text: string) => text;

/** A copy that shares no memory: engines let a slice keep the whole text alive, which a cached line must not do. */
function ownCopy(text: string): string {
  return ` ${text}`.slice(1);
}

function issueAt(line: number, issue: Line["issues"][number]): SyntaxIssue {
  const { code, message, repair } = issue;
  const span = { line, start: issue.start, end: issue.end };
  if (!repair) return { code, message, span };
  const range = { start: { line, character: repair.start }, end: { line, character: repair.end } };
  const fix = { title: repair.title, edits: [{ range, text: repair.text }] };
  return { code, message, span, fix: repair.doubtful ? fix : { ...fix, certain: true } };
}

function indentOf(text: string): number {
  return text.length - text.trimStart().length;
}
