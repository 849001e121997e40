/**
 * A line of a dialect in pieces: its words with what each of them is. It asks for less than `shared/dialect`, which reads
 * whole dialects, since it has to tell something of lines that are still being written.
 */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { unitSymbol } from "../../catalogue/units.ts";
import { OWN_SECTIONS } from "../../dialect/sections.ts";
import { adjustable } from "../../model/read-entry.ts";
import type { Cols } from "../../syntax/span.ts";
import type { Line, Tree } from "../../syntax/tree.ts";
import type { FactPiece, FactPieceKind } from "./fact-pieces.ts";
import { type FactScan, factScan } from "./fact-scan.ts";
import type { SlotUse } from "./slot-uses.ts";

export interface FactLine {
  /** `line`: left sides and what they mean. */
  readonly kind: "text" | "code" | "under" | "cannot" | "line";
  readonly section: string;
  /** Of the section; null for `text` and `codes`. */
  readonly spec: SectionSpec | null;
  /** In order, without overlaps. */
  readonly pieces: readonly FactPiece[];
  readonly slots: readonly SlotUse[];
  /** Board text with its quotes; `closed` is false where the closing one is missing. */
  readonly texts: readonly (Cols & { readonly closed: boolean })[];
  /** The first word: a fact of `text`, a code's name, `under`, `cannot`, or our name; null without. */
  readonly head: Cols | null;
}

/** The section of a dialect's line: the last one above it. */
export function sectionOfFact(tree: Tree, line: number): string | null {
  const section = tree.sections.findLast((each) => each.line < line);
  return section?.name ?? null;
}

const known = new WeakMap<Catalogue, WeakMap<Line, Map<string, FactLine>>>();

/** The pieces of a fact's line; null for any other line. Remembered by the line's text. */
export function factLineAt(tree: Tree, line: number, catalogue: Catalogue): FactLine | null {
  const section = sectionOfFact(tree, line);
  const at = tree.lines[line];
  return at && section !== null ? factLineIn(section, at, catalogue) : null;
}

/** The same, for a line whose section is known. */
export function factLineIn(section: string, line: Line, catalogue: Catalogue): FactLine | null {
  if (line.node.kind !== "fact") return null;
  const byLine = known.get(catalogue) ?? new WeakMap<Line, Map<string, FactLine>>();
  known.set(catalogue, byLine);
  const bySection = byLine.get(line) ?? new Map<string, FactLine>();
  byLine.set(line, bySection);
  const found = bySection.get(section) ?? readFactLine(section, line.text, line.node.content, catalogue);
  bySection.set(section, found);
  return found;
}

/** What is being read, and by which words. */
interface Reading {
  readonly scan: FactScan;
  readonly text: string;
  readonly spec: SectionSpec | null;
  readonly catalogue: Catalogue;
}

function readFactLine(section: string, text: string, content: Cols, catalogue: Catalogue): FactLine {
  const scan = factScan(text, content);
  const spec = isOwn(section) ? null : (catalogue.section(section) ?? null);
  const reading = { scan, text, spec, catalogue };
  const read = section === "text" ? readText(reading) : section === "codes" ? readCode(reading) : readMapped(reading);
  return { ...read, section, spec, pieces: scan.pieces, slots: scan.slots, texts: scan.texts };
}

function isOwn(section: string): boolean {
  return OWN_SECTIONS.some((each) => each === section);
}

type Head = Pick<FactLine, "kind" | "head">;

function readText({ scan }: Reading): Head {
  const head = scan.word("keyword");
  while (scan.more()) if (!scan.quoted("left") && !scan.number() && !scan.word("choice")) scan.sign();
  return { kind: "text", head };
}

const CODE_WORDS: Readonly<Record<string, readonly string[]>> = {
  number: ["to", "from", "each", "into", "places", "unset", "base", "digits"],
  list: ["by"],
  bits: ["is", "or", "unset", "base", "digits"],
  set: ["base", "digits"],
  text: ["within", "escape", "longest"],
};

function readCode(reading: Reading): Head {
  const { scan, text } = reading;
  const head = scan.word("code");
  const kind = scan.more() ? scan.word("keyword") : null;
  const named = kind ? text.slice(kind.start, kind.end) : "";
  if (named === "words" || named === "letters") readPairs(reading);
  else while (scan.more()) readCodePiece(reading, named);
  return { kind: "code", head };
}

const BARE = /[^\s,"'#]+/y;

/** `THEIRS OURS, THEIRS OURS` */
function readPairs(reading: Reading): void {
  const { scan } = reading;
  for (let isOurs = false; scan.more(); isOurs = true) {
    if (scan.next() === ",") {
      scan.sign();
      if (scan.more()) readTheirs(scan);
    } else if (isOurs) readOurs(reading);
    else readTheirs(scan);
  }
}

function readTheirs(scan: FactScan): void {
  if (!scan.quoted("left") && !scan.match(BARE, "left")) scan.sign();
}

function readOurs({ scan, text, catalogue }: Reading): void {
  if (scan.match(/unset(?![\w-])/y, "keyword") || scan.quoted("string")) return;
  const word = scan.word("choice");
  if (word) scan.rename(kindOfName(text.slice(word.start, word.end), catalogue) ?? "choice");
  else if (!scan.number()) scan.sign();
}

/** One piece of a code, behind its kind. */
function readCodePiece({ scan, text, catalogue }: Reading, kind: string): void {
  if (scan.quoted("left") || scan.number()) return;
  if (kind === "bits" && scan.next() === ":") {
    scan.sign();
    scan.word("code");
    return;
  }
  const before = scan.pieces.at(-1);
  const word = scan.word("choice");
  if (!word) {
    // A mark around a text may be any sign.
    if (kind !== "text" || !scan.match(/\S/y, "left")) scan.sign();
    return;
  }
  const said = text.slice(word.start, word.end);
  if (CODE_WORDS[kind]?.includes(said)) scan.rename("keyword");
  else if (kind === "list" && before?.kind === "keyword") scan.rename("code");
  else if (kind === "number" && before?.kind === "number" && unitSymbol(said) !== undefined) scan.rename("unit");
  else if (kind === "bits") scan.rename("slot");
  else scan.rename(kindOfName(said, catalogue) ?? "choice");
}

function readMapped(reading: Reading): Head {
  const { scan, text } = reading;
  const first = scan.match(/(?:under|cannot)(?![\w-])/y, "keyword");
  if (first && text.startsWith("under", first.start)) {
    while (scan.more()) if (!scan.quoted("left")) scan.sign();
    return { kind: "under", head: first };
  }
  if (first) {
    while (scan.more()) if (!scan.match(/all(?![\w-])/y, "keyword") && !takeName(reading)) scan.sign();
    return { kind: "cannot", head: first };
  }
  while (scan.more() && scan.quoted("left"));
  const head = readHead(reading);
  const fields = fieldsOf(reading, head);
  while (scan.more()) readValuePiece(reading, fields);
  return { kind: "line", head };
}

/** Our name, which slots may be part of. */
function readHead(reading: Reading): Cols | null {
  const { scan } = reading;
  const before = scan.pieces.length;
  for (let isFirst = true; scan.more() && (isFirst || !scan.afterBlank()); isFirst = false)
    if (!scan.slot() && !takeName(reading)) scan.sign();
  const [first] = scan.pieces.slice(before);
  return first ? { start: first.start, end: scan.pieces.at(-1)!.end } : null;
}

function takeName({ scan, text, spec, catalogue }: Reading): boolean {
  const word = scan.word("choice");
  if (word) scan.rename(kindIn(spec, text.slice(word.start, word.end), catalogue));
  return word !== null;
}

function kindIn(spec: SectionSpec | null, name: string, catalogue: Catalogue): FactPieceKind {
  if (name === "unset") return "keyword";
  switch (spec?.holds) {
    case "modes":
      return "mode";
    case "outputs":
      return "output";
    case "places":
      return catalogue.element(name) ? "element" : "setting";
    default:
      return spec ? "setting" : "choice";
  }
}

/** What a name is that may be one of any section. */
function kindOfName(name: string, catalogue: Catalogue): FactPieceKind | null {
  if (catalogue.mode(name)) return "mode";
  if (catalogue.element(name)) return "element";
  return adjustable(name, catalogue) ? "setting" : null;
}

/** What may stand in a value besides names, numbers and words of a setting. */
const VALUE_WORDS: ReadonlySet<string> = new Set(
  "when at follows from to in and or not always unset curve stick abs sign min max".split(" "),
);

function readValuePiece({ scan, text, spec, catalogue }: Reading, fields: ReadonlySet<string>): void {
  const before = scan.pieces.at(-1);
  if (scan.quoted("string") || scan.slot() || scan.number()) return;
  const word = scan.word("choice");
  if (!word) {
    scan.sign();
    return;
  }
  const said = text.slice(word.start, word.end);
  const isAmount = before?.kind === "slot" || before?.kind === "number";
  if (fields.has(said)) scan.rename("field");
  else if (VALUE_WORDS.has(said)) scan.rename("keyword");
  else if (isAmount && unitSymbol(said) !== undefined) scan.rename("unit");
  else if ((spec?.holds === "modes" || spec?.holds === "outputs") && catalogue.mode(said)) scan.rename("mode");
}

const NO_FIELDS: ReadonlySet<string> = new Set();

/** The names of the fields that the value of a line may have. */
function fieldsOf({ text, spec, catalogue }: Reading, head: Cols | null): ReadonlySet<string> {
  if (!spec || !head) return NO_FIELDS;
  const said = text.slice(head.start, head.end);
  const settings = catalogue.settingsOf(spec.name).filter(({ name }) => name === said || said.includes("{"));
  return new Set(
    settings.flatMap(({ types }) =>
      types.flatMap((type) => (type.is === "fields" ? type.fields.map(({ name }) => name) : [])),
    ),
  );
}
