/** A pilot at the keys: what is typed into a document, one key after another. */
import type { Random } from "../random.ts";

/** A place in a text by its offset, how much is taken away there, and what is put in its stead. */
export interface Edit {
  readonly at: number;
  readonly removed: number;
  readonly text: string;
}

export type Key = ({ readonly kind: "edit" } & Edit) | { readonly kind: "undo" };

/** The document as it is at the moment. */
export interface Typed {
  readonly text: string;
}

/** How a pilot goes about it for a while. Each gives its keys one by one, as the text stands before the next. */
type Habit = (document: Typed, phrases: readonly string[], random: Random) => Generator<Key>;

const edit = (at: number, removed: number, text: string): Key => ({ kind: "edit", at, removed, text });

/** The offsets of the beginnings and the ends of a line at random; of an empty text its only one. */
function someLine(text: string, random: Random): { start: number; end: number } {
  const at = random.below(text.length + 1);
  const start = text.lastIndexOf("\n", at - 1) + 1;
  const end = text.indexOf("\n", start);
  return { start, end: end === -1 ? text.length : end };
}

function* letters(at: number, text: string): Generator<Key> {
  for (const [i, letter] of [...text].entries()) yield edit(at + i, 0, letter);
}

/** A line more, letter by letter; now and then the finger slips, and what slipped is taken back. */
function* writesLine(document: Typed, phrases: readonly string[], random: Random): Generator<Key> {
  const { end } = someLine(document.text, random);
  const phrase = random.oneOf(phrases);
  yield edit(end, 0, "\n");
  let at = end + 1;
  for (const letter of phrase.slice(0, 60)) {
    if (random.onceIn(12)) {
      yield edit(at, 0, random.oneOf(["x", "\u00fc", "  ", '"', "7"]));
      if (!random.onceIn(4)) yield edit(at, 1, "");
    }
    yield edit(at, 0, letter);
    at += letter.length;
  }
}

/** Another number in place of one that is there, digit by digit. */
function* changesNumber({ text }: Typed, phrases: readonly string[], random: Random): Generator<Key> {
  const from = random.below(text.length + 1);
  const digits = /\d+/g;
  digits.lastIndex = from;
  const found = digits.exec(text);
  if (!found) return yield* letters(text.length, random.oneOf(phrases).slice(0, 5));
  const { index: at } = found;
  for (let left = found[0].length; left > 0; left--) yield edit(at + left - 1, 1, "");
  yield* letters(at, String(random.below(10 ** random.between(1, 4))));
}

/** Backspace, held down. */
function* deletesBackwards({ text }: Typed, _: readonly string[], random: Random): Generator<Key> {
  const { end } = someLine(text, random);
  for (let at = end; at > Math.max(0, end - random.between(3, 25)); at--) yield edit(at - 1, 1, "");
}

function* removesLines({ text }: Typed, _: readonly string[], random: Random): Generator<Key> {
  const { start } = someLine(text, random);
  let end = start;
  for (let i = random.between(1, 5); i > 0; i--) end = text.indexOf("\n", end) + 1 || text.length;
  yield edit(start, end - start, "");
}

/** Some lines at once, as from another script. */
function* pastes({ text }: Typed, phrases: readonly string[], random: Random): Generator<Key> {
  const from = random.below(phrases.length);
  const { start } = someLine(text, random);
  yield edit(start, 0, `${phrases.slice(from, from + random.between(2, 25)).join("\n")}\n`);
}

function* notes({ text }: Typed, _: readonly string[], random: Random): Generator<Key> {
  yield* letters(someLine(text, random).start, "# ");
}

function* undoes(_: Typed, __: readonly string[], random: Random): Generator<Key> {
  for (let i = random.between(3, 25); i > 0; i--) yield { kind: "undo" };
}

/** A habit as often as it stands here. */
const HABITS: readonly Habit[] = [
  writesLine,
  writesLine,
  writesLine,
  changesNumber,
  changesNumber,
  changesNumber,
  deletesBackwards,
  removesLines,
  pastes,
  notes,
  undoes,
  undoes,
];

/**
 * What is typed for a while, a few keys up to some dozens. The text is looked at once it is its turn, so whoever takes
 * the keys puts each into the document before it asks for the next.
 */
export function keysOf(document: Typed, phrases: readonly string[], random: Random): Generator<Key> {
  return random.oneOf(HABITS)(document, phrases, random);
}
