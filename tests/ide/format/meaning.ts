/** What a text means, without where it stands: two texts of one meaning differ in their layout alone. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { readDialect } from "../../../shared/dialect/read-dialect.ts";
import { scriptReader } from "../../../shared/model/read-script.ts";
import type { Script } from "../../../shared/model/script.ts";
import type { TextEdit } from "../../../shared/syntax/span.ts";
import { splitLines } from "../../../shared/syntax/split-lines.ts";

export const catalogue = makeCatalogue();
const reader = scriptReader(catalogue);

/** The script of a text, read anew. */
export function scriptOf(text: string): Script {
  return reader.read("/shed/craft/jug.fettle", text, true);
}

/** Columns and lines, which a layout changes. */
const PLACES = new Set([
  "start",
  "end",
  "line",
  "nameAt",
  "pulseAt",
  "channelAt",
  "controlAt",
  "positionAt",
  "dialAt",
  "at",
  "lines",
]);

/** Everything that a script says, in order: entries, notes, accepted findings, issues and the rest. */
export function meaningOf(text: string): unknown {
  const script = scriptOf(text);
  const { tree } = script;
  const noteAt = (line: number) => script.noteOf(line).text;
  return plain(
    {
      kind: script.kind,
      name: script.name,
      newer: tree.newer,
      bom: tree.bom,
      uses: script.uses.map(({ path, line }) => ({ path, note: noteAt(line) })),
      sections: script.sections.map(({ line, ...rest }) => ({ ...rest, note: noteAt(line) })),
      headerNote: tree.header === null ? "" : noteAt(tree.header),
      entries: script.entries.map(({ kind, section, name, value, text: printed, line }) => {
        return { kind, section, name, value, printed: value ? printed : "", note: noteAt(line) };
      }),
      drops: script.drops.map(({ section, all, names, line }) => {
        return { section, all, names: names.map((word) => word.text), note: noteAt(line) };
      }),
      kept: script.kept.map(({ dialect, text: lineText }) => ({ dialect, lineText })),
      allowances: script.allowances.map(({ code, reason, holds, section }) => ({ code, reason, holds, section })),
      issues: script.issues.map(({ code, message }) => `${code}: ${withoutPlaces(message)}`).sort(),
      dialect: script.kind === "dialect" ? dialectOf(script) : null,
    },
    null,
  );
}

function dialectOf(script: Script): unknown {
  const { issues, name, text, codes, lefts, meanings, cannot } = readDialect(script.file, script.tree, catalogue);
  return plain(
    {
      name,
      text,
      codes: [...codes],
      lefts,
      meanings,
      cannot,
      issues: issues.map(({ code, message }) => `${code}: ${withoutPlaces(message)}`).sort(),
    },
    new Map(),
  );
}

/** Messages name lines and columns, which a layout changes. */
function withoutPlaces(message: string): string {
  return message.replace(/\b(lines?|column|to|line|characters; this one has) \d+/g, "$1 N");
}

/** Plain data of it, without places; with `seen` what is met again, such as a line that leads back, is its number. */
function plain(value: unknown, seen: Map<object, number> | null): unknown {
  if (typeof value === "bigint") return `${value}n`;
  if (typeof value !== "object" || value === null) return typeof value === "function" ? null : value;
  const before = seen?.get(value);
  if (before !== undefined) return `#${before}`;
  seen?.set(value, seen.size);
  if (value instanceof Map || value instanceof Set) return [...value].map((each) => plain(each, seen));
  if (Array.isArray(value)) return value.map((each) => plain(each, seen));
  const members = Object.entries(value).filter(([key, each]) => !(PLACES.has(key) && isPlace(each)));
  return Object.fromEntries(members.map(([key, each]) => [key, plain(each, seen)]));
}

function isPlace(value: unknown): boolean {
  if (Array.isArray(value)) return value.every((each) => typeof each === "number");
  return typeof value === "number" || (typeof value === "object" && value !== null && "start" in value);
}

/** A text after edits, which are given for the text as it was. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  const body = text.startsWith("\uFEFF") ? text.slice(1) : text;
  const { lines, ends } = splitLines(body);
  const starts: number[] = [];
  let at = 0;
  for (const [i, line] of lines.entries()) {
    starts.push(at);
    at += line.length + ends[i]!.length;
  }
  const offset = ({ line, character }: TextEdit["range"]["start"]) =>
    line < starts.length ? starts[line]! + character : body.length;
  let out = "";
  let done = 0;
  for (const { range, text: written } of edits) {
    const [from, to] = [offset(range.start), offset(range.end)];
    if (from < done || to < from) throw new Error("edits overlap, or are out of order");
    out += body.slice(done, from) + written;
    done = to;
  }
  return text.slice(0, text.length - body.length) + out + body.slice(done);
}
