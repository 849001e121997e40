/** The script that a board's text becomes: sections and names in the catalogue's order, kept lines last. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { readEntry } from "../../model/read-entry.ts";
import { layOutRun, type Row } from "../../model/rows.ts";
import { cellsOf } from "../../model/value-cells.ts";
import { quote } from "../../syntax/scanner.ts";
import type { JoinedEntry } from "./sayings.ts";

export interface MadeScript {
  readonly text: string;
  /** For each line of the script the lines of the board's text from which it comes. */
  readonly from: readonly (readonly number[])[];
}

/** A line of board text that is kept. */
export interface KeptLine {
  readonly line: number;
  readonly text: string;
}

/** What a script is made of. */
export interface ScriptParts {
  readonly name: string;
  /** Paths for `use` lines, from where the script will stand. */
  readonly uses: readonly string[];
  readonly entries: readonly JoinedEntry[];
  readonly dialect: string;
  readonly kept: readonly KeptLine[];
}

const NONE: readonly number[] = [];

/** The script in the canonical layout: indented by two, the values of each section in one column. */
export function scriptText({ name, uses, entries, dialect, kept }: ScriptParts, catalogue: Catalogue): MadeScript {
  const lines: string[] = [`craft ${quote(name)}`];
  const from: (readonly number[])[] = [NONE];
  const push = (text: string, source = NONE) => {
    lines.push(text);
    from.push(source);
  };
  if (uses.length > 0) push("");
  for (const path of uses) push(`use ${quote(path)}`);
  for (const group of inSections(entries, catalogue)) {
    const [{ spec, title }] = group as [JoinedEntry];
    push("");
    push(title === null ? spec.name : `${spec.name} ${quote(title)}`);
    const rows = group.map((entry, line) => rowOf(entry, line, catalogue));
    for (const { line, text } of layOutRun(rows)) push(text, group[line]!.lines);
  }
  if (kept.length > 0) {
    push("");
    push(`verbatim ${quote(dialect)}`);
    for (const { line, text } of kept) push(`  |${text}`, [line]);
  }
  return { text: `${lines.join("\n")}\n`, from };
}

/** An entry as a row of its section: its fields, if it has some, stand below those of others. */
function rowOf({ name, rest, spec }: JoinedEntry, line: number, catalogue: Catalogue): Row {
  const head = { text: name, start: 0, end: name.length };
  const text = `${name} ${rest}`;
  const at = { start: name.length + 1, end: text.length };
  const cells = cellsOf(text, at, readEntry(text, head, at, spec, catalogue));
  return { line, head: `  ${name}`, cells, comment: null };
}

/** The entries of each section, both in the catalogue's order; named packs and numbered entries as they come. */
function inSections(entries: readonly JoinedEntry[], catalogue: Catalogue): JoinedEntry[][] {
  const groups = new Map<string, JoinedEntry[]>();
  for (const entry of entries) {
    const group = groups.get(entry.section);
    if (group) group.push(entry);
    else groups.set(entry.section, [entry]);
  }
  const places = new Map(catalogue.sections.map((spec, i) => [spec.name, i]));
  const placeOf = ([entry]: readonly JoinedEntry[]) => places.get(entry!.spec.name) ?? 0;
  const sorted = [...groups.values()].sort(
    (a, b) => placeOf(a) - placeOf(b) || Number(a[0]!.title !== null) - Number(b[0]!.title !== null),
  );
  const orders = new Map<SectionSpec, ReadonlyMap<string, number>>();
  for (const group of sorted) {
    const { spec } = group[0]!;
    const order = orders.get(spec) ?? namesOf(spec, catalogue);
    orders.set(spec, order);
    const placeIn = ({ name }: JoinedEntry) => order.get(name) ?? order.size;
    // Numbered ones stand together, where the first of them by name would.
    let first = order.size;
    for (const entry of group) if (entry.isNumbered) first = Math.min(first, placeIn(entry));
    const rank = (entry: JoinedEntry) => (entry.isNumbered ? first : placeIn(entry));
    group.sort((a, b) => rank(a) - rank(b));
  }
  return sorted;
}

/** The names of a section in their order; those that pilots give have none, and stay as they come. */
function namesOf(spec: SectionSpec, catalogue: Catalogue): ReadonlyMap<string, number> {
  const names = [
    ...catalogue.settingsOf(spec.name).map(({ name }) => name),
    ...(spec.holds === "places" ? catalogue.elements.map(({ name }) => name) : []),
    ...(spec.holds === "modes" ? catalogue.modes.map(({ name }) => name) : []),
  ];
  return new Map(names.map((name, i) => [name, i]));
}
