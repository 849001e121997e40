/** A line of a dialect in the parts between which blanks mean nothing: all else of it is the board's, or a formula. */
import { factScanner } from "../../dialect/file/fact-scanner.ts";
import type { Cols } from "../../syntax/span.ts";

/** What stands left and right; `isRow` is false where the right side stands in no column. */
export interface FactParts {
  readonly left: string;
  readonly right: string;
  readonly isRow: boolean;
}

/** Names of sections whose lines begin with a name, and not with a board's text. */
const NAMED = ["text", "codes"];

/** The parts of a fact of a section; null where it is left as it was written, since it is not sure where a part ends. */
export function factParts(section: string, text: string, content: Cols): FactParts | null {
  const scan = factScanner(text, content);
  const word = NAMED.includes(section) ? scan.name() : scan.match(/(?:under|cannot)(?![\w-])/y);
  if (word) {
    const right = text.slice(scan.at(), content.end);
    if (right === "") return null;
    return { left: word.text, right, isRow: NAMED.includes(section) };
  }
  const lefts: string[] = [];
  for (let side = scan.boardText(); side; side = scan.boardText()) lefts.push(text.slice(side.start, side.end));
  const right = text.slice(scan.at(), content.end);
  if (lefts.length === 0 || right === "" || /^["']/.test(right)) return null;
  return { left: lefts.join(" "), right, isRow: true };
}
