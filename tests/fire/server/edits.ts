/** Edits at random: as a pilot types, cuts and pastes, and as nobody does. */
import type { Random } from "../random.ts";
import type { Change } from "./editor.ts";
import { HOSTILE, LINES, strayText, TEXTS, WORDS } from "./scene.ts";

type Place = { readonly line: number; readonly character: number };

/** A place in the text, at times beyond the end of its line or of the text. */
export function placeIn(text: string, random: Random): Place {
  if (random.onceIn(25))
    return { line: random.oneOf([0, 7, 99_999, 2147483647]), character: random.oneOf([0, 3, 5000, 2147483647]) };
  const lines = text.split("\n");
  const line = random.below(lines.length);
  return { line, character: random.below(lines[line]!.length + 1) };
}

/** A stretch of the text, now and then from its end to its beginning. */
export function rangeIn(text: string, random: Random): { start: Place; end: Place } {
  const [a, b] = [placeIn(text, random), placeIn(text, random)];
  const isInOrder = a.line < b.line || (a.line === b.line && a.character <= b.character);
  return isInOrder || random.onceIn(10) ? { start: a, end: b } : { start: b, end: a };
}

const lineRange = (from: number, to: number) => ({
  start: { line: from, character: 0 },
  end: { line: to, character: 0 },
});

/** A word of the text, and where it stands; the beginning of the text where there is none. */
function wordIn(text: string, random: Random) {
  const lines = text.split("\n");
  const line = random.below(lines.length);
  const words = [...lines[line]!.matchAll(/[\w.-]+|[^\s\w]/g)];
  if (words.length === 0) return { word: "", range: lineRange(line, line) };
  const { 0: word, index } = random.oneOf(words);
  return { word, range: { start: { line, character: index }, end: { line, character: index + word.length } } };
}

type Edit = (text: string, random: Random) => Change;

const EDITS: readonly Edit[] = [
  // A word is replaced by another, or by another number.
  (text, random) => {
    const { word, range } = wordIn(text, random);
    const isNumber = /^\d/.test(word);
    return { range, text: isNumber ? String(random.oneOf([0, 1, 3, 5, 8, 100, 1500, 99_999])) : random.oneOf(WORDS) };
  },
  (text, random) => ({ range: wordIn(text, random).range, text: "" }),
  (text, random) => {
    const { start } = wordIn(text, random).range;
    return { range: { start, end: start }, text: `${random.oneOf(WORDS)} ` };
  },
  // A key.
  (text, random) => {
    const at = placeIn(text, random);
    return { range: { start: at, end: at }, text: random.oneOf([...'abz019 .-,"#\n']) };
  },
  (text, random) => {
    const { line, character } = placeIn(text, random);
    return { range: { start: { line, character: Math.max(0, character - 1) }, end: { line, character } }, text: "" };
  },
  // Lines come, go, are doubled and indented.
  (text, random) => {
    const { line } = placeIn(text, random);
    return { range: lineRange(line, line), text: `${random.oneOf(LINES)}\n` };
  },
  (text, random) => {
    const { line } = placeIn(text, random);
    return { range: lineRange(line, Math.min(2147483647, line + random.between(1, 3))), text: "" };
  },
  (text, random) => {
    const lines = text.split("\n");
    const line = random.below(lines.length);
    return { range: lineRange(line, line), text: `${lines[line]}\n` };
  },
  (text, random) => {
    const { line } = placeIn(text, random);
    return { range: lineRange(line, line), text: random.oneOf(["  ", "    ", "\t"]) };
  },
  // A section goes, or comes from another file.
  (text, random) => {
    const heads = text.split("\n").flatMap((line, i) => (/^\S/.test(line) ? [i] : []));
    const at = random.below(Math.max(1, heads.length));
    return { range: lineRange(heads[at] ?? 0, heads[at + 1] ?? 99_999), text: "" };
  },
  (text, random) => {
    const { line } = placeIn(text, random);
    const sections = random.oneOf([...TEXTS.values()]).split(/\n(?=\S)/);
    return { range: lineRange(line, line), text: `${random.oneOf(sections)}\n` };
  },
  // What is hostile: signs, long lines, the whole text, and any stretch of it.
  (text, random) => {
    const at = placeIn(text, random);
    return { range: { start: at, end: at }, text: random.oneOf(HOSTILE) };
  },
  (text, random) => ({
    range: rangeIn(text, random),
    text: random.oneOf(["", "", random.oneOf(WORDS), random.oneOf(HOSTILE)]),
  }),
];

const RARE: readonly Edit[] = [
  (_, random) => ({ text: random.oneOf([...TEXTS.values()]) }),
  (_, random) => ({ text: strayText(random) }),
  (text, random) => ({
    text: random.oneOf([
      "",
      "\n",
      `\uFEFF${text}`,
      text.replaceAll("\n", "\r\n"),
      text.replaceAll("\n", "\r"),
      text + text,
    ]),
  }),
  (text, random) => {
    const at = placeIn(text, random);
    return {
      range: { start: at, end: at },
      text: random.oneOf(["x", "( ", "not ", "\u0301"]).repeat(random.oneOf([300, 9_990, 19_999, 20_001])),
    };
  },
];

/** One or more changes of a text, as one notification brings them: each of the text that the last one leaves. */
export function changesOf(text: string, random: Random, apply: (text: string, change: Change) => string): Change[] {
  const count = random.onceIn(4) ? random.between(2, 4) : 1;
  const changes: Change[] = [];
  for (let now = text; changes.length < count; ) {
    const change = random.oneOf(random.onceIn(20) ? RARE : EDITS)(now, random);
    changes.push(change);
    now = apply(now, change);
  }
  return random.onceIn(60) ? [] : changes;
}
