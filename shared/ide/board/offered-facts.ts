/** The facts by which a board line could mean a value: each piece of the value in each piece of the line that can be it. */
import { unitFamily } from "../../catalogue/units.ts";
import { decode, decodeSlot } from "../../dialect/codes/codes.ts";
import { CHANNEL, sameHeld } from "../../dialect/codes/held.ts";
import type { Code, Dialect, Held, Left } from "../../dialect/dialect.ts";
import { compareExact } from "../../dialect/exact.ts";
import { type BoardToken, boardTokens } from "../../dialect/learn/board-tokens.ts";
import { codeTextOf, type Means, type TokenFit, tokensFor } from "../../dialect/learn/tokens-for.ts";
import type { Match } from "../../dialect/patterns/match.ts";
import type { DialectLines, NewCode } from "./dialect-edits.ts";
import { codeName, eachOnce, leftText, type PlacedSlot, placedSlots, slotName } from "./fact-text.ts";
import type { RightText, ValuePiece } from "./value-pieces.ts";

/** What is to be written so that a line means something. */
export interface OfferedFact {
  readonly lines: DialectLines;
  readonly how: string;
  /** Whether a number of the line may be any other. */
  readonly leavesOpen: boolean;
}

/** The board line that is named, and the left side that fits it already. */
export interface NamedLine {
  readonly text: string;
  readonly section: string;
  readonly name: string;
  readonly right: RightText;
  readonly fits: { readonly left: Left; readonly match: Match } | null;
}

/** More ways than anyone reads through. */
const MOST_OFFERS = 8;
/** Of each piece of a value so many pieces of the line are tried together with the others. */
const MOST_EACH = 5;

/** The likeliest first. Each has yet to be tried out on the text. */
export function offeredFacts(dialect: Dialect, line: NamedLine): readonly OfferedFact[] {
  const { right, text } = line;
  const offers: OfferedFact[] = [...newWords(line)];
  const choices = right.pieces.map(({ held }) => knownFirst(line, tokensFor(text, held), held).slice(0, MOST_EACH));
  for (const picked of combinations(choices)) {
    if (offers.length >= MOST_OFFERS) break;
    const strict = factOf(dialect, line, picked, []);
    if (strict) offers.push(strict);
    const others = otherNumbers(line, picked);
    const loose = others.length > 0 ? factOf(dialect, line, picked, others) : null;
    if (loose) offers.push(loose);
  }
  // A line without anything that varies: the whole of it says so.
  if (!line.fits || line.fits.left.pattern.slots.size === 0) offers.push(wholeLine(line));
  return offers;
}

/** What the dialect reads as the value already is the likeliest piece to be it. */
function knownFirst({ text, fits }: NamedLine, tokens: readonly TokenFit[], held: Held): readonly TokenFit[] {
  if (!fits) return tokens;
  const known = placedSlots(fits.left, fits.match).filter(({ name, start, end }) => {
    const means = decodeSlot(fits.left.pattern.slots.get(name)!, text.slice(start, end));
    return means.kind !== "bad" && sameHeld(held, means);
  });
  const isKnown = ({ token }: TokenFit) => known.some((each) => each.start === token.start && each.end === token.end);
  return [...tokens.filter(isKnown), ...tokens.filter((each) => !isKnown(each))];
}

/** A piece of the line for each piece of the value; null where the value stays as it is. */
type Picked = readonly (TokenFit | null)[];

/** Pieces that do not overlap, by how likely each is; at least one piece of the line has to be picked. */
function combinations(choices: readonly (readonly TokenFit[])[]): readonly Picked[] {
  let made: { picked: Picked; cost: number }[] = [{ picked: [], cost: 0 }];
  for (const fits of choices) {
    made = made.flatMap(({ picked, cost }) => [
      ...fits.flatMap((fit, i) => {
        const isFree = picked.every((other) => !other || !overlap(other.token, fit.token));
        // Boards mostly say things in the order in which we do.
        const last = picked.findLast((other) => other !== null);
        const back = last && last.token.start > fit.token.start ? 2 : 0;
        return isFree ? [{ picked: [...picked, fit], cost: cost + i + back }] : [];
      }),
      { picked: [...picked, null], cost: cost + 20 },
    ]);
    made = made.sort((a, b) => a.cost - b.cost).slice(0, 4 * MOST_OFFERS);
  }
  return made.map(({ picked }) => picked).filter((picked) => picked.some((fit) => fit !== null));
}

function overlap(a: BoardToken, b: BoardToken): boolean {
  return a.start < b.end && b.start < a.end;
}

/** Numbers of the line that nothing was picked for: what they are does not matter then. */
function otherNumbers({ text, fits }: NamedLine, picked: Picked): readonly BoardToken[] {
  const known = fits ? placedSlots(fits.left, fits.match) : [];
  const taken = [...known, ...picked.flatMap((fit) => fit?.token ?? [])];
  return boardTokens(text).filter(
    (token) => token.kind === "number" && !taken.some((each) => each.start < token.end && token.start < each.end),
  );
}

function factOf(dialect: Dialect, line: NamedLine, picked: Picked, beside: readonly BoardToken[]): OfferedFact | null {
  const { text, right, fits, section, name } = line;
  if (fits && !eachOnce(fits.left)) return null;
  const known = fits ? placedSlots(fits.left, fits.match) : [];
  const slots = [...known];
  const codes: NewCode[] = [];
  const names = new Set(known.map((slot) => slot.name));
  const refs: string[] = [];
  for (const [i, fit] of picked.entries()) {
    const piece = right.pieces[i]!;
    if (!fit) {
      refs.push(right.text.slice(piece.start, piece.end));
      continue;
    }
    const at = slots.findIndex((slot) => slot.start < fit.token.end && fit.token.start < slot.end);
    const old = slots[at];
    if (old) {
      const ref = asKnown(old, fit, piece, line);
      if (ref === "rewrite") {
        const code = codeFor(dialect, fit.means, piece, codes);
        slots[at] = { ...old, code };
        refs.push(refText(old.name, fit.means));
      } else if (ref === null) return null;
      else refs.push(ref);
      continue;
    }
    const slot = slotName(piece.of, names);
    names.add(slot);
    const code = codeFor(dialect, fit.means, piece, codes);
    slots.push({ name: slot, code, default: null, start: fit.token.start, end: fit.token.end });
    refs.push(refText(slot, fit.means));
  }
  for (const token of beside) {
    const slot = slotName("", names);
    names.add(slot);
    slots.push({ name: slot, code: null, default: token.text, start: token.start, end: token.end });
  }
  const again = fits?.left.meanings.map((meaning) => meaning.line).sort((a, b) => a - b) ?? [];
  const isSame = fits !== null && slots.every((slot) => known.includes(slot));
  return {
    lines: {
      fact: {
        section,
        left: leftText(text, slots, again.length > 0 ? "again" : "first"),
        right: `${name} ${rightText(right, refs)}`,
      },
      lefts: isSame
        ? []
        : [...new Set(again)].map((each, i) => ({
            line: each,
            left: leftText(text, slots, i === 0 ? "first" : "again"),
          })),
      codes,
    },
    how: picked.flatMap((fit) => (fit ? howInWords(fit) : [])).join(", ") + besideInWords(beside),
    leavesOpen: beside.length > 0,
  };
}

/** The slot that holds the piece already: as it is, with another code, or not at all. */
function asKnown(
  old: PlacedSlot,
  fit: TokenFit,
  { held }: ValuePiece,
  { text, fits }: NamedLine,
): string | "rewrite" | null {
  if (old.start !== fit.token.start || old.end !== fit.token.end) return null;
  const { left } = fits!;
  const slot = left.pattern.slots.get(old.name)!;
  // Without a code the board writes what a script does, in whatever unit stands behind it.
  if (slot.code === null && fit.means.kind === "plain") return refText(old.name, fit.means);
  const means = decodeSlot(slot, text.slice(old.start, old.end));
  if (means.kind !== "bad" && sameHeld(held, means)) return refText(old.name, plainOf(means, fit.means));
  return slot.code === null && left.beside.includes(old.name) && fit.means.kind !== "plain" ? "rewrite" : null;
}

/** A number that a slot without a code holds has its unit on the right. */
function plainOf(means: Held, fit: Means): Means {
  return means.kind === "number" && means.unit !== "" ? { kind: "plain", unit: "" } : fit;
}

function refText(slot: string, means: Means): string {
  return means.kind === "plain" && means.unit !== "" ? `{${slot}} ${means.unit}` : `{${slot}}`;
}

function rightText({ text, pieces }: RightText, refs: readonly string[]): string {
  let made = "";
  let at = 0;
  for (const [i, { start, end }] of pieces.entries()) {
    made += text.slice(at, start).replace(/ {2,}/g, " ") + refs[i]!;
    at = end;
  }
  return made + text.slice(at);
}

/** The name of a code that means the same, else of a new one; null where none is needed. */
function codeFor(dialect: Dialect, means: Means, piece: ValuePiece, made: NewCode[]): string | null {
  const says = codeTextOf(means);
  if (says === null) return null;
  const old = [...dialect.codes.values()].find((code) => isThat(code, means));
  if (old) return old.name;
  const again = made.find((code) => code.says === says);
  if (again) return again.name;
  const name = codeName(nameFor(means, piece), dialect.codes, new Set(made.map((code) => code.name)));
  made.push({ name, says });
  return name;
}

function nameFor(means: Means, { of }: ValuePiece): string {
  if (means.kind !== "number") return of;
  return means.unit === CHANNEL ? "channel" : (unitFamily(means.unit)?.name ?? of);
}

function isThat(code: Code, means: Means): boolean {
  switch (means.kind) {
    case "number": {
      if (code.kind !== "number" || code.channels !== (means.unit === CHANNEL) || code.into) return false;
      const isUnit = code.channels || code.unit === means.unit;
      return (
        isUnit &&
        compareExact(code.each, means.each) === 0 &&
        compareExact(code.from, means.from) === 0 &&
        code.places === means.places &&
        code.base === means.base &&
        code.digits === means.digits
      );
    }
    case "words": {
      if (code.kind !== "words") return false;
      const held = decode(code, means.theirs);
      return means.ours === null ? held.kind === "unset" : held.kind === "word" && held.text === means.ours;
    }
    case "text":
      return code.kind === "text" && code.within === means.within && code.escape === "";
    default:
      return false;
  }
}

/** A left side that fits but for a word that its code does not know: the word alone is written. */
function newWords({ text, right, fits, section, name }: NamedLine): readonly OfferedFact[] {
  const [piece] = right.pieces;
  if (!fits || !piece || right.pieces.length > 1) return [];
  return placedSlots(fits.left, fits.match).flatMap((slot): OfferedFact[] => {
    const spec = fits.left.pattern.slots.get(slot.name)!;
    const theirs = text.slice(slot.start, slot.end);
    const isOfName = fits.left.meanings.some(
      (meaning) => meaning.section === section && meaning.right.name.join("") === name,
    );
    if (!isOfName || spec.code?.kind !== "words" || decode(spec.code, theirs).kind !== "bad") return [];
    const ours = right.text.slice(piece.start, piece.end);
    const says = codeTextOf({ kind: "words", theirs, ours: ours === "unset" ? null : ours })!;
    return [
      {
        lines: { fact: null, lefts: [], codes: [{ name: spec.code.name, says }] },
        how: `“${theirs}” is one more word of “${spec.code.name}”`,
        leavesOpen: false,
      },
    ];
  });
}

function wholeLine({ text, section, name, right }: NamedLine): OfferedFact {
  return {
    lines: {
      fact: { section, left: leftText(text, [], "first"), right: `${name} ${right.text}` },
      lefts: [],
      codes: [],
    },
    how: "the whole line says so",
    leavesOpen: false,
  };
}

function howInWords({ token: { text }, how, means }: TokenFit): string {
  switch (how) {
    case "same":
      return `“${text}” as it stands`;
    case "word":
      return means.kind === "letters" ? `“${text}” letter by letter` : `“${text}” is a word for it`;
    case "power":
    case "step": {
      if (means.kind === "plain") return `“${text}” in ${means.unit}`;
      const says = codeTextOf(means)!.replace(/^number /, "");
      return how === "step" ? `“${text}” counts steps: ${says}` : `“${text}” has its point elsewhere: ${says}`;
    }
  }
}

function besideInWords(beside: readonly BoardToken[]): string {
  const texts = beside.map(({ text }) => `“${text}”`);
  return texts.length === 0 ? "" : `; ${texts.join(", ")} may be anything`;
}
