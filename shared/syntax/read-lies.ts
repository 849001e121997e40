/** Parses where a control lies on its handset: `lies left shoulder`, `lies middle`. */

import {
  addPiece,
  describeNext,
  type Fault,
  fault,
  isFault,
  nextCols,
  type ReadContext,
  unknownName,
} from "./read-context.ts";
import type { Cols } from "./span.ts";
import type { Word } from "./tree.ts";
import { type ControlPlace, FACES, SIDES } from "./value.ts";

const sides = "“left”, “right” or “middle”";
const faces = "“shoulder”, “face” or “back”";

/** Other words for the sides and faces, each with the language's own. */
const OTHER_WORDS: Readonly<Record<string, string>> = {
  centre: "middle",
  center: "middle",
  mid: "middle",
  between: "middle",
  port: "left",
  starboard: "right",
  shoulders: "shoulder",
  trigger: "shoulder",
  edge: "shoulder",
  top: "shoulder",
  front: "face",
  faceplate: "face",
  panel: "face",
  rear: "back",
  behind: "back",
  underside: "back",
  below: "back",
};

const LIES = /lies(?![A-Za-z0-9_-])/y;
const WORD = /[A-Za-z][A-Za-z0-9-]*/y;
/** What stands in place of “lies”, where it is forgotten or misspelled. */
const INSTEAD =
  /(?:(?:lie|lays|lay|lying|sits|on|side|lies-on)[ \t]+)?(?:left|right|middle)(?:[ \t]+(?:shoulder|face|back))?[ \t]*$/y;

/** Parses `lies SIDE [FACE]` up to the end of the line; null where the line ends before it. */
export function readLies(context: ReadContext): ControlPlace | null | Fault {
  const lies = context.scan.match(LIES);
  if (!lies) return context.scan.done() ? null : (placeWithoutLies(context) ?? null);
  addPiece(context, "keyword", lies);
  const side = readSide(context);
  if (isFault(side)) return side;
  const face = readFace(context, side);
  if (isFault(face)) return face;
  if (context.scan.done()) return { side, face };
  return restsBehind(context, lies.start) ?? fault("syntax", context.scan.rest(), "Nothing more is expected here.");
}

/** The fault of a place that stands there without its “lies”; null where something else stands there. */
export function placeWithoutLies({ scan }: ReadContext): Fault | null {
  const before = scan.lastEnd();
  scan.at();
  const found = scan.match(INSTEAD);
  if (!found) return null;
  scan.moveTo(before);
  const words = found.text.trim();
  const place = `lies ${words.replace(/^(?:lie|lays|lay|lying|sits|on|side|lies-on)[ \t]+/, "").replace(/[ \t]+/g, " ")}`;
  const at = { start: found.start, end: found.start + words.length };
  const message = `Where the hand finds a control is said with “lies”, as in “${place}”.`;
  return fault("syntax", at, message, { ...at, title: `Write “${place}”`, text: place });
}

function readSide(context: ReadContext): ControlPlace["side"] | Fault {
  const word = peekWord(context);
  if (!word)
    return fault(
      "syntax",
      nextCols(context),
      `The side on which the hand finds it is expected here, ${sides}; ${describeNext(context)}.`,
    );
  const side = SIDES.find((each) => each === word.text);
  if (side) {
    take(context, word);
    return side;
  }
  if (FACES.some((each) => each === word.text)) return faceFirst(context, word);
  return wordFault(word, SIDES, `A control lies ${sides}; “${word.text}” is none of them.`);
}

/** The fault of “lies shoulder”, with a repair for each side; of “lies shoulder left” with the one that is meant. */
function faceFirst({ scan }: ReadContext, face: Word): Fault {
  scan.moveTo(face.end);
  const behind = scan.name();
  const side = SIDES.find((each) => each === behind?.text);
  const at = { start: face.start, end: side ? behind!.end : face.end };
  const message = `The side comes first, ${sides}, as in “lies left ${face.text}”.`;
  const repairs = (side ? [side] : SIDES).map((each) => {
    return { ...at, title: `Write “${each} ${face.text}”`, text: `${each} ${face.text}` };
  });
  return fault("syntax", at, message, ...repairs);
}

function readFace(context: ReadContext, side: string): ControlPlace["face"] | Fault {
  const { scan } = context;
  if (scan.done()) return null;
  const word = peekWord(context);
  if (word?.text === "rests") return null;
  const face = FACES.find((each) => each === word?.text);
  if (word && face) {
    take(context, word);
    return face;
  }
  if (word && SIDES.some((each) => each === word.text)) return secondSide(context, word, side);
  const message = `Behind the side stands ${faces}, or nothing;`;
  return word
    ? wordFault(word, FACES, `${message} “${word.text}” is none of them.`)
    : fault("syntax", nextCols(context), `${message} ${describeNext(context)}.`);
}

function secondSide({ scan }: ReadContext, word: Word, side: string): Fault {
  const first = { start: scan.lastEnd() - side.length, end: word.end };
  const repairs = [word.text, side].map((each) => ({ ...first, title: `Write “${each}”`, text: each }));
  return fault("syntax", word, `A control lies on one side; “${side}” is said already.`, ...repairs);
}

/** The fault of “lies left rests down”, with the repair that turns the two round. */
function restsBehind({ scan }: ReadContext, liesStart: number): Fault | null {
  const liesText = scan.text(liesStart, scan.lastEnd());
  const rests = scan.match(/rests[ \t]+[a-z][a-z0-9-]*(?![A-Za-z0-9_-])/y);
  if (!rests) return null;
  const text = `${rests.text} ${liesText}`;
  return fault("syntax", rests, `Where it rests stands before where it lies, as in “${text}”.`, {
    start: liesStart,
    end: rests.end,
    title: `Write “${text}”`,
    text,
  });
}

/** The fault of a word that is none of these, with those that were meant: by other words for them, else by spelling. */
function wordFault(word: Word, names: readonly string[], message: string): Fault {
  const meant = OTHER_WORDS[word.text.toLowerCase()];
  const found = unknownName(word, word.text, names, message);
  return meant && names.includes(meant)
    ? { ...found, unknown: { word: word.text, candidates: [meant], chosen: true } }
    : found;
}

function take(context: ReadContext, word: Word): void {
  context.scan.moveTo(word.end);
  addPiece(context, "choice", word);
}

/** The next word, which is not yet read. */
function peekWord({ scan }: ReadContext): (Word & Cols) | null {
  const before = scan.lastEnd();
  const word = scan.match(WORD);
  if (word) scan.moveTo(before);
  return word;
}
