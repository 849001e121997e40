/** A text as what is merged: its sections, and in them statements with the notes that go along with them. */
import { splitLines } from "../../syntax/split-lines.ts";
import type { Line, LineEnd, Section, Tree } from "../../syntax/tree.ts";
import type { Row } from "./rows.ts";

export type UnitKind =
  | "header"
  | "use"
  | "heading"
  | "entry"
  | "drop"
  | "fact"
  /** A run of comments that belongs to no statement. */
  | "comment"
  /** All that stands in a section of kept board text. */
  | "kept"
  /** A line that is not understood. */
  | "stray";

/** What goes along as one: a statement with its note, a run of comments, or the board text of a section. */
export interface Unit {
  readonly kind: UnitKind;
  /** What it is about among those of its kind in its section: a name, a path, or its text. */
  readonly name: string;
  /** Blank lines above it. */
  readonly lead: readonly Row[];
  /** Comments right above the statement. */
  readonly note: readonly Row[];
  /** The statement, or the lines of a comment or of board text. */
  readonly rows: readonly Row[];
  /** The statement as the parser read it; null where there are several lines. */
  readonly line: Line | null;
  /** The number of that line. */
  readonly at: number;
}

/** A section with its heading; the first block has none and holds what stands above all sections. */
export interface Block {
  /** `pack`, `pack/NAME`; empty for the first block. */
  readonly section: string;
  readonly name: string;
  readonly heading: Unit | null;
  readonly units: readonly Unit[];
}

export interface Document {
  readonly tree: Tree;
  readonly blocks: readonly Block[];
  /** Blank lines at the end. */
  readonly tail: readonly Row[];
  readonly eol: LineEnd;
  /** Whether the last line has a line end. */
  readonly ended: boolean;
}

/** The lines of a text, without the empty one behind the last line end. */
export function rowsOf(text: string): Row[] {
  const { lines, ends } = splitLines(text);
  const rows = lines.map((each, i): Row => ({ text: each, end: ends[i]! }));
  if (rows.at(-1)!.text === "") rows.pop();
  return rows;
}

/** The line end that most lines have; `\n` where there is none. */
export function usualEnd(ends: readonly (LineEnd | null)[]): LineEnd {
  const counts = new Map<LineEnd, number>();
  for (const end of ends) if (end) counts.set(end, (counts.get(end) ?? 0) + 1);
  let usual: LineEnd = "\n";
  for (const [end, count] of counts) if (count > (counts.get(usual) ?? 0)) usual = end;
  return usual;
}

export function resolvedName({ name, title }: Section): string {
  return title === null ? name : `${name}/${title}`;
}

/** The document of a tree: every line of the text stands in exactly one place of it. */
export function documentOf(tree: Tree): Document {
  const count = tree.lines.at(-1)!.text === "" ? tree.lines.length - 1 : tree.lines.length;
  const builder = blocksBuilder();
  const sections = new Map(tree.sections.map((section) => [section.line, section]));
  for (let i = 0; i < count; i++) {
    const line = tree.lines[i]!;
    const row: Row = { text: line.text, end: tree.ends[i]! };
    const section = sections.get(i);
    if (section) builder.section(section, row, line, i);
    else if (line.node.kind === "blank") builder.blank(row);
    else if (line.node.kind === "comment") builder.comment(row);
    else builder.statement(row, line, i, tree);
  }
  const { blocks, tail } = builder.end();
  return { tree, blocks, tail, eol: usualEnd(tree.ends), ended: count === 0 || tree.ends[count - 1] !== "" };
}

interface OpenBlock extends Block {
  readonly units: Unit[];
}

function blocksBuilder() {
  const blocks: OpenBlock[] = [{ section: "", name: "", heading: null, units: [] }];
  let lead: Row[] = [];
  let comments: Row[] = [];
  const current = () => blocks.at(-1)!;
  const taken = () => {
    const found = { lead, note: comments };
    [lead, comments] = [[], []];
    return found;
  };
  /** Of the unit of kept text that is being read. */
  let keptRows: Row[] = [];
  const isKept = () => current().name === "verbatim";
  const addKept = (rows: readonly Row[]) => {
    const last = current().units.at(-1);
    if (last?.kind === "kept") keptRows.push(...rows);
    else {
      keptRows = [...rows];
      current().units.push({ kind: "kept", name: "", lead: [], note: [], rows: keptRows, line: null, at: -1 });
    }
  };
  /** The comments so far belong to no statement. */
  const flush = () => {
    if (comments.length === 0) return;
    const { lead: above, note: rows } = taken();
    if (isKept()) addKept([...above, ...rows]);
    else current().units.push({ kind: "comment", name: "", lead: above, note: [], rows, line: null, at: -1 });
  };
  return {
    blank(row: Row) {
      flush();
      lead.push(row);
    },
    comment(row: Row) {
      comments.push(row);
    },
    section(section: Section, row: Row, line: Line, at: number) {
      const resolved = resolvedName(section);
      const heading: Unit = { kind: "heading", name: resolved, ...taken(), rows: [row], line, at };
      blocks.push({ section: resolved, name: section.name, heading, units: [] });
    },
    statement(row: Row, line: Line, at: number, tree: Tree) {
      const found = taken();
      if (isKept()) addKept([...found.lead, ...found.note, row]);
      else {
        const { kind, name } = kindAndName(line, at, tree);
        current().units.push({ kind, name, lead: found.lead, note: found.note, rows: [row], line, at });
      }
    },
    end() {
      flush();
      return { blocks: blocks as readonly Block[], tail: lead };
    },
  };
}

function kindAndName(line: Line, at: number, tree: Tree): Pick<Unit, "kind" | "name"> {
  const { node, text } = line;
  if (node.kind === "header" && tree.header === at) return { kind: "header", name: "" };
  if (node.kind === "use" && node.path) return { kind: "use", name: node.path.text };
  if (node.kind === "entry") return { kind: "entry", name: node.head.text };
  if (node.kind === "drop") return { kind: "drop", name: "" };
  if (node.kind === "fact") return { kind: "fact", name: text.slice(node.content.start, node.content.end) };
  return { kind: "stray", name: text.trim() };
}
