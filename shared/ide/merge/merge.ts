/** Three-way merges of scripts: what two people made of one text, put together statement by statement. */
import { type Catalogue, makeCatalogue } from "../../catalogue/catalogue.ts";
import { type ScriptReader, scriptReader } from "../../model/read-script.ts";
import type { Script } from "../../model/script.ts";
import { scriptAnswer } from "../../model/script-limits.ts";
import { type Document, documentOf, rowsOf, usualEnd } from "./document.ts";
import { isHeld } from "./held.ts";
import { mergeLines, trimmed } from "./line-merge.ts";
import { SIDES, type Side } from "./match.ts";
import { mergeDialects } from "./merge-dialects.ts";
import { mergeScripts } from "./merge-scripts.ts";
import { adapted, type Marks, type Piece, textOf } from "./rows.ts";
import { saidOf } from "./sides.ts";

export interface MergeNames {
  /** What stands behind the marks of a conflict; a label may be empty. */
  readonly ours: string;
  readonly base: string;
  readonly theirs: string;
  /** Characters in a mark; 7, as git has it, unless told. */
  readonly markerSize?: number;
  readonly style?: Marks["style"];
}

export interface Merged {
  readonly text: string;
  readonly conflicts: number;
  /** Of each conflict what clashes, in words; lines are those of the text. */
  readonly clashes: readonly { readonly line: number; readonly why: string }[];
}

const BOM = "\uFEFF";

/**
 * Merges two texts that began as one. A statement that one side changed is as that side has it, one that both changed
 * in different ways is a conflict with git's own marks; all else is as in ours, byte for byte, with the line ends of
 * ours. No name says in the result what neither side says. A text that is no script, or too much for one, or of a newer edition,
 * or holds an unresolved merge, is merged line by line. Never throws.
 */
export function mergeTexts(base: string, ours: string, theirs: string, names: MergeNames): Merged {
  if (theirs === base || theirs === ours) return { text: ours, conflicts: 0, clashes: [] };
  if (ours === base) return { text: theirs, conflicts: 0, clashes: [] };
  if ([base, ours, theirs].some(isTooMuch)) return mergeAnyLines(base, ours, theirs, names);
  const marks: Marks = { ...names, markerSize: names.markerSize ?? 7, style: names.style ?? "merge" };
  const catalogue = makeCatalogue();
  // One reader: most lines of the three are the same, and are read once.
  const reader = scriptReader(catalogue);
  const texts = { base, ours, theirs };
  const scripts = {
    base: reader.read("base", base, true),
    ours: reader.read("ours", ours, true),
    theirs: reader.read("theirs", theirs, true),
  };
  const reading = { scripts, texts, catalogue, reader };
  return merged(understood(reading, marks) ?? lineByLine(reading, marks), texts, marks);
}

/** Whether a text is more than is read as a script. */
function isTooMuch(text: string): boolean {
  return scriptAnswer({ kind: "text", text, validUtf8: true }).kind !== "text";
}

/** Merges two texts line by line, as git does, whatever they are. */
export function mergeAnyLines(base: string, ours: string, theirs: string, names: MergeNames): Merged {
  const marks: Marks = { ...names, markerSize: names.markerSize ?? 7, style: names.style ?? "merge" };
  return merged(byLine({ base, ours, theirs }, marks), { base, ours, theirs }, marks);
}

interface Reading {
  readonly scripts: Readonly<Record<Side, Script>>;
  readonly texts: Readonly<Record<Side, string>>;
  readonly catalogue: Catalogue;
  readonly reader: ScriptReader;
}

/** The pieces of a merge by statements; null where the texts are not understood well enough. */
function understood({ scripts, texts, catalogue, reader }: Reading, marks: Marks): readonly Piece[] | null {
  const sides = [scripts.ours, scripts.theirs, ...(texts.base.trim() === "" ? [] : [scripts.base])];
  if (sides.some((script) => script.tree.header === null || !isReadable(script))) return null;
  const kinds = new Set(sides.map(({ kind }) => kind === "dialect"));
  if (kinds.size > 1) return null;
  const documents = documentsOf(scripts);
  if (kinds.has(true)) return mergeDialects(documents, marks.style);
  return mergeScripts({ documents, scripts, catalogue, reader, style: marks.style }) ?? wholeFile(texts);
}

function documentsOf({ base, ours, theirs }: Readonly<Record<Side, Script>>): Readonly<Record<Side, Document>> {
  return { base: documentOf(base.tree), ours: documentOf(ours.tree), theirs: documentOf(theirs.tree) };
}

/** A merge by lines; where it would say of a name what neither side says, both sides whole. */
function lineByLine({ scripts, texts, catalogue, reader }: Reading, marks: Marks): Piece[] {
  const pieces = byLine(texts, marks);
  const isClean = pieces.every(({ kind }) => kind === "rows");
  const isScript = SIDES.every((side) => scripts[side].kind !== "dialect" && isReadable(scripts[side]));
  if (!isClean || !isScript) return pieces;
  const result = reader.read("merged", textOf(pieces, "\n", true, marks), true);
  return isHeld(result, saidOf(scripts, documentsOf(scripts), catalogue), catalogue) ? pieces : wholeFile(texts);
}

/** All of both sides as one conflict, but for what they have alike at the ends. */
function wholeFile({ base, ours, theirs }: Readonly<Record<Side, string>>): Piece[] {
  const [b, o, t] = [base, ours, theirs].map((text) => rowsOf(withoutBom(text)));
  return trimmed(adapted(b!), o!, adapted(t!), "put together, the sides would say what neither does");
}

/** A mark of a conflict, of whatever size. */
const MARK = /^(<{7,}|\|{7,}|={7,}|>{7,})( .*)?$/;

function isReadable({ tree }: Script): boolean {
  return !tree.newer && !tree.lines.some(({ text, node }) => node.kind === "conflict" || MARK.test(text));
}

function byLine({ base, ours, theirs }: Readonly<Record<Side, string>>, marks: Marks): Piece[] {
  const [b, o, t] = [base, ours, theirs].map((text) => rowsOf(withoutBom(text)));
  return mergeLines(b!, o!, adapted(t!), marks.style);
}

function merged(pieces: readonly Piece[], texts: Readonly<Record<Side, string>>, marks: Marks): Merged {
  const clashes: { line: number; why: string }[] = [];
  let line = 0;
  const between = marks.style === "merge" ? 0 : 1;
  for (const piece of pieces) {
    if (piece.kind === "rows") line += piece.rows.length;
    else {
      clashes.push({ line, why: piece.why });
      line += piece.ours.length + piece.theirs.length + 3 + between * (piece.base.length + 1);
    }
  }
  const eol = usualEnd(rowsOf(texts.ours).map(({ end }) => end));
  const text = textOf(pieces, eol, isEnded(texts), marks);
  return { text: (texts.ours.startsWith(BOM) ? BOM : "") + text, conflicts: clashes.length, clashes };
}

/** Whether the last line has a line end: as the side has it that changed that. */
function isEnded({ base, ours, theirs }: Readonly<Record<Side, string>>): boolean {
  const [b, o, t] = [base, ours, theirs].map((text) => text === "" || /[\r\n]$/.test(text));
  return o === b ? t! : o!;
}

function withoutBom(text: string): string {
  return text.startsWith(BOM) ? text.slice(1) : text;
}
