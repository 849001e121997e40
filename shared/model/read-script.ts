/** A file by itself: its tree read by the catalogue. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { SectionSpec } from "../catalogue/types.ts";
import { type LineReader, lineReader, parse } from "../syntax/parse.ts";
import { printValue } from "../syntax/print-value.ts";
import { spanAt } from "../syntax/span.ts";
import type { LineNode, Tree } from "../syntax/tree.ts";
import { NO_NOTE, noteOfLine } from "./notes.ts";
import { type EntryReading, readEntry } from "./read-entry.ts";
import { repeatedEntries } from "./repeated.ts";
import type { Drop, Entry, Issue, Kept, Note, Script, Use } from "./script.ts";
import {
  isDrop,
  issueOf,
  misplacedSection,
  notUtf8,
  unexplained,
  unknownDrops,
  unknownSection,
} from "./script-issues.ts";
import { unusualValues } from "./unusual.ts";

const MOST_REMEMBERED = 50_000;

export interface ScriptReader {
  /** The file, understood; the same text gives the same value, so that others can compare by it. */
  read(file: string, text: string, validUtf8: boolean): Script;
}

/** A reader that remembers each file by its text, and each line by its own. */
export function scriptReader(catalogue: Catalogue): ScriptReader {
  const known = new Map<string, { text: string; validUtf8: boolean; script: Script }>();
  const lines = lineReader();
  const entries = entryReader(catalogue);
  return {
    read(file, text, validUtf8) {
      const found = known.get(file);
      if (found && found.text === text && found.validUtf8 === validUtf8) return found.script;
      const script = readScript(file, text, validUtf8, catalogue, lines, entries);
      known.set(file, { text, validUtf8, script });
      return script;
    },
  };
}

/** Printed once, when it is read: the same line is printed in every craft that has it. */
type Printed = EntryReading & { readonly text: string };
type EntryReader = (text: string, node: LineNode & { kind: "entry" }, spec: SectionSpec) => Printed;

function entryReader(catalogue: Catalogue): EntryReader {
  const known = new Map<string, Map<string, Printed>>();
  return (text, node, spec) => {
    const map = known.get(spec.name) ?? new Map<string, Printed>();
    known.set(spec.name, map);
    let reading = map.get(text);
    if (!reading) {
      const { start, end } = node.value;
      const read = readEntry(text, node.head, node.value, spec, catalogue);
      reading = { ...read, text: read.value ? printValue(read.value) : text.slice(start, end) };
      if (map.size >= MOST_REMEMBERED) map.clear();
      if (text.length < 400) map.set(text, reading);
    }
    return reading;
  };
}

function readScript(
  file: string,
  text: string,
  validUtf8: boolean,
  catalogue: Catalogue,
  lineReading: LineReader,
  readOne: EntryReader,
): Script {
  const tree = parse(text, lineReading);
  const issues: Issue[] = tree.issues.map(({ code, message, span, fix }) => ({
    code,
    message,
    span,
    ...(fix && { fixes: [fix] }),
  }));
  if (!validUtf8) issues.push(notUtf8(tree));
  const entries: Entry[] = [];
  const drops: Drop[] = [];
  const kept: Kept[] = [];
  const sections: Script["sections"][number][] = [];

  for (const section of tree.sections) {
    const spec = catalogue.section(section.name);
    const misplaced = spec !== undefined && !spec.in.includes(tree.kind);
    const resolved = section.title === null ? section.name : `${section.name}/${section.title}`;
    const cleared = section.entries.length > 0 && section.entries.every((line) => dropsAll(tree, line));
    sections.push({ section: resolved, line: section.line, known: spec !== undefined, misplaced, cleared });
    if (!spec) issues.push(unknownSection(tree, section.line, section.name, catalogue));
    else if (misplaced) issues.push(misplacedSection(tree, section.line, spec));
    if (!spec || misplaced) continue;
    for (const line of section.entries) {
      const { text: said, node } = tree.lines[line]!;
      if (node.kind === "kept") {
        kept.push({ dialect: section.title ?? "", line, text: node.text });
      } else if (node.kind === "drop") {
        drops.push({ section: resolved, line, all: node.all !== null, names: node.names });
        issues.push(...unknownDrops(node, line, spec, catalogue));
      } else if (node.kind === "entry") {
        const reading = readOne(said, node, spec);
        entries.push({
          kind: reading.kind,
          section: resolved,
          name: node.head.text,
          line,
          head: node.head,
          value: reading.value,
          text: reading.text,
          pieces: reading.pieces,
        });
        if (reading.fault) issues.push(issueOf(reading.fault, line, said));
        for (const beyond of reading.beyond)
          issues.push({ code: beyond.code, message: beyond.message, span: spanAt(line, beyond) });
      }
    }
  }
  const repeated = repeatedEntries(entries, catalogue);
  const notes = new Map<number, Note>();
  // Joined, not pushed as arguments: a hostile file has more findings than a call takes.
  // A craft's values are judged as the craft has them, by its size in all its files.
  const unusual = tree.kind === "craft" ? [] : unusualValues(entries, catalogue);
  const all = issues.concat(repeated, unusual, unexplained(tree));
  all.sort((a, b) => a.span.line - b.span.line || a.span.start - b.span.start || (a.code < b.code ? -1 : 1));

  const noteAt = (line: number): Note => {
    const kind = tree.lines[line]?.node.kind;
    if (kind === undefined || kind === "blank" || kind === "comment") return NO_NOTE;
    if (!tree.lines[line]!.comment && tree.lines[line - 1]?.node.kind !== "comment") return NO_NOTE;
    const spec = specOf(tree, line, catalogue);
    return noteOfLine(tree, line, (comment) => {
      const said = ` ${comment.trim()}`;
      const { node } = lineReading.read(said, "plain");
      if (spec === undefined) return false;
      if (node.kind === "drop") return isDrop(node, spec, catalogue);
      return node.kind === "entry" && readOne(said, node, spec).fault === null;
    });
  };
  return {
    file,
    tree,
    kind: tree.kind,
    name: tree.name ?? file.slice(file.lastIndexOf("/") + 1).replace(/\.fettle$/, ""),
    entries,
    drops,
    kept,
    uses: tree.uses.map((line) => useOf(tree, line)),
    sections,
    issues: all,
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

function dropsAll(tree: Tree, line: number): boolean {
  const { node } = tree.lines[line]!;
  return node.kind === "drop" && node.all !== null;
}

/** The section that an entry stands in, where it is understood; asked only for lines with notes. */
function specOf(tree: Tree, line: number, catalogue: Catalogue): SectionSpec | undefined {
  const section = tree.sections.findLast((each) => each.line < line);
  const spec = section?.entries.includes(line) ? catalogue.section(section.name) : undefined;
  return spec?.in.includes(tree.kind) ? spec : undefined;
}

function useOf(tree: Tree, line: number): Use {
  const { node } = tree.lines[line]!;
  if (node.kind !== "use") throw new Error(`line ${line} of a tree is listed as a use and is none`);
  const at = node.path ?? node.word;
  return { line, path: node.path?.text ?? null, at: spanAt(line, at) };
}
