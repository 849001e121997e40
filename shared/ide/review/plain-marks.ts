/** Characters that programs put in place of those which a script is written in, made plain again. */
import { commentStart } from "../../syntax/scanner.ts";

const BLANKS = /[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]/g;
const NOTHING = /[\u00ad\u200b-\u200d\u2060\ufeff]/g;
const DASHES = /[‐‑‒–—−]/g;
/** Between the columns and the rows of a size. */
const TIMES = /(\d)\s*×\s*(?=\d)/g;
const QUOTED = /[“”„«»]([^“”„«»"\\]*)[“”„«»]/g;

/**
 * A line as it would have been typed: other blanks, dashes and quotes are plain ones, and what does not show is gone.
 * Inside straight quotes and in comments all stays. Look-alike letters and turns of direction stay everywhere: they
 * change what is read, so the line is not understood.
 */
export function withPlainMarks(text: string): string {
  if (/^[\t\x20-\x7e]*$/.test(text)) return text;
  const curly = text.replace(QUOTED, (whole, inside: string) => (isInComment(text, whole) ? whole : `"${inside}"`));
  const hash = commentStart(curly);
  const end = hash < 0 ? curly.length : hash;
  const code = curly
    .slice(0, end)
    .split(/("(?:[^"\\]|\\.)*")/)
    .map((part, i) =>
      i % 2 === 1 ? part : part.replace(BLANKS, " ").replace(NOTHING, "").replace(DASHES, "-").replace(TIMES, "$1 x "),
    )
    .join("");
  return code + curly.slice(end);
}

function isInComment(text: string, part: string): boolean {
  const hash = commentStart(text);
  return hash >= 0 && text.indexOf(part) > hash;
}
