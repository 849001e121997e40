/**
 * Matching a board line by a pattern, without turning back: a slot ends where the text behind it next stands, so each
 * character of the line is looked at once for each pattern that is tried.
 */
import type { Cols } from "../../syntax/span.ts";
import type { Code, Pattern, Slot, TextCode } from "../dialect.ts";
import {
  type Blanks,
  columnAt,
  type LineForm,
  lineForm,
  nextPlace,
  type Sought,
  soughtOf,
  standsAt,
} from "./line-form.ts";

/** What a slot holds, as the board wrote it, with its columns in the line. */
export interface SlotText {
  readonly name: string;
  readonly text: string;
  readonly start: number;
  readonly end: number;
  /** Where the same name stands again in the line. */
  readonly again?: readonly Cols[];
}

export interface Match {
  /** By name, each once. */
  readonly slots: ReadonlyMap<string, SlotText>;
}

/** A pattern, ready to be tried. */
export interface Compiled {
  /** What the line begins with; "" where it begins with a slot. */
  readonly first: Sought;
  readonly steps: readonly Step[];
}

interface Step {
  readonly name: string;
  readonly slot: Slot | null;
  /** Text and lists may be empty; all else is a character or more. */
  readonly mayBeEmpty: boolean;
  /** The text with a mark around it, which ends at that mark. */
  readonly within: Within | null;
  /** The text behind it; null where another slot or the line's end follows. */
  readonly behind: Sought | null;
  /** The same name stands before: both must hold the same. */
  readonly again: "none" | "same" | "either-case";
}

/** Text between marks, once or as the items of a list. */
interface Within {
  readonly text: TextCode;
  readonly by: string | null;
}

const compiled: Readonly<Record<Blanks, WeakMap<Pattern, Compiled>>> = { loose: new WeakMap(), exact: new WeakMap() };

/** Matches a whole line; null where the pattern does not fit. What the slots hold is not looked at. */
export function matchPattern(pattern: Pattern, line: string, blanks: Blanks): Match | null {
  const slots = matchForm(compile(pattern, blanks), lineForm(line, blanks));
  return slots && { slots: new Map(slots.map((slot) => [slot.name, slot])) };
}

/** The pattern, ready to be tried; the same object for the same pattern. */
export function compile(pattern: Pattern, blanks: Blanks): Compiled {
  let made = compiled[blanks].get(pattern);
  if (!made) {
    made = compilePattern(pattern, blanks);
    compiled[blanks].set(pattern, made);
  }
  return made;
}

function compilePattern(pattern: Pattern, blanks: Blanks): Compiled {
  const texts: string[] = [""];
  const names: string[] = [];
  for (const part of pattern.parts) {
    if (part.kind === "slot") {
      names.push(part.name);
      texts.push("");
    } else texts[texts.length - 1] += part.text;
  }
  const sought = texts.map((text, i) => soughtOf(text, blanks, { start: i === 0, end: i === texts.length - 1 }));
  const steps = names.map((name, i): Step => {
    const slot = pattern.slots.get(name) ?? null;
    const behind = sought[i + 1]!;
    return {
      name,
      slot,
      mayBeEmpty: slot?.code?.kind === "text" || slot?.code?.kind === "list",
      within: withinOf(slot?.code ?? null),
      behind: behind.text === "" ? null : behind,
      again: names.indexOf(name) === i ? "none" : isEitherCase(slot?.code ?? null) ? "either-case" : "same",
    };
  });
  return { first: sought[0]!, steps };
}

function withinOf(code: Code | null): Within | null {
  if (code?.kind === "text" && code.within !== "") return { text: code, by: null };
  if (code?.kind === "list" && code.of.kind === "text" && code.of.within !== "") return { text: code.of, by: code.by };
  return null;
}

/** Digits above 9 are letters, which are read in either case. */
function isEitherCase(code: Code | null): boolean {
  return code !== null && "base" in code && code.base > 10;
}

/** Matches the form of a line, from its beginning to its end: each slot once, in order; null where it does not fit. */
export function matchForm({ first, steps }: Compiled, line: LineForm): readonly SlotText[] | null {
  if (!standsAt(line, first, line.start)) return null;
  let at = line.start + first.text.length;
  if (steps.length === 0) return at === line.end ? NO_SLOTS : null;
  const slots: SlotText[] = [];
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    // With loose blanks a text may have ended with the blank behind the line.
    const from = Math.min(at, line.end);
    const ending = endOfSlot(line, step, from, i === steps.length - 1);
    if (ending === null) return null;
    at = ending.next;
    const [start, end] = [columnAt(line, from), columnAt(line, Math.max(from, ending.at))];
    const text = line.raw.slice(start, end);
    const before = step.again === "none" ? undefined : slots.find(({ name }) => name === step.name);
    if (before && !holdsSame(before.text, text, step.again)) return null;
    if (!before) slots.push({ name: step.name, text, start, end });
    else slots[slots.indexOf(before)] = { ...before, again: [...(before.again ?? []), { start, end }] };
  }
  return at === line.end ? slots : null;
}

const NO_SLOTS: readonly SlotText[] = [];

function holdsSame(a: string, b: string, how: Step["again"]): boolean {
  return a === b || (how === "either-case" && a.toLowerCase() === b.toLowerCase());
}

/** Where a slot that begins at `start` ends, and where the text behind it does; null where it cannot end. */
function endOfSlot(line: LineForm, step: Step, start: number, isLast: boolean): { at: number; next: number } | null {
  const { behind, within, mayBeEmpty } = step;
  const closed = within && closingEnd(line.text, start, line.end, within);
  if (closed) {
    if (!behind) return { at: closed, next: closed };
    return standsAt(line, behind, closed) ? { at: closed, next: closed + behind.text.length } : null;
  }
  if (!behind) return line.end === start && !mayBeEmpty ? null : { at: line.end, next: line.end };
  const at = nextPlace(line, behind, mayBeEmpty ? emptyStart(line, behind, start) : start + 1);
  if (at < 0 || at > line.end) return null;
  // What is beyond the line's end is a blank that does not count there; a slot that may be empty may still follow.
  if (at + behind.text.length > line.end && isLast) return null;
  return { at, next: at + behind.text.length };
}

/** An empty slot with a blank on either side leaves one run of blanks, which serves the texts on both sides. */
function emptyStart(line: LineForm, behind: Sought, start: number): number {
  const isShared = line.raw !== line.text && behind.text.startsWith(" ") && line.text.charAt(start - 1) === " ";
  return isShared ? start - 1 : start;
}

/** Behind the mark that closes a text which begins at `start`, or the last of a list; null where there is none. */
function closingEnd(text: string, start: number, end: number, { text: code, by }: Within): number | null {
  let at = closingMark(text, start, end, code);
  while (at !== null && by !== null && by !== "" && text.startsWith(by, at)) {
    const next = closingMark(text, at + by.length, end, code);
    if (next === null) break;
    at = next;
  }
  return at;
}

function closingMark(text: string, start: number, end: number, { within, escape: before }: TextCode): number | null {
  if (!text.startsWith(within, start)) return null;
  for (let at = start + within.length; at + within.length <= end; ) {
    const isEscape = before !== "" && text.startsWith(before, at);
    const behind = at + before.length;
    // Where mark and escape are the same, two of them are one that belongs to the text.
    if (isEscape && (text.startsWith(within, behind) || text.startsWith(before, behind)) && behind < end)
      at = behind + (text.startsWith(within, behind) ? within.length : before.length);
    else if (text.startsWith(within, at)) return at + within.length;
    else at++;
  }
  return null;
}
