/** A dialect as text, made of what was learned. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Want } from "../write/wanted.ts";
import { type AlignedLine, affixesOf } from "./align.ts";
import type { EntryForm } from "./atoms.ts";
import type { Law } from "./law.ts";

/** How one value of an entry is told. */
export interface FactPart {
  readonly law: Law;
  readonly line: AlignedLine;
  readonly at: number;
}

/** An entry with the lines that say it. */
export interface Fact {
  /** `SECTION NAME` of everything that it says. */
  readonly whats: readonly string[];
  readonly want: Want;
  readonly form: EntryForm;
  readonly parts: readonly FactPart[];
  readonly lines: readonly AlignedLine[];
  /** How the key of a family of lines names the entry, behind text that all names begin with; null for one line. */
  readonly key: { readonly prefix: string; readonly law: Law } | null;
}

/** The name of the slot for the key. */
const KEY = "e";

/** Everything that is written, in the order of the catalogue. */
export function dialectText(facts: readonly Fact[], knownBy: string | null, catalogue: Catalogue): string {
  const codes = codesFor(facts);
  const slots = slotsFor(facts);
  const lines: string[] = ['dialect "Learned"'];
  if (knownBy !== null) lines.push("", "text", `  known-by  ${boardQuote(literalOf(knownBy))}`);
  if (codes.lines.length > 0) lines.push("", "codes", ...codes.lines.map((line) => `  ${line}`));
  for (const { name } of catalogue.sections) {
    const sections = new Map<string, Fact[]>();
    for (const fact of facts) {
      const { want, key } = fact;
      if (want.spec.name !== name) continue;
      const title = want.title === null ? null : key ? `{${KEY}}` : want.title;
      const header = title === null ? want.section : `${name} ${quote(title)}`;
      sections.set(header, [...(sections.get(header) ?? []), fact]);
    }
    for (const [header, own] of sections) {
      lines.push("", header);
      const rows = own
        .map((fact) => ({
          under: fact.lines[0]!.under,
          left: fact.lines.map((line) => boardQuote(patternOf(line, fact, slots, codes.nameOf))).join(" "),
          right: rightOf(fact, slots),
        }))
        .sort((a, b) => (a.under ?? "").localeCompare(b.under ?? ""));
      const width = Math.max(...rows.map(({ left }) => left.length));
      let open: string | null = null;
      for (const { under, left, right } of rows) {
        if (under !== open) lines.push(`  under ${boardQuote(literalOf(under!))}`);
        open = under;
        lines.push(`  ${left.padEnd(width)}  ${right}`);
      }
    }
  }
  return `${lines.join("\n")}\n`;
}

/** A left side as it stands in the dialect. */
export function leftText(line: AlignedLine, fact: Fact): string {
  return boardQuote(patternOf(line, fact, slotsFor([fact]), codesFor([fact]).nameOf));
}

function boardQuote(text: string): string {
  return text.includes("'") || !/["\\]/.test(text) ? quote(text) : `'${text}'`;
}

// --- Slots -------------------------------------------------------------------------

/** The name of the slot at a place of a line. */
type Slots = ReadonlyMap<AlignedLine, ReadonlyMap<number, { readonly name: string; readonly law: Law | null }>>;

/** Every token that differs is a slot; those that nothing explains are beside, with what the first text has as default. */
function slotsFor(facts: readonly Fact[]): Slots {
  const laws = new Map<AlignedLine, Map<number, Law>>();
  for (const { parts } of facts)
    for (const part of parts) {
      const own = laws.get(part.line) ?? new Map<number, Law>();
      own.set(part.at, part.law);
      laws.set(part.line, own);
    }
  const slots = new Map<AlignedLine, Map<number, { name: string; law: Law | null }>>();
  for (const { lines } of facts) {
    // Slots of one name tie several lines together, so each line of an entry has names of its own.
    let count = 0;
    for (const line of lines) {
      const before = slots.get(line);
      if (before) {
        count += before.size;
        continue;
      }
      const own = new Map<number, { name: string; law: Law | null }>();
      for (const at of varyingOf(line)) own.set(at, { name: nameAt(count++), law: laws.get(line)?.get(at) ?? null });
      slots.set(line, own);
    }
  }
  return slots;
}

function varyingOf({ pieces, key }: AlignedLine): number[] {
  return pieces[0]!.flatMap(({ isToken }, at) =>
    isToken && at !== key && new Set(pieces.map((each) => each[at]!.text)).size > 1 ? [at] : [],
  );
}

/** Without the one for the key. */
const LETTERS = "abcdfghijklmnopqrstuvwxyz";

function nameAt(count: number): string {
  const letter = LETTERS[count % LETTERS.length]!;
  return count < LETTERS.length ? letter : `${letter}${Math.floor(count / LETTERS.length)}`;
}

function literalOf(text: string): string {
  return text.replaceAll("{", "{{").replaceAll("\t", "{tab}");
}

function patternOf(line: AlignedLine, { key }: Fact, slots: Slots, nameOf: (law: Law) => string | null): string {
  const own = slots.get(line)!;
  return line.pieces[0]!.map(({ text }, at) => {
    const slot = own.get(at);
    if (key && at === line.key) {
      const code = nameOf(key.law);
      return `{${KEY}${code ? `:${code}` : ""}}`;
    }
    if (!slot) return literalOf(text);
    const code = slot.law && nameOf(slot.law);
    if (slot.law === null) return `{${slot.name}=${text}}`;
    const { before, behind } = affixesOf(line.pieces.map((pieces) => pieces[at]!.text));
    return `${before}{${slot.name}${code ? `:${code}` : ""}}${behind}`;
  }).join("");
}

function rightOf({ want, form, parts, key }: Fact, slots: Slots): string {
  const name = key && want.title === null ? `${key.prefix}{${KEY}}` : want.name;
  const values = parts.map((part) => {
    const { name } = slots.get(part.line)!.get(part.at)!;
    const unit = part.law.kind === "plain" && part.law.unit !== "" ? ` ${part.law.unit}` : "";
    return `{${name}}${unit}`;
  });
  const [a, b] = values;
  const bare = slots.get(parts[0]!.line)!.get(parts[0]!.at)!.name;
  // A value in two parts: its unit stands behind the last.
  if (form.kind === "whole" && parts.length > 1) return `${name} ${values.join(" + ")}`;
  switch (form.kind) {
    case "cell":
      if (parts[0]!.law.kind === "bits") return `${name} at {${bare}.column}, {${bare}.row}`;
      return `${name} at ${a}, ${b}`;
    case "fields":
      return `${name} ${form.names.map((field, i) => `${field} ${values[i]}`).join(" ")}`;
    case "range":
      return `${name} ${a} to ${b}`;
    case "size":
      return `${name} ${a} x ${b}`;
    case "text": {
      const [part] = parts;
      const isCode = part?.law.kind === "text" && part.law.within !== "";
      return `${name} ${isCode ? a : `"${a}"`}`;
    }
    case "whole":
      return `${name} ${a}`;
  }
}

// --- Codes -------------------------------------------------------------------------

interface Codes {
  readonly lines: readonly string[];
  nameOf(law: Law): string | null;
}

/** One code for each kind of law, named after the first entry that has it. */
function codesFor(facts: readonly Fact[]): Codes {
  const names = new Map<string, string>();
  const taken = new Set<string>();
  const lines: string[] = [];
  const add = (law: Law, base: string) => {
    const body = bodyOf(law);
    if (body === null || names.has(body)) return;
    let name = base;
    for (let count = 2; taken.has(name); count++) name = `${base}-${count}`;
    taken.add(name);
    names.set(body, name);
    if (law.kind === "list") {
      taken.add(`${name}-item`);
      lines.push(`${name}  list ${name}-item by ${boardQuote(law.by)}`);
      lines.push(`${name}-item  words ${wordsOf(law.pairs)}`);
    } else lines.push(`${name}  ${body}`);
  };
  for (const { want, parts, key } of facts) {
    if (key) add(key.law, want.title === null ? want.name : "name");
    for (const { law } of parts) add(law, law.kind === "bits" ? "place" : want.name);
  }
  return { lines, nameOf: (law) => names.get(bodyOf(law) ?? "") ?? null };
}

function bodyOf(law: Law): string | null {
  switch (law.kind) {
    case "plain":
      return null;
    case "number":
      return `number ${law.clauses}`;
    case "words":
      return `words ${wordsOf(law.pairs)}`;
    case "letters":
      return `letters ${wordsOf(law.pairs)}`;
    case "list":
      return `list ${law.by} ${wordsOf(law.pairs)}`;
    case "set":
      return `set ${law.bits.map(([bit, ours]) => `${bit} ${ours}`).join(", ")}${law.spelling}`;
    case "bits":
      return `bits ${law.clauses}`;
    case "text": {
      if (law.within === "") return null;
      return `text within ${boardQuote(law.within)}${law.escape === "" ? "" : ` escape ${boardQuote(law.escape)}`}`;
    }
  }
}

function wordsOf(pairs: readonly (readonly [theirs: string, ours: string])[]): string {
  return pairs.map(([theirs, ours]) => `${theirs} ${ours}`).join(", ");
}
