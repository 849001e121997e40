/** Reads the section `text` of a dialect: how the board's text is built as a whole. */
import { type Fault, isFault } from "../../syntax/read-context.ts";
import type { Cols } from "../../syntax/span.ts";
import { type NamedPattern, parsePattern } from "../patterns/parse-pattern.ts";
import { type BoardText, type FactScanner, factScanner, next, nextAt, unfit } from "./fact-scanner.ts";

export interface TextDraft {
  knownBy: string[];
  comments: string[];
  blanks: "loose" | "exact";
  ends: "lf" | "crlf" | null;
  opening: string[];
  closing: string[];
  headings: NamedPattern[];
  repeats: string[];
  atMost: { text: string; count: number; line: number }[];
  longest: number | null;
}

export function emptyText(): TextDraft {
  return {
    knownBy: [],
    comments: [],
    blanks: "loose",
    ends: null,
    opening: [],
    closing: [],
    headings: [],
    repeats: [],
    atMost: [],
    longest: null,
  };
}

/** What a fact of the section begins with, in the order in which they are explained. */
const TEXT_FACTS = [
  "known-by",
  "comment",
  "blanks",
  "ends",
  "opening",
  "closing",
  "heading",
  "repeats",
  "at-most",
  "longest",
] as const;

/** Adds one fact; gives a fault where it is none. */
export function readTextFact(draft: TextDraft, text: string, at: Cols, line: number): Fault | null {
  const scan = factScanner(text, at);
  const head = scan.name();
  const known = TEXT_FACTS.find((each) => each === head?.text);
  if (!known)
    return {
      ...unfit(
        head ?? nextAt(scan),
        `“text” says ${TEXT_FACTS.join(", ")}; ${head ? `“${head.text}” is none of them` : next(scan)}.`,
      ),
      ...(head && { code: "unknown-name", unknown: { word: head.text, candidates: TEXT_FACTS } }),
    };
  const problem = readFact(known, draft, scan, line);
  if (problem) return problem;
  return scan.done()
    ? null
    : unfit(scan.rest(), `Nothing is expected behind this fact of “${known}”, but ${next(scan)}.`);
}

function readFact(fact: (typeof TEXT_FACTS)[number], draft: TextDraft, scan: FactScanner, line: number): Fault | null {
  switch (fact) {
    case "known-by":
      return withText(scan, fact, (text) => void draft.knownBy.push(text));
    case "comment":
      return withText(scan, fact, (text) => void draft.comments.push(text));
    case "opening":
      return withText(scan, fact, (text) => void draft.opening.push(text));
    case "closing":
      return withText(scan, fact, (text) => void draft.closing.push(text));
    case "repeats":
      return withText(scan, fact, (text) => void draft.repeats.push(text));
    case "blanks": {
      const word = scan.match(/(loose|exact)\b/y);
      if (!word) return unfit(nextAt(scan), `“blanks” is “loose” or “exact”; ${next(scan)}.`);
      draft.blanks = word.text as "loose" | "exact";
      return null;
    }
    case "ends": {
      const word = scan.match(/(lf|crlf)\b/y);
      if (!word) return unfit(nextAt(scan), `“ends” is “lf” or “crlf”; ${next(scan)}.`);
      draft.ends = word.text as "lf" | "crlf";
      return null;
    }
    case "heading": {
      const text = scan.boardText();
      if (!text) return textMissing(scan, fact);
      const pattern = parsePattern(text, line);
      if (isFault(pattern)) return pattern;
      draft.headings.push(pattern);
      return null;
    }
    case "at-most": {
      const text = scan.boardText();
      if (!text) return textMissing(scan, fact);
      const plain = plainText(text);
      if (isFault(plain)) return plain;
      const count = wholeNumber(scan);
      if (count === null)
        return unfit(
          nextAt(scan),
          `“at-most” needs how many lines the board takes, as in “at-most "shelf" 10”; ${next(scan)}.`,
        );
      draft.atMost.push({ text: plain, count, line });
      return null;
    }
    case "longest": {
      const count = wholeNumber(scan);
      if (count === null)
        return unfit(nextAt(scan), `“longest” needs the most characters of a line, as in “longest 80”; ${next(scan)}.`);
      draft.longest = count;
      return null;
    }
  }
}

function withText(scan: FactScanner, fact: string, add: (text: string) => void): Fault | null {
  const text = scan.boardText();
  if (!text) return textMissing(scan, fact);
  const plain = plainText(text);
  if (isFault(plain)) return plain;
  if (plain === "") return unfit(text, `“${fact}” needs some text between the quotes: an empty one fits everything.`);
  add(plain);
  return null;
}

function textMissing(scan: FactScanner, fact: string): Fault {
  return unfit(nextAt(scan), `The board's text is expected behind “${fact}”, in quotes; ${next(scan)}.`);
}

/** Text without slots, in which `{{` is a brace and `{tab}` a tab. */
function plainText(text: BoardText): string | Fault {
  const pattern = parsePattern(text, 0);
  if (isFault(pattern)) return pattern;
  const [slot] = pattern.slots;
  if (slot)
    return unfit(slot.at, "This text has no slots: write the text alone, and “{{” for a brace of the board's text.");
  return pattern.parts.map((part) => (part.kind === "literal" ? part.text : "")).join("");
}

function wholeNumber(scan: FactScanner): number | null {
  const digits = scan.match(/\d{1,6}(?![\w.])/y);
  return digits ? Number(digits.text) : null;
}
