/** Reads one file: parses it and interprets its tree by the catalogue. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { SectionSpec } from "../catalogue/specs.ts";
import { type LineReader, lineReader, parse } from "../syntax/parse.ts";
import { printValue } from "../syntax/print-value.ts";
import { spanAt } from "../syntax/span.ts";
import type { EntryNode, Line, Section, Tree, Word } from "../syntax/tree.ts";
import type { Value } from "../syntax/value.ts";
import { fileNameOf } from "../text/file-name.ts";
import { mayHold } from "./may-hold.ts";
import { allowancesIn, NO_NOTE, noteOfLine } from "./notes.ts";
import type { ParsedEntry } from "./parsed-entry.ts";
import { replacePastedIssues } from "./pasted-board-text.ts";
import { readEntry } from "./read-entry.ts";
import { readPlainEntry } from "./read-plain.ts";
import { repeatedEntries } from "./repeated-entries.ts";
import type { Drop, Entry, Issue, Kept, Note, Script, SectionReading, Use } from "./script.ts";
import { isDrop, issueOf, misplacedSection, notText, notUtf8, unknownDrops, unknownSection } from "./script-issues.ts";
import { unusualValues } from "./unusual-values.ts";

export interface ScriptReader {
  /** The script of a file. The same text gives the same object, so that callers can compare with `===`. */
  read(file: string, text: string, validUtf8: boolean): Script;
}

/** A reader that caches each file by its text, and each line by its own text. */
export function scriptReader(catalogue: Catalogue): ScriptReader {
  const known = new Map<string, CachedFile>();
  const lines = lineReader();
  const entries = entryReader(catalogue);
  return {
    read(file, text, validUtf8) {
      const found = known.get(file);
      if (found && found.text === text && found.validUtf8 === validUtf8) return found.script;
      const tree = parse(text, lines, found && { text: found.text, tree: found.script.tree });
      const readings = readSections(file, tree, catalogue, entries, found);
      const encoding = text.includes("\0") ? "none" : validUtf8 ? "utf-8" : "broken";
      const script = readScript(file, tree, readings, encoding, catalogue, lines, entries);
      known.set(file, { text, validUtf8, script });
      return script;
    },
  };
}

/** The last result for a file. */
interface CachedFile {
  readonly text: string;
  readonly validUtf8: boolean;
  readonly script: Script;
}

/** A parsed entry with its canonical text: printed once here, and used in every craft that has the line. */
interface PrintedEntry {
  readonly spec: SectionSpec;
  readonly read: ParsedEntry;
  readonly text: string;
  /** What the same line is in another section. */
  readonly elsewhere: PrintedEntry | null;
}
type EntryReader = (line: Line, node: EntryNode, spec: SectionSpec) => PrintedEntry;

/** What was read of a line is kept with it: lines come from one reader, which knows equal ones again, by one catalogue. */
function entryReader(catalogue: Catalogue): EntryReader {
  return (line, node, spec) => {
    const known = line.meaning as PrintedEntry | null;
    for (let each = known; each; each = each.elsewhere) if (each.spec === spec) return each;
    const { text } = line;
    const { start, end } = node.value;
    const read =
      (spec.holds === "settings" && readPlainEntry(text, node, catalogue.tableOf(spec.name))) ||
      readEntry(text, node.head, node.value, spec, catalogue);
    const printed = {
      spec,
      read,
      text: read.value ? printValue(read.value) : text.slice(start, end),
      elsewhere: known,
    };
    line.meaning = printed;
    return printed;
  };
}

/** An entry of one line: its pieces are those of what was read, which makes them once somebody asks. */
class LineEntry implements Entry {
  readonly kind: Entry["kind"];
  readonly section: string;
  readonly name: string;
  readonly line: number;
  readonly head: Word;
  readonly value: Value | null;
  readonly text: string;
  readonly #read: ParsedEntry;

  constructor(section: string, line: number, head: Word, { read, text }: PrintedEntry) {
    this.kind = read.kind;
    this.section = section;
    // Of a setting the catalogue's own text: looked up again and again, it is the same object each time.
    this.name = read.kind === "setting" && read.setting ? read.setting.name : head.text;
    this.line = line;
    this.head = head;
    this.value = read.value;
    this.text = text;
    this.#read = read;
  }
  get pieces() {
    return this.#read.pieces;
  }
}

/** Every section of a file. A section whose lines did not change since the last read is reused. */
function readSections(
  file: string,
  tree: Tree,
  catalogue: Catalogue,
  readOne: EntryReader,
  before?: CachedFile,
): SectionReading[] {
  // The sections of a dialect hold facts, which `shared/dialect` reads and judges.
  if (tree.kind === "dialect") return tree.sections.map(dialectSection);
  const old = before?.script.tree;
  return tree.sections.map((section, i) => {
    const same = old?.kind === tree.kind && isSame(section, tree, old.sections[i], old);
    return same ? before!.script.readings[i]! : readSection(file, section, tree, catalogue, readOne);
  });
}

function dialectSection({ name, title, line }: Section): SectionReading {
  const section = title === null ? name : `${name}/${title}`;
  const about = { section, line, known: true, misplaced: false, cleared: false };
  return { about, entries: [], hasNamesakes: false, drops: [], kept: [], issues: [] };
}

/** Whether two sections of two trees have the same lines. Equal lines are the same object. */
function isSame(a: Section, tree: Tree, b: Section | undefined, old: Tree): boolean {
  const { entries } = a;
  if (b?.line !== a.line || b.entries.length !== entries.length || tree.lines[a.line] !== old.lines[a.line])
    return false;
  for (let i = 0; i < entries.length; i++) {
    const line = entries[i]!;
    if (b.entries[i] !== line || tree.lines[line] !== old.lines[line]) return false;
  }
  return true;
}

function readSection(
  file: string,
  section: Section,
  tree: Tree,
  catalogue: Catalogue,
  readOne: EntryReader,
): SectionReading {
  const entries: Entry[] = [];
  const drops: Drop[] = [];
  const kept: Kept[] = [];
  const issues: Issue[] = [];
  const spec = catalogue.section(section.name);
  const misplaced = spec !== undefined && !mayHold(spec, tree.kind);
  const resolved = section.title === null ? section.name : `${section.name}/${section.title}`;
  const cleared = section.entries.length > 0 && section.entries.every((line) => dropsAll(tree, line));
  const about = { section: resolved, line: section.line, known: spec !== undefined, misplaced, cleared };
  if (!spec) issues.push(unknownSection(tree, section.line, section.name, catalogue));
  else if (misplaced) issues.push(misplacedSection(tree, section.line, spec));
  if (!spec || misplaced) return { about, entries, hasNamesakes: false, drops, kept, issues };
  for (const line of section.entries) {
    const read = tree.lines[line]!;
    const { node } = read;
    if (node.kind === "kept") {
      kept.push({ dialect: section.title ?? "", text: node.text, source: { file, line } });
    } else if (node.kind === "drop") {
      drops.push({ section: resolved, line, all: node.all !== null, names: node.names });
      issues.push(...unknownDrops(node, line, spec, catalogue));
    } else if (node.kind === "entry") {
      const printed = readOne(read, node, spec);
      const { fault, beyond } = printed.read;
      entries.push(new LineEntry(resolved, line, node.head, printed));
      if (fault) issues.push(issueOf(fault, line, read.text));
      for (const issue of beyond) issues.push({ code: issue.code, message: issue.message, span: spanAt(line, issue) });
    }
  }
  const hasNamesakes = new Set(entries.map(({ name }) => name)).size < entries.length;
  return { about, entries, hasNamesakes, drops, kept, issues };
}

/** Whether a file is text: “none” if it contains zero bytes. */
type Encoding = "utf-8" | "broken" | "none";

function readScript(
  file: string,
  tree: Tree,
  readings: readonly SectionReading[],
  encoding: Encoding,
  catalogue: Catalogue,
  lineReading: LineReader,
  readOne: EntryReader,
): Script {
  const issues: Issue[] = tree.issues.map(({ code, message, span, fix }) => ({
    code,
    message,
    span,
    ...(fix && { fixes: [fix] }),
  }));
  if (encoding === "broken") issues.push(notUtf8(tree));
  const entries = concatenated(readings, "entries");
  const repeated = repeatedEntries(readings, catalogue, tree);
  const notes = new Map<number, Note>();
  const sections = readings.map((each) => each.about);
  // Concatenated, not spread into `push`: a malicious file has more issues than a call can take arguments.
  // The values of a craft's own file are checked in the effective craft, whose size may come from other files.
  const unusual = tree.kind === "craft" ? [] : unusualValues(entries, catalogue);
  // If the file is not text at all, no other issue would help.
  const all =
    encoding === "none"
      ? [notText(tree)]
      : replacePastedIssues(issues.concat(concatenated(readings, "issues"), repeated, unusual), tree, catalogue);
  all.sort((a, b) => a.span.line - b.span.line || a.span.start - b.span.start || (a.code < b.code ? -1 : 1));

  const noteAt = (line: number): Note => {
    const kind = tree.lines[line]?.node.kind;
    if (kind === undefined || kind === "blank" || kind === "comment") return NO_NOTE;
    if (!tree.lines[line]!.comment && tree.lines[line - 1]?.node.kind !== "comment") return NO_NOTE;
    const spec = specOf(tree, line, catalogue);
    return noteOfLine(tree, line, (comment) => {
      const read = lineReading.read(` ${comment.trim()}`, "plain");
      const { node } = read;
      if (spec === undefined) return false;
      if (node.kind === "drop") return isDrop(node, spec, catalogue);
      return node.kind === "entry" && readOne(read, node, spec).read.fault === null;
    });
  };
  return {
    file,
    tree,
    kind: tree.kind,
    name: tree.name ?? fileNameOf(file).replace(/\.fettle$/, ""),
    readings,
    entries,
    drops: concatenated(readings, "drops"),
    kept: concatenated(readings, "kept"),
    uses: tree.uses.map((line) => useOf(tree, line)),
    sections,
    issues: all,
    allowances: allowancesIn(tree, sections),
    noteOf(line) {
      let note = notes.get(line);
      if (!note) {
        note = noteAt(line);
        notes.set(line, note);
      }
      return note;
    },
  };
}

/** All entries, drops, kept lines or issues of the sections: `flatMap` takes a millisecond for a long file. */
function concatenated<K extends "entries" | "drops" | "kept" | "issues">(readings: readonly SectionReading[], kind: K) {
  // Allocated once at its full length: a growing array leaves garbage.
  const all = new Array<SectionReading[K][number]>(readings.reduce((sum, reading) => sum + reading[kind].length, 0));
  let at = 0;
  for (const reading of readings) for (const each of reading[kind]) all[at++] = each;
  return all;
}

function dropsAll(tree: Tree, line: number): boolean {
  const { node } = tree.lines[line]!;
  return node.kind === "drop" && node.all !== null;
}

/** The section of an entry, if it is known and allowed in this file; needed only for lines with notes. */
function specOf(tree: Tree, line: number, catalogue: Catalogue): SectionSpec | undefined {
  const section = tree.sections.findLast((each) => each.line < line);
  const spec = section?.entries.includes(line) ? catalogue.section(section.name) : undefined;
  return spec && mayHold(spec, tree.kind) ? spec : undefined;
}

function useOf(tree: Tree, line: number): Use {
  const { node } = tree.lines[line]!;
  if (node.kind !== "use") throw new Error(`line ${line} of a tree is listed as a use and is none`);
  const at = node.path ?? node.word;
  return { line, path: node.path?.text ?? null, at: spanAt(line, at) };
}
