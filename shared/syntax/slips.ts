/** Common mistakes: syntax of other languages and lookalike characters, and what to write instead. */
import type { Repair } from "./read-context.ts";
import type { Cols } from "./span.ts";

/** A common mistake: what is wrong and what to write, with the repair. */
export interface Slip {
  readonly message: string;
  readonly repair: Repair;
}

/** The start of a comment in other languages. */
const OTHER_COMMENT = /^(?:\/\/|;|--)/;

/** The slip of a text that starts like a comment of another language; null for any other text. */
export function commentSlip({ text, start }: Cols & { readonly text: string }): Slip | null {
  const marks = OTHER_COMMENT.exec(text)?.[0];
  if (marks === undefined) return null;
  const repair = { title: "Begin the comment with #", start, end: start + marks.length, text: "#" };
  return { message: `A comment begins with “#”, and not with “${marks}”.`, repair };
}

/**
 * The slip of a word with capitals or underscores that is otherwise a name, perhaps with a sign of other languages behind
 * it; null for any other word.
 */
export function nameSlip(word: Cols & { readonly text: string }): Slip | null {
  const bare = word.text.replace(/(?::|=|:=)$/, "");
  const spelled = bare.toLowerCase().replaceAll("_", "-");
  if (spelled === bare || !/^[a-z][a-z0-9-]*$/.test(spelled)) return null;
  const repair = { title: `Write ${spelled}`, start: word.start, end: word.end, text: spelled };
  return { message: `Names are in small letters, with “-” between words: “${spelled}”.`, repair };
}

/** The slip of a text in quotes of another shape; null for any other text. `expected` says what belongs there. */
export function quotesSlip({ text, start }: Cols & { readonly text: string }, expected: string): Slip | null {
  const match = /^[“”„«»‘’']([^"“”„«»‘’'\\]+)[“”„«»‘’']/.exec(text);
  if (!match) return null;
  const quoted = `"${match[1]}"`;
  const repair = { title: `Write ${quoted}`, start, end: start + match[0].length, text: quoted };
  return { message: `Quotes are straight and double: ${expected}.`, repair };
}

/** Characters that look like others which the language uses, and those others. */
const LOOKALIKES: Readonly<Record<string, string>> = {
  ...Object.fromEntries([..."‐‑‒–—−"].map((mark) => [mark, "-"])),
  ...Object.fromEntries([..."\u00a0\u2002\u2003\u2007\u2009\u202f\u3000"].map((space) => [space, " "])),
  ...Object.fromEntries(
    [
      ..."\u200b\u200c\u200d\u2060\ufeff\u00ad\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069",
    ].map((nothing) => [nothing, ""]),
  ),
  ...Object.fromEntries([..."асеорхуіјԁԛѕ"].map((letter, i) => [letter, "aceopxyijdqs"[i]!])),
};
const LOOKALIKE = new RegExp(`[${Object.keys(LOOKALIKES).join("")}]`, "u");
const ALL_LOOKALIKES = new RegExp(LOOKALIKE.source, "gu");

/**
 * The slip of a character that only looks like one of the language, in these columns or directly
 * after them; the repair replaces all such characters there. Null if there is none.
 */
export function lookalikeSlip(text: string, { start, end }: Cols): Slip | null {
  const until = Math.min(text.length, end + 1);
  const stretch = text.slice(start, until);
  const found = LOOKALIKE.exec(stretch)?.[0];
  if (found === undefined) return null;
  const meant = LOOKALIKES[found]!;
  const code = `U+${found.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
  const message =
    meant === ""
      ? `An invisible character stands here (${code}): remove it.`
      : meant === " "
        ? `What stands here only looks like a space (${code}): write a plain one.`
        : `The “${found}” here only looks like “${meant}” (${code}): write a plain one.`;
  const plain = stretch.replace(ALL_LOOKALIKES, (each) => LOOKALIKES[each]!);
  return { message, repair: { title: "Write it with plain characters", start, end: until, text: plain } };
}
