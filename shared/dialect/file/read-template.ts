/** Text with slots in it, as it stands on the right side of a fact: its slots, its words, its parts. */
import type { Fault } from "../../syntax/read-context.ts";
import type { Cols } from "../../syntax/span.ts";
import type { Ref, Template } from "../dialect.ts";
import { afterQuotes, unfit } from "./fact-scanner.ts";

const REF = /\{([a-z][a-z0-9-]*)(?:\.([a-z][a-z0-9-]*))?\}/;
const WHOLE_REF = new RegExp(`^${REF.source}$`);
const REFS = new RegExp(REF.source, "g");

/** What is said of a brace that is no slot. */
export function slotFault(text: string, at: Cols): Fault {
  const number = text.indexOf("{#", at.start);
  return number >= 0 && number < at.end
    ? unfit(
        { start: number, end: Math.min(at.end, number + 3) },
        "“{#}” only tells lines apart, and a new line gets any number that is free: for a number that means something write a slot with a name, as “{n:0 to 9}”.",
      )
    : unfit(at, "A slot stands on the right as “{w}”, a part of it as “{p.row}”.");
}

/** The slot of a text that is one and nothing else. */
export function refOf(text: string): Ref | null {
  const match = WHOLE_REF.exec(text);
  return match && { slot: match[1]!, part: match[2] ?? null };
}

/** Text with slots in it; a fault where a brace is no slot. */
export function readTemplate(text: string, at: Cols): Template | Fault {
  return templateOf(text.slice(at.start, at.end)) ?? slotFault(text, at);
}

/** Null where a brace is no slot. */
export function templateOf(text: string): Template | null {
  const parts: (string | Ref)[] = [];
  let from = 0;
  for (const match of text.matchAll(REFS)) {
    if (match.index > from) parts.push(text.slice(from, match.index));
    parts.push({ slot: match[1]!, part: match[2] ?? null });
    from = match.index + match[0].length;
  }
  if (from < text.length || parts.length === 0) parts.push(text.slice(from));
  return parts.some((part) => typeof part === "string" && /[{}]/.test(part)) ? null : parts;
}

/** The columns between separators outside of quotes and braces, without blanks at their ends. */
export function splitAt(text: string, { start, end }: Cols, separator: RegExp): Cols[] {
  const found: Cols[] = [];
  let from = start;
  for (let at = start; at < end; ) {
    if (text[at] === '"' || text[at] === "'") {
      at = afterQuotes(text, at, end);
      continue;
    }
    if (text[at] === "{") {
      const close = text.indexOf("}", at);
      at = close < 0 || close >= end ? end : close + 1;
      continue;
    }
    separator.lastIndex = at;
    const match = separator.exec(text);
    if (match && at + match[0].length <= end) {
      found.push(trimmed(text, from, at));
      at += match[0].length;
      from = at;
    } else at++;
  }
  found.push(trimmed(text, from, end));
  return found;
}

export function trimmed(text: string, from: number, to: number): Cols {
  let [start, end] = [from, to];
  while (start < end && isBlank(text, start)) start++;
  while (end > start && isBlank(text, end - 1)) end--;
  return { start, end };
}

function isBlank(text: string, at: number): boolean {
  return text[at] === " " || text[at] === "\t";
}

/** Where the word at `from` ends: at a blank outside of braces. */
export function endOfWord(text: string, from: number, end: number): number {
  let at = from;
  while (at < end && !isBlank(text, at)) {
    const close = text[at] === "{" ? text.indexOf("}", at) : -1;
    at = close >= 0 && close < end ? close + 1 : at + 1;
  }
  return at;
}
