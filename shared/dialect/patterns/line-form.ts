/**
 * The form in which a board line and the text of a pattern are compared. With loose blanks every run of them is one
 * blank and none counts at the ends, so that comparing is plain search, and slots keep their columns in the line as it
 * stands.
 */
import type { TextFacts } from "../dialect.ts";

export type Blanks = TextFacts["blanks"];

/** A board line, ready to be compared with any number of patterns. */
export interface LineForm {
  /** As it stands in the text. */
  readonly raw: string;
  /** With loose blanks: each run of blanks as one space, one more space in front and one behind. */
  readonly text: string;
  /** Where the line begins and ends in `text`, without the spaces in front and behind. */
  readonly start: number;
  readonly end: number;
  /** `text` with a tab for each run that has one; null where no run has. */
  readonly tabbed: string | null;
  /** The column of the line for each place in `text`; null where all lie `shift` further. */
  readonly columns: readonly number[] | null;
  readonly shift: number;
}

/** A piece of text as it is sought in the form of a line. */
export interface Sought {
  readonly text: string;
  /** The places in it where the run of blanks must have a tab; empty where any blanks will do. */
  readonly tabs: readonly number[];
  /** How far one may fall back after a part that fits; null for a text so short that plain search is faster. */
  readonly fallback: Int32Array | null;
}

/** The longest text for which plain search, which may compare each of its characters anew, costs nothing. */
const SHORT = 24;

/** A line in the form in which it is compared. Linear in its length. */
export function lineForm(raw: string, blanks: Blanks): LineForm {
  if (blanks === "exact") return { raw, text: raw, start: 0, end: raw.length, tabbed: null, columns: null, shift: 0 };
  let [from, to] = [0, raw.length];
  while (from < to && isBlank(raw.charCodeAt(from))) from++;
  while (to > from && isBlank(raw.charCodeAt(to - 1))) to--;
  const core = from === 0 && to === raw.length ? raw : raw.slice(from, to);
  const plain = ` ${core} `;
  if (!core.includes("\t") && !core.includes("  "))
    return { raw, text: plain, start: 1, end: plain.length - 1, tabbed: null, columns: null, shift: from - 1 };
  return collapsed(raw, core, from);
}

function collapsed(raw: string, core: string, from: number): LineForm {
  const text = ` ${core.replace(RUNS, " ")} `;
  let columns: readonly number[] | null = null;
  return {
    raw,
    text,
    start: 1,
    end: text.length - 1,
    tabbed: core.includes("\t") ? ` ${core.replace(RUNS, (run) => (run.includes("\t") ? "\t" : " "))} ` : null,
    // Most lines fit no pattern, or are known by their text: then nobody asks for columns.
    get columns() {
      columns ??= columnsOf(core, from);
      return columns;
    },
    shift: 0,
  };
}

/** The column at which each character of a core with one blank for each run of them begins. */
function columnsOf(core: string, from: number): number[] {
  const columns: number[] = [from - 1];
  for (let at = 0; at < core.length; at++) {
    if (at > 0 && isBlank(core.charCodeAt(at)) && isBlank(core.charCodeAt(at - 1))) continue;
    columns.push(from + at);
  }
  columns.push(from + core.length);
  return columns;
}

/** The column of the line at a place in its form. */
export function columnAt({ columns, shift }: LineForm, at: number): number {
  return columns ? (columns[at] ?? 0) : at + shift;
}

/** A text as it is sought. `trims` says at which of its ends blanks do not count; with exact blanks all of them do. */
export function soughtOf(text: string, blanks: Blanks, trims: { start?: boolean; end?: boolean } = {}): Sought {
  if (blanks === "exact") return { text, tabs: [], fallback: fallbackOf(text) };
  let kept = text;
  if (trims.start) kept = kept.replace(/^[ \t]+/, "");
  if (trims.end) kept = kept.replace(/[ \t]+$/, "");
  const tabs: number[] = [];
  const form = kept.replace(/[ \t]+/g, (run) => (run.includes("\t") ? "\t" : " "));
  for (let at = form.indexOf("\t"); at >= 0; at = form.indexOf("\t", at + 1)) tabs.push(at);
  const plain = form.replaceAll("\t", " ");
  return { text: plain, tabs, fallback: fallbackOf(plain) };
}

/** Whether the text stands at a place of the line. */
export function standsAt(line: LineForm, sought: Sought, at: number): boolean {
  return line.text.startsWith(sought.text, at) && hasTabs(line, sought, at);
}

/** The first place from `from` on where the text stands; -1 without one. Linear in what is left of the line. */
export function nextPlace(line: LineForm, sought: Sought, from: number): number {
  for (let at = from; ; at++) {
    at = sought.fallback ? searched(line.text, sought.text, sought.fallback, at) : line.text.indexOf(sought.text, at);
    if (at < 0 || hasTabs(line, sought, at)) return at;
  }
}

function hasTabs({ tabbed }: LineForm, { tabs }: Sought, at: number): boolean {
  if (tabs.length === 0) return true;
  return tabbed !== null && tabs.every((tab) => tabbed.charCodeAt(at + tab) === TAB);
}

/**
 * For each length of a part that fits, the length of the longest shorter one that then still fits (Knuth, Morris and
 * Pratt, “Fast pattern matching in strings”, 1977).
 */
function fallbackOf(text: string): Int32Array | null {
  if (text.length <= SHORT) return null;
  const fallback = new Int32Array(text.length + 1);
  let fits = 0;
  for (let i = 1; i < text.length; i++) {
    while (fits > 0 && text.charCodeAt(i) !== text.charCodeAt(fits)) fits = fallback[fits]!;
    if (text.charCodeAt(i) === text.charCodeAt(fits)) fits++;
    fallback[i + 1] = fits;
  }
  return fallback;
}

function searched(text: string, sought: string, fallback: Int32Array, from: number): number {
  let fits = 0;
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    while (fits > 0 && code !== sought.charCodeAt(fits)) fits = fallback[fits]!;
    if (code === sought.charCodeAt(fits)) fits++;
    if (fits === sought.length) return at + 1 - fits;
  }
  return -1;
}

function isBlank(code: number): boolean {
  return code === SPACE || code === TAB;
}

const RUNS = /[ \t]+/g;
const SPACE = 32;
const TAB = 9;
