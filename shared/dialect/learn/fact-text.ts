/** A dialect as text, made of what was learned. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Want } from "../write/wanted.ts";
import { type AlignedLine, affixesOf } from "./align.ts";
import type { EntryForm } from "./atoms.ts";
import type { Law } from "./laws.ts";

/** How one value of an entry is told. */
export interface FactPart {
  readonly law: Law;
  readonly line: AlignedLine;
  readonly at: number;
}

/** An entry with the lines that say it. */
export interface Fact {
  /** `SECTION NAME` */
  readonly what: string;
  readonly want: Want;
  readonly form: EntryForm;
  readonly parts: readonly FactPart[];
  readonly lines: readonly AlignedLine[];
}

/** Everything that is written, in the order of the catalogue. */
export function dialectText(facts: readonly Fact[], knownBy: string | null, catalogue: Catalogue): string {
  const codes = codesFor(facts);
  const slots = slotsFor(facts);
  const lines: string[] = ['dialect "Learned"'];
  if (knownBy !== null) lines.push("", "text", `  known-by  ${boardQuote(knownBy)}`);
  if (codes.lines.length > 0) lines.push("", "codes", ...codes.lines.map((line) => `  ${line}`));
  for (const { name } of catalogue.sections) {
    const sections = new Map<string, Fact[]>();
    for (const fact of facts)
      if (fact.want.spec.name === name)
        sections.set(fact.want.section, [...(sections.get(fact.want.section) ?? []), fact]);
    for (const [section, own] of sections) {
      const { title } = own[0]!.want;
      lines.push("", title === null ? section : `${name} ${quote(title)}`);
      const rows = own.map((fact) => ({
        left: fact.lines.map((line) => boardQuote(patternOf(line, slots, codes.nameOf))).join(" "),
        right: rightOf(fact, slots),
      }));
      const width = Math.max(...rows.map(({ left }) => left.length));
      lines.push(...rows.map(({ left, right }) => `  ${left.padEnd(width)}  ${right}`));
    }
  }
  return `${lines.join("\n")}\n`;
}

/** A left side as it stands in the dialect. */
export function leftText(line: AlignedLine, fact: Fact): string {
  return boardQuote(patternOf(line, slotsFor([fact]), codesFor([fact]).nameOf));
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

function nameAt(count: number): string {
  const letter = String.fromCharCode(97 + (count % 26));
  return count < 26 ? letter : `${letter}${Math.floor(count / 26)}`;
}

function patternOf(line: AlignedLine, slots: Slots, nameOf: (law: Law) => string | null): string {
  const own = slots.get(line)!;
  return line.pieces[0]!.map(({ text }, at) => {
    const slot = own.get(at);
    if (!slot) return text.replaceAll("{", "{{").replaceAll("\t", "{tab}");
    const code = slot.law && nameOf(slot.law);
    if (slot.law === null) return `{${slot.name}=${text}}`;
    const { before, behind } = affixesOf(line.pieces.map((pieces) => pieces[at]!.text));
    return `${before}{${slot.name}${code ? `:${code}` : ""}}${behind}`;
  }).join("");
}

function rightOf({ want, form, parts }: Fact, slots: Slots): string {
  const values = parts.map((part) => {
    const { name } = slots.get(part.line)!.get(part.at)!;
    const unit = part.law.kind === "plain" && part.law.unit !== "" ? ` ${part.law.unit}` : "";
    return `{${name}}${unit}`;
  });
  const [a, b] = values;
  switch (form.kind) {
    case "cell":
      return `${want.name} at ${a}, ${b}`;
    case "fields":
      return `${want.name} ${form.names.map((field, i) => `${field} ${values[i]}`).join(" ")}`;
    case "range":
      return `${want.name} ${a} to ${b}`;
    case "size":
      return `${want.name} ${a} x ${b}`;
    case "text": {
      const [part] = parts;
      const isCode = part?.law.kind === "text" && part.law.within !== "";
      return `${want.name} ${isCode ? a : `"${a}"`}`;
    }
    case "whole":
      return `${want.name} ${a}`;
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
  for (const { want, parts } of facts)
    for (const part of parts) {
      const body = bodyOf(part.law);
      if (body === null || names.has(body)) continue;
      let name = want.name;
      for (let count = 2; taken.has(name); count++) name = `${want.name}-${count}`;
      taken.add(name);
      names.set(body, name);
      lines.push(`${name}  ${body}`);
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
      return `words ${law.pairs.map(([theirs, ours]) => `${theirs} ${ours}`).join(", ")}`;
    case "text":
      return law.within === "" ? null : `text within ${law.within === '"' ? "'\"'" : '"\'"'}`;
  }
}
