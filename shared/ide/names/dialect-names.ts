/** Every name in a dialect: its codes and slots, and the names of scripts on its right sides. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { unitSymbol } from "../../catalogue/units.ts";
import type { Dialect, Meaning } from "../../dialect/dialect.ts";
import type { Script } from "../../model/script.ts";
import type { Cols } from "../../syntax/span.ts";
import type { Section } from "../../syntax/tree.ts";
import { settingsMeant, usesOfCode } from "../dialect-files/code-uses.ts";
import { type FactLine, factLineIn } from "../dialect-files/fact-line.ts";
import type { FactPiece } from "../dialect-files/fact-pieces.ts";
import type { SlotUse } from "../dialect-files/slot-uses.ts";
import { fileName, inside, settingThatFollows, thingNamed } from "./script-names.ts";
import { type SlotGroups, slotGroups, titleSlots } from "./slot-groups.ts";
import { type Named, named, type Occurrence, type Thing, thing } from "./thing.ts";

interface Reading {
  readonly script: Script;
  readonly dialect: Dialect;
  readonly catalogue: Catalogue;
  readonly groups: SlotGroups;
  readonly meanings: ReadonlyMap<number, readonly Meaning[]>;
}

/** The names of a dialect, in order of place. */
export function namesOfDialect(script: Script, dialect: Dialect, catalogue: Catalogue): Occurrence[] {
  const { tree } = script;
  const reading: Reading = {
    script,
    dialect,
    catalogue,
    groups: slotGroups(tree, catalogue),
    meanings: byLine(dialect.meanings),
  };
  const found: Occurrence[] = [];
  const add = (line: number, names: readonly (Named | null)[]) => {
    for (const each of names) if (each) found.push({ line, ...each });
  };
  const header = tree.header === null ? null : tree.lines[tree.header]!.node;
  if (header?.kind === "header" && header.name) add(tree.header!, [fileName(header.name, script.file)]);
  for (const section of tree.sections) {
    add(section.line, headingNames(reading, section));
    for (const line of section.entries) {
      const fact = factLineIn(section.name, tree.lines[line]!, catalogue);
      if (fact) add(line, namesOfFact(reading, fact, line));
    }
  }
  for (const { code, codeSpan } of script.allowances)
    add(codeSpan.line, [named(thing("rule", code), codeSpan, "reads")]);
  return found.sort((a, b) => a.line - b.line || a.start - b.start);
}

function byLine(meanings: readonly Meaning[]): ReadonlyMap<number, readonly Meaning[]> {
  const lines = new Map<number, Meaning[]>();
  for (const meaning of meanings) {
    const list = lines.get(meaning.line);
    if (list) list.push(meaning);
    else lines.set(meaning.line, [meaning]);
  }
  return lines;
}

function headingNames({ script, groups }: Reading, { line }: Section): Named[] {
  const { node } = script.tree.lines[line]!;
  if (node.kind !== "section") return [];
  const names = [named(thing("section", node.name.text), node.name, "writes")];
  const slots = titleSlots(script.tree.lines[line]!);
  for (const { name } of slots) names.push(named(thing("slot", name.text, groups.of(line, name.text)), name, "reads"));
  if (node.title && slots.length === 0 && node.name.text === "pack")
    names.push(named(thing("pack", node.title.text), inside(node.title), "writes", "quoted"));
  return names;
}

function namesOfFact(reading: Reading, fact: FactLine, line: number): (Named | null)[] {
  const text = reading.script.tree.lines[line]!.text;
  const names: (Named | null)[] = fact.slots.flatMap((slot) => namesOfSlot(reading, slot, line));
  const own = ({ start }: FactPiece) => !fact.slots.some((slot) => start >= slot.start && start < slot.end);
  const pieces = fact.pieces.filter((piece) => piece.kind !== "left" && own(piece));
  if (fact.kind === "code") return [...names, ...namesOfCode(reading, fact, pieces, text)];
  if (fact.kind === "text" || fact.kind === "under") return names;
  if (fact.kind === "cannot")
    return [
      ...names,
      ...pieces.filter(({ kind }) => kind !== "keyword").map((piece) => ourName(reading, fact, piece, text)),
    ];
  const setting = settingOf(fact, text);
  for (const piece of pieces) {
    const isHead = fact.head !== null && piece.start >= fact.head.start && piece.end <= fact.head.end;
    const isWhole = isHead && piece.start === fact.head!.start && piece.end === fact.head!.end;
    if (isHead) names.push(isWhole ? ourName(reading, fact, piece, text) : null);
    else names.push(inValue(piece, text, setting));
  }
  return names;
}

/** Our name on a line, as something of the line's section. */
function ourName({ catalogue }: Reading, { section }: FactLine, piece: Cols, text: string): Named | null {
  const what = thingNamed({ text: text.slice(piece.start, piece.end) }, section, catalogue);
  return what && named(what, piece, "writes");
}

/** `SECTION.SETTING` of a line that is about one setting; null where a slot is part of its name. */
function settingOf({ section, head }: FactLine, text: string): string | null {
  const name = head && text.slice(head.start, head.end);
  return name && !name.includes("{") ? `${section}.${name}` : null;
}

function inValue(piece: FactPiece, text: string, setting: string | null): Named | null {
  const word = text.slice(piece.start, piece.end);
  switch (piece.kind) {
    case "mode":
      return named(thing("mode", word), piece, "reads");
    case "unit":
      return named(thing("unit", unitSymbol(word) ?? word), piece, "reads");
    case "field":
      return setting === null ? null : named(thing("field", word, setting), piece, "writes");
    case "choice":
      return setting === null ? null : named(thing("choice", word, setting), piece, "reads");
    default:
      return null;
  }
}

/** The slot, the part of it that is taken, and its code. */
function namesOfSlot(
  { meanings, groups }: Reading,
  { name, part, how, side }: SlotUse,
  line: number,
): (Named | null)[] {
  const own =
    name.text === ""
      ? null
      : named(thing("slot", name.text, groups.of(line, name.text)), name, side === "left" ? "defines" : "reads");
  const code = part && part.text !== "" ? codeOf(meanings.get(line) ?? [], name.text) : null;
  return [
    own,
    part && code !== null ? named(thing("part", part.text, code), part, "reads") : null,
    how?.isCode && how.text !== "" ? named(thing("code", how.text), how, "reads") : null,
  ];
}

/** The name of a slot's code, wherever it is said; null where it has none. */
function codeOf(meanings: readonly Meaning[], slot: string): string | null {
  for (const { lefts } of meanings)
    for (const { pattern, under } of lefts) {
      const found = pattern.slots.get(slot) ?? (under.kind === "heading" ? under.pattern.slots.get(slot) : undefined);
      if (found) return found.code?.name ?? null;
    }
  return null;
}

/** A code's own name, the codes that it holds, its parts, and our words in it. */
function namesOfCode(
  reading: Reading,
  { head }: FactLine,
  pieces: readonly FactPiece[],
  text: string,
): (Named | null)[] {
  if (!head) return [];
  const code = text.slice(head.start, head.end);
  const ours = meantBy(reading, code);
  return pieces.map((piece) => {
    const word = text.slice(piece.start, piece.end);
    if (piece.start === head.start) return named(thing("code", code), piece, "defines");
    if (piece.kind === "code") return named(thing("code", word), piece, "reads");
    if (piece.kind === "slot") return named(thing("part", word, code), piece, "defines");
    if (piece.kind === "unit") return named(thing("unit", unitSymbol(word) ?? word), piece, "reads");
    if (piece.kind === "string") return packNamed(reading, code, piece, word);
    const what = isOurs(piece) ? ours(word) : null;
    return what && named(what, piece, "reads");
  });
}

/** A text of ours in a code that names packs, as `pack "{n}"` takes them. */
function packNamed({ dialect }: Reading, code: string, piece: FactPiece, word: string): Named | null {
  const isTitle = usesOfCode(dialect, code).some(({ meaning: { title, lefts } }) =>
    title?.some(
      (part) =>
        typeof part === "object" && lefts.some(({ pattern }) => pattern.slots.get(part.slot)?.code?.name === code),
    ),
  );
  const at = inside(piece);
  const name = word.slice(1, -1).replace(/\\(["\\])/g, "$1");
  return isTitle && word.startsWith('"') && at.end > at.start
    ? named(thing("pack", name), at, "reads", "quoted")
    : null;
}

function isOurs({ kind }: FactPiece): boolean {
  return kind === "choice" || kind === "mode" || kind === "element" || kind === "setting";
}

/** What our words in a code are names of, by the lines that use the code. */
function meantBy({ dialect, catalogue }: Reading, code: string): (word: string) => Thing | null {
  const uses = usesOfCode(dialect, code);
  const sections = new Set(uses.filter(({ as }) => as === "name").map(({ meaning }) => meaning.section));
  const values = new Set(
    uses
      .filter(({ as }) => as === "value")
      .flatMap(({ meaning }) => settingsMeant(meaning, catalogue).map(({ name }) => `${meaning.section}.${name}`)),
  );
  const [only] = values.size === 1 ? values : [];
  return (word) => {
    for (const section of sections) {
      const what = thingNamed({ text: word }, section, catalogue);
      if (what) return what;
    }
    if (only !== undefined && sections.size === 0) return thing("choice", word, only);
    if (catalogue.mode(word)) return thing("mode", word);
    return catalogue.element(word) ? thing("element", word) : settingThatFollows(word, catalogue);
  };
}
