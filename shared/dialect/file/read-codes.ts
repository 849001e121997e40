/** Reads the facts of the section `codes`: `glaze number 0 to 220 each 0.02 V/cell`. */
import { unitSymbol } from "../../catalogue/units.ts";
import { type Fault, isFault } from "../../syntax/read-context.ts";
import type { Cols } from "../../syntax/span.ts";
import type { Word } from "../../syntax/tree.ts";
import { exactIn } from "../codes/held.ts";
import { compareExact, type Exact, exactOf } from "../exact.ts";
import { type FactScanner, next, nextAt, unfit } from "./fact-scanner.ts";

/** A code that is only named. */
export interface NamedCode extends Cols {
  readonly code: string;
}

interface Spelling {
  base: number;
  digits: number | null;
}

/** A code as one fact says it; the codes that it names are not looked up yet. */
export type CodeDraft =
  | (Spelling & {
      kind: "number";
      least: Exact | null;
      most: Exact | null;
      from: Exact;
      each: Exact;
      unit: string;
      channels: boolean;
      into: Exact | null;
      places: number;
      unset: Exact | null;
    })
  | { kind: "words" | "letters"; words: { theirs: string; ours: string | null; at: Cols }[] }
  | { kind: "list"; of: NamedCode; by: string }
  | (Spelling & {
      kind: "bits";
      parts: { from: number; to: number; name: string; code: NamedCode | null; at: Cols }[];
      fixed: { bit: number; is: 0 | 1; orUnset: boolean; at: Cols }[];
    })
  | (Spelling & { kind: "set"; items: { bit: number; ours: string; at: Cols }[] })
  | { kind: "text"; within: string; escape: string; longest: number | null };

const CODE_KINDS = ["number", "words", "letters", "list", "bits", "set", "text"] as const;

/** Reads what stands behind a code's name. */
export function readCode(scan: FactScanner): CodeDraft | Fault {
  const kind = scan.name();
  switch (kind?.text) {
    case "number":
      return readNumber(scan);
    case "words":
    case "letters":
      return readWords(scan, kind.text);
    case "list":
      return readList(scan);
    case "bits":
      return readBits(scan);
    case "set":
      return readSet(scan);
    case "text":
      return readText(scan);
    default: {
      const message = `A code is one of ${CODE_KINDS.join(", ")}; ${kind ? `“${kind.text}” is none of them` : next(scan)}.`;
      if (!kind) return unfit(nextAt(scan), message);
      return { ...unfit(kind, message), code: "unknown-name", unknown: { word: kind.text, candidates: CODE_KINDS } };
    }
  }
}

interface Amount extends Cols {
  readonly number: Exact;
  readonly unit: string;
}

function readNumber(scan: FactScanner): CodeDraft | Fault {
  const spelling: Spelling = { base: 10, digits: null };
  const said: { from?: Amount; each?: Amount; into?: Amount } = {};
  let bounds: { least: Exact; most: Exact } | null = null;
  let channel: Exact | null = null;
  let places = 0;
  let unset: Exact | null = null;
  while (!scan.done()) {
    const bound = scan.digits();
    if (bound) {
      const to = scan.match(/to(?![\w-])/y) && scan.digits();
      if (!to)
        return unfit(
          nextAt(scan),
          `The bounds of what the board writes are two numbers with “to” between, as in “0 to 220”; ${next(scan)}.`,
        );
      bounds = { least: exactOf(bound.text)!, most: exactOf(to.text)! };
      if (compareExact(bounds.least, bounds.most) > 0)
        return unfit(
          { start: bound.start, end: to.end },
          `Bounds go from the lower to the higher number: write “${to.text} to ${bound.text}”.`,
        );
      continue;
    }
    const word = scan.name();
    if (!word) return strange(scan, "number");
    const own = readSpelling(word, scan, spelling);
    if (isFault(own)) return own;
    if (own) continue;
    if (word.text === "from" && scan.match(/ch(?=\d)/y)) {
      const digits = scan.digits();
      if (!digits || !/^\d+$/.test(digits.text))
        return unfit(nextAt(scan), "A channel is a whole number, as in “from ch5”.");
      channel = exactOf(digits.text);
    } else if (word.text === "from" || word.text === "each" || word.text === "into") {
      const amount = readAmount(scan, word.text);
      if (isFault(amount)) return amount;
      said[word.text] = amount;
    } else if (word.text === "places") {
      const count = scan.match(/\d(?![\w.])/y);
      if (!count)
        return unfit(
          nextAt(scan),
          `“places” needs how many decimals the board writes, as in “places 2”; ${next(scan)}.`,
        );
      places = Number(count.text);
    } else if (word.text === "unset") {
      const digits = scan.digits();
      if (!digits)
        return unfit(
          nextAt(scan),
          `“unset” needs the number by which the board says that nothing is set, as in “unset 0”; ${next(scan)}.`,
        );
      unset = exactOf(digits.text);
    } else return strangeWord(word, "number", ["A to B", "from", "each", "into", "places", "unset", "base", "digits"]);
  }
  const { from, each, into } = said;
  const unit = each?.unit || from?.unit || into?.unit || "";
  if (into && (from || each))
    return unfit(into, "“into” says all of the scale, so “from” and “each” do not go with it.");
  const inUnit = (amount: Amount | undefined, usual: Exact) => {
    if (!amount) return usual;
    if (amount.unit === unit || unit === "") return amount.number;
    return (
      exactIn(amount.number, amount.unit, unit) ??
      unfit(
        amount,
        `${amount.unit === "" ? "A bare number" : `A value in ${amount.unit}`} and one in ${unit} do not go together: write both in one unit.`,
      )
    );
  };
  const start = inUnit(from, { over: 0n, under: 1n });
  const step = inUnit(each, { over: 1n, under: 1n });
  if (isFault(start)) return start;
  if (isFault(step)) return step;
  if (step.over === 0n) return unfit(each!, "A step of 0 says the same of every number: write how much each one is.");
  if (into?.number.over === 0n) return unfit(into, "0 divided by a number is 0 whatever it is: write what is divided.");
  const least = bounds?.least ?? null;
  const most = bounds?.most ?? null;
  return {
    kind: "number",
    ...spelling,
    least,
    most,
    from: channel ?? start,
    each: step,
    unit,
    channels: channel !== null,
    into: into?.number ?? null,
    places,
    unset,
  };
}

function readAmount(scan: FactScanner, word: string): Amount | Fault {
  const digits = scan.digits();
  if (!digits) return unfit(nextAt(scan), `“${word}” needs a value, as in “${word} 0.02 V”; ${next(scan)}.`);
  const number = exactOf(digits.text)!;
  const column = scan.at();
  const symbol = scan.symbol();
  const unit = symbol && unitSymbol(symbol.text);
  if (!symbol || unit === undefined) {
    // What follows is a word of the code, and the value a bare number.
    if (symbol) scan.moveTo(column);
    return { number, unit: "", start: digits.start, end: digits.end };
  }
  return { number, unit: unit ?? "", start: digits.start, end: symbol.end };
}

/** `base 16` and `digits 4`; false for another word. */
function readSpelling(word: Word, scan: FactScanner, spelling: Spelling): boolean | Fault {
  if (word.text !== "base" && word.text !== "digits") return false;
  const found = scan.match(/\d{1,2}(?![\w.])/y);
  const number = found ? Number(found.text) : 0;
  if (word.text === "base" && (number < 2 || number > 36))
    return unfit(found ?? nextAt(scan), "A base is from 2 to 36, as in “base 16”.");
  if (word.text === "digits" && (number < 1 || number > 32))
    return unfit(found ?? nextAt(scan), "The board writes from 1 to 32 digits, as in “digits 4”.");
  spelling[word.text] = number;
  return true;
}

function strange(scan: FactScanner, kind: string): Fault {
  return unfit(nextAt(scan), `This is nothing that “${kind}” says: ${next(scan)}.`);
}

function strangeWord(word: Word, kind: string, may: readonly string[]): Fault {
  return {
    ...unfit(word, `“${kind}” says ${may.join(", ")}; “${word.text}” is none of them.`),
    code: "unknown-name",
    unknown: { word: word.text, candidates: may.filter((each) => /^[a-z]+$/.test(each)) },
  };
}

/** Items with commas between them; one at least. */
function readItems(scan: FactScanner, readOne: () => Fault | null): Fault | null {
  do {
    const problem = readOne();
    if (problem) return problem;
  } while (scan.mark(","));
  return scan.done() ? null : unfit(nextAt(scan), `A comma is expected between two items; ${next(scan)}.`);
}

function readWords(scan: FactScanner, kind: "words" | "letters"): CodeDraft | Fault {
  const words: { theirs: string; ours: string | null; at: Cols }[] = [];
  const problem = readItems(scan, () => {
    const theirs = scan.boardWord();
    if (!theirs || theirs.text === "")
      return unfit(
        nextAt(scan),
        `The board's word is expected here, then ours, as in “${kind} R roll, P pitch”; ${next(scan)}.`,
      );
    const ours = scan.upToComma();
    if (ours.text === "")
      return unfit(theirs, `What the board's “${theirs.text}” means is missing: write our word behind it.`);
    words.push({
      theirs: theirs.text,
      ours: ours.text === "unset" ? null : ours.text,
      at: { start: theirs.start, end: ours.end },
    });
    return null;
  });
  return problem ?? { kind, words };
}

function namedCode(scan: FactScanner): NamedCode | null {
  const name = scan.name();
  return name && { code: name.text, start: name.start, end: name.end };
}

function readList(scan: FactScanner): CodeDraft | Fault {
  const of = namedCode(scan);
  if (!of) return unfit(nextAt(scan), `“list” needs the code of its items, as in “list axis by ","”; ${next(scan)}.`);
  const by = scan.match(/by(?![\w-])/y) && (scan.boardText() ?? scan.boardWord());
  if (!by || by.text === "")
    return unfit(nextAt(scan), `“list ${of.code}” needs what stands between two items, as in “by "+"”; ${next(scan)}.`);
  return scan.done() ? { kind: "list", of, by: by.text } : strange(scan, "list");
}

/** Reads any number of `base N` and `digits N`. */
function readSpellings(scan: FactScanner, spelling: Spelling): Fault | null {
  for (;;) {
    const word = scan.match(/(base|digits)(?![\w-])/y);
    if (!word) return null;
    const read = readSpelling(word, scan, spelling);
    if (isFault(read)) return read;
  }
}

/** The highest bit of a number that a board may write. */
const MOST_BITS = 64;

function readBit(scan: FactScanner): number | Fault {
  const digits = scan.match(/\d{1,3}(?![\w.])/y);
  if (!digits) return unfit(nextAt(scan), `The number of a bit is expected here, from 0; ${next(scan)}.`);
  if (Number(digits.text) >= MOST_BITS) return unfit(digits, `Bits are counted from 0 to ${MOST_BITS - 1}.`);
  return Number(digits.text);
}

function readBits(scan: FactScanner): CodeDraft | Fault {
  const spelling: Spelling = { base: 10, digits: null };
  const parts: (CodeDraft & { kind: "bits" })["parts"] = [];
  const fixed: (CodeDraft & { kind: "bits" })["fixed"] = [];
  const problem = readItems(scan, () => {
    const own = readSpellings(scan, spelling);
    if (own) return own;
    const start = scan.at();
    const from = readBit(scan);
    if (isFault(from)) return from;
    if (scan.match(/is(?![\w-])/y)) {
      const value = scan.match(/[01](?![\w.])/y);
      if (!value) return unfit(nextAt(scan), `A bit is 0 or 1; ${next(scan)}.`);
      const orUnset = scan.match(/or[ \t]+unset(?![\w-])/y) !== null;
      fixed.push({ bit: from, is: value.text === "1" ? 1 : 0, orUnset, at: { start, end: scan.lastEnd() } });
      return readSpellings(scan, spelling);
    }
    const to = scan.match(/-(?=\d)/y) ? readBit(scan) : from;
    if (isFault(to)) return to;
    const name = scan.name();
    if (!name)
      return unfit(
        nextAt(scan),
        `The name of these bits is expected, as in “0-4 row”, or their value, as in “14 is 1”; ${next(scan)}.`,
      );
    const code = scan.match(/:/y) ? namedCode(scan) : null;
    parts.push({
      from: Math.min(from, to),
      to: Math.max(from, to),
      name: name.text,
      code,
      at: { start, end: scan.lastEnd() },
    });
    return readSpellings(scan, spelling);
  });
  return problem ?? { kind: "bits", ...spelling, parts, fixed };
}

function readSet(scan: FactScanner): CodeDraft | Fault {
  const spelling: Spelling = { base: 10, digits: null };
  const items: { bit: number; ours: string; at: Cols }[] = [];
  const problem = readItems(scan, () => {
    const own = readSpellings(scan, spelling);
    if (own) return own;
    const start = scan.at();
    const bit = readBit(scan);
    if (isFault(bit)) return bit;
    const ours = scan.name();
    if (!ours)
      return unfit(nextAt(scan), `Our word for bit ${bit} is expected, as in “set 0 gps, 3 compass”; ${next(scan)}.`);
    items.push({ bit, ours: ours.text, at: { start, end: ours.end } });
    return readSpellings(scan, spelling);
  });
  return problem ?? { kind: "set", ...spelling, items };
}

function readText(scan: FactScanner): CodeDraft | Fault {
  const draft: CodeDraft & { kind: "text" } = { kind: "text", within: "", escape: "", longest: null };
  while (!scan.done()) {
    const word = scan.name();
    if (!word) return strange(scan, "text");
    if (word.text === "within" || word.text === "escape") {
      const mark = scan.boardText() ?? scan.match(/\S/y);
      if (!mark || mark.text === "")
        return unfit(nextAt(scan), `“${word.text}” needs a mark, as in “within '"'”; ${next(scan)}.`);
      draft[word.text] = mark.text;
    } else if (word.text === "longest") {
      const count = scan.match(/\d{1,5}(?![\w.])/y);
      if (!count) return unfit(nextAt(scan), `“longest” needs the most characters, as in “longest 16”; ${next(scan)}.`);
      draft.longest = Number(count.text);
    } else return strangeWord(word, "text", ["within", "escape", "longest"]);
  }
  return draft;
}
