/** The effective craft as a script of its own: valid text that says the same as all its files together. */
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import { notesOf } from "./effective-notes.ts";
import { effectiveRows, type Row } from "./effective-rows.ts";

/** A line of the text that says something, and where that is said. */
export interface EffectiveLine {
  readonly line: number;
  /** The columns of the reference at its end; of the name where it has none. */
  readonly start: number;
  readonly end: number;
  readonly sources: readonly Source[];
}

export interface EffectiveScript {
  readonly text: string;
  readonly lines: readonly EffectiveLine[];
}

/**
 * The craft as one script, in the order of the catalogue: its layers are laid over one another, and each
 * value has the notes of its line above it and the line itself behind it. Only the handset stays a file of its own,
 * named from the folder of the craft's file; what it says stands in comments. Saved beside that file the text is the
 * same craft, with the same findings on it.
 */
export function effectiveScript(craft: Craft, workspace: Workspace): EffectiveScript {
  const writer = makeWriter(craft.file);
  const notes = notesOf(craft, workspace);
  writer.push(...notes.ofHeader(), `craft ${quote(craft.name)}`);
  if (craft.handset) handsetLines(craft, craft.handset, writer);
  for (const { section, title, rows } of effectiveRows(craft, workspace)) {
    writer.push("", ...notes.ofSection(section));
    writer.push(title === null ? baseOf(section) : `${baseOf(section)} ${quote(title)}`);
    writer.table(rows, notes.ofLine);
  }
  const left = leftOut(craft);
  if (left.length > 0) {
    writer.push("", "# Left out, since it was not understood:");
    for (const source of left) writer.comment("", source);
  }
  return writer.made();
}

/** The `use` of the handset, and what it says in comments: a craft cannot say that itself. */
function handsetLines(craft: Craft, handset: Script, writer: Writer): void {
  const use = `use ${quote(pathBetween(craft.file, handset.file))}`;
  writer.push("");
  writer.linked(use, { start: 0, end: use.length }, [{ file: handset.file, line: handset.tree.header ?? 0 }]);
  const controls = [...craft.controls.values()].filter(({ fromHandset }) => fromHandset);
  if (controls.length === 0) return;
  writer.push("", `# Controls of the handset “${handset.name}”:`);
  const width = Math.max(...controls.map(({ name }) => name.length));
  for (const { name, text, source } of controls) writer.comment(`${name.padEnd(width)}  ${text}`, source);
}

/** The lines of the files of a craft that hold no value, because they could not be understood. */
export function leftOut({ scripts }: Craft): Source[] {
  return scripts.flatMap(({ file, issues, entries }) => {
    const held = new Set(entries.map(({ line }) => line));
    const lost = issues.filter(({ code, span }) => LOSING.has(code) && !held.has(span.line));
    return [...new Set(lost.map(({ span }) => span.line))].map((line) => ({ file, line }));
  });
}

const LOSING: ReadonlySet<string> = new Set(["syntax", "unknown-name", "section-misplaced"]);

/** A line in text, counted from 1, as from the folder of `from`. */
function reference({ file, line }: Source, from: string): string {
  return file === from ? `line ${line + 1}` : `${pathBetween(from, file)}:${line + 1}`;
}

interface Writer {
  push(...lines: readonly string[]): void;
  linked(text: string, at: { readonly start: number; readonly end: number }, sources: readonly Source[]): void;
  /** A line of a comment, with what it leads to at its end. */
  comment(text: string, source: Source): void;
  /** Rows in columns, each with the comments above it that `above` gives for its lines. */
  table(rows: readonly Row[], above: (source: Source) => readonly string[]): void;
  made(): EffectiveScript;
}

/** Values longer than this do not push the references of all others to the right. */
const WIDEST = 44;

function makeWriter(from: string): Writer {
  const texts: string[] = [];
  const lines: EffectiveLine[] = [];
  const writer: Writer = {
    push: (...pushed) => void texts.push(...pushed),
    linked(text, at, sources) {
      lines.push({ line: texts.length, ...at, sources });
      texts.push(text);
    },
    comment(text, source) {
      const place = reference(source, from);
      const before = text === "" ? "#   " : `#   ${text}  `;
      writer.linked(before + place, { start: before.length, end: before.length + place.length }, [source]);
    },
    table(rows, above) {
      const names = Math.max(0, ...rows.map(({ name }) => name.length));
      const values = Math.max(0, ...rows.map(({ text }) => (text.length > WIDEST ? 0 : text.length)));
      for (const { name, text, sources, isKept, isBare } of rows) {
        for (const source of sources) texts.push(...above(source).map((comment) => `  ${comment}`));
        if (isKept) {
          writer.linked(`  |${text}`, { start: 2, end: 3 }, sources);
          continue;
        }
        const entry = `  ${name.padEnd(names)}  ${text}`;
        if (isBare) {
          writer.linked(entry, { start: 2, end: 2 + name.length }, sources);
          continue;
        }
        const start = `${entry.padEnd(names + values + 4)}  # `;
        const places = sources.map((source) => reference(source, from)).join(", ");
        writer.linked(start + places, { start: start.length, end: start.length + places.length }, sources);
      }
    },
    made: () => ({ text: `${texts.join("\n")}\n`, lines }),
  };
  return writer;
}
