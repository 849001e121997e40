/** Reads the right side of a fact: the entry that a left side means, with slots where its values stand. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec, SettingSpec } from "../../catalogue/specs.ts";
import { unitSymbol } from "../../catalogue/units.ts";
import { didYouMean, similarNames } from "../../model/similar-names.ts";
import { type Fault, isFault } from "../../syntax/read-context.ts";
import type { Cols } from "../../syntax/span.ts";
import { parseFormula } from "../curves/formula.ts";
import type { RangeShape, Ref, Right, Template, ValueTemplate } from "../dialect.ts";
import { afterQuotes, factScanner, unfit } from "./fact-scanner.ts";

/** What the readers of a right side share. */
interface Task {
  readonly text: string;
  readonly spec: SectionSpec;
  readonly catalogue: Catalogue;
}

const REF = /\{([a-z][a-z0-9-]*)(?:\.([a-z][a-z0-9-]*))?\}/;
const WHOLE_REF = new RegExp(`^${REF.source}$`);
const REFS = new RegExp(REF.source, "g");

/** Reads the entry in these columns; a fault where it is none. */
export function readRight(text: string, at: Cols, spec: SectionSpec, catalogue: Catalogue): Right | Fault {
  const task: Task = { text, spec, catalogue };
  const head = { start: at.start, end: endOfWord(text, at.start, at.end) };
  if (head.end === head.start)
    return unfit(
      { start: at.start - 1, end: at.start },
      "The entry that this line means is expected behind the board's text.",
    );
  const name = readTemplate(text, head);
  if (isFault(name)) return name;
  const known = knownName(task, head, name);
  if (isFault(known)) return known;
  const rest = trimmed(text, head.end, at.end);
  const value =
    rest.start === rest.end
      ? unfit(head, "What this name is set to is missing: a slot, a value, or “unset”.")
      : readAfterName(task, rest, known);
  return isFault(value) ? value : { name, value };
}

/** The setting that a constant name means; null for other names and for those that slots make. */
function knownName({ spec, catalogue }: Task, at: Cols, name: Template): SettingSpec | null | Fault {
  const [word] = name;
  if (name.length !== 1 || typeof word !== "string") return null;
  const { holds } = spec;
  const unknown = (what: string, candidates: readonly (string | { name: string; words?: readonly string[] })[]) => {
    const offered = similarNames(word, candidates);
    return {
      ...unfit(at, `“${spec.name}” has no ${what} “${word}”${offered.length > 0 ? `:${didYouMean(offered)}` : "."}`),
      code: "unknown-name" as const,
      unknown: { word, candidates: offered, chosen: true },
    };
  };
  if (holds === "modes") return catalogue.mode(word) ? null : unknown("mode", catalogue.modes);
  if (holds === "outputs") return null;
  if (holds === "follows")
    return catalogue.sections.some(({ name: section }) => catalogue.setting(section, word))
      ? null
      : unknown("setting", []);
  if (holds === "places" && catalogue.element(word)) return null;
  const setting = catalogue.setting(spec.name, word);
  if (setting) return setting;
  if (spec.name === "pack" && FIGURES.has(word)) return null;
  return holds === "places"
    ? unknown("setting or element", [...catalogue.settingsOf(spec.name), ...catalogue.elements])
    : unknown("setting", catalogue.settingsOf(spec.name));
}

/** What boards know of two settings at once: (top + bottom) / bottom of the divider, and shunt times gain. */
const FIGURES: ReadonlySet<string> = new Set(["divider-ratio", "shunt-scale"]);

function readAfterName(task: Task, at: Cols, setting: SettingSpec | null): ValueTemplate | Fault {
  const { text, spec } = task;
  const scan = factScanner(text, at);
  const word = scan.match(/[a-z]+(?![\w-])/y)?.text;
  const rest = trimmed(text, scan.lastEnd(), at.end);
  if (word === "unset" && scan.done()) return { kind: "unset" };
  if (spec.holds === "modes" || spec.holds === "outputs")
    return word === "when"
      ? readShape(text, rest)
      : unfit(at, "“when” is expected behind the name, as in “{m} when {c} in {a} to {b}”.");
  if (word === "at" && spec.holds === "places") return readCell(task, rest);
  if (word === "curve") {
    const formula = parseFormula(text.slice(rest.start, rest.end), rest.start);
    return isFault(formula) ? formula : { kind: "curve", formula };
  }
  if (word === "follows" && spec.holds === "follows") return readFollows(task, rest);
  if (spec.holds === "follows")
    return unfit(at, "“follows” is expected behind the name, as in “{m} follows {c} from {a} to {b}”.");
  return readValue(task, at, setting?.types.some(({ is }) => is === "fields") ?? null, fieldNames(task, setting));
}

/** The names of the fields that a setting has, or any setting of the section where slots make its name. */
function fieldNames({ spec, catalogue }: Task, setting: SettingSpec | null): ReadonlySet<string> {
  const settings = setting ? [setting] : catalogue.settingsOf(spec.name);
  const types = settings.flatMap((each) => each.types);
  return new Set(types.flatMap((type) => (type.is === "fields" ? type.fields.map(({ name }) => name) : [])));
}

/** The columns of fields one after another, as `slope {s} end {e}`: each begins with one of these names. */
function fieldsIn(text: string, at: Cols, names: ReadonlySet<string>): Cols[] {
  const fields: { start: number; end: number }[] = [];
  for (const word of splitAt(text, at, /[ \t]+/y)) {
    if (names.has(text.slice(word.start, word.end))) fields.push({ ...word });
    else if (fields.length === 0) return [];
    else fields.at(-1)!.end = word.end;
  }
  return fields;
}

/**
 * A value of any form. `fields`: whether it is one of several named values; null where that is not known. `names`: what
 * they are called.
 */
function readValue(
  task: Task,
  at: Cols,
  fields: boolean | null,
  names: ReadonlySet<string> = new Set(),
): ValueTemplate | Fault {
  const { text } = task;
  const plain = text.slice(at.start, at.end).includes(",") ? [] : fieldsIn(text, at, names);
  if (plain.length > 0) {
    const read = plain.map((item) => readField(task, item));
    return read.find(isFault) ?? { kind: "fields", fields: read.flatMap((each) => (isFault(each) ? [] : [each])) };
  }
  const items = splitAt(text, at, /,/y);
  const named = items.filter((item) => isNamed(text, item)).length;
  if (named > 0 && fields !== false && (fields || named === items.length)) {
    const read = items.map((item) => readField(task, item));
    const problem = read.find(isFault);
    return problem ?? { kind: "fields", fields: read.flatMap((each) => (isFault(each) ? [] : [each])) };
  }
  if (!text.slice(at.start, at.end).includes("{")) return { kind: "constant", text: text.slice(at.start, at.end) };
  if (items.length > 1) {
    const read = items.map((item) => readOne(task, item));
    return read.find(isFault) ?? { kind: "list", items: read.filter((each) => !isFault(each)) };
  }
  return readOne(task, at);
}

/** True for `slope {s}` and `motor{n} {v}`: a word, and behind it what it is set to. */
function isNamed(text: string, { start, end }: Cols): boolean {
  return (
    /^(?:[a-z][a-z0-9-]*|(?:[a-z][a-z0-9-]*)?\{[^}]*\}[a-z0-9-]*)[ \t]+(?!to\b|x\b|\+)\S/.test(
      text.slice(start, end),
    ) && !WORD_UNIT.test(text.slice(start, end))
  );
}

/** A slot with a unit behind it names nothing. */
const WORD_UNIT = /^\{[^}]*\}[ \t]+(%|[A-Za-z\u00b5\u03bc]+(\/[A-Za-z]+)?)$/;

function readField(task: Task, at: Cols): { name: Template; value: ValueTemplate } | Fault {
  const { text } = task;
  const head = { start: at.start, end: endOfWord(text, at.start, at.end) };
  const name = readTemplate(text, head);
  if (isFault(name)) return name;
  const rest = trimmed(text, head.end, at.end);
  if (rest.start === rest.end) return unfit(head, "What this field is set to is missing.");
  const value = readValue(task, rest, false);
  return isFault(value) ? value : { name, value };
}

function readOne(task: Task, at: Cols): ValueTemplate | Fault {
  const { text } = task;
  const said = text.slice(at.start, at.end);
  if (said === "") return unfit({ start: at.start - 1, end: at.start }, "A value is missing here.");
  if (!said.includes("{")) return { kind: "constant", text: said };
  if (said.startsWith('"')) {
    const quoted = factScanner(text, at).quoted();
    if (quoted?.end !== at.end) return unfit(at, "Text in quotes ends with its quote: nothing may stand behind it.");
    const parts = templateOf(quoted.text);
    return parts ? { kind: "text", parts } : unfit(at, SLOT_WRONG);
  }
  const range = splitAt(text, at, /[ \t]to[ \t]/y);
  if (range.length === 2) return both(task, range, (from, to) => ({ kind: "range", from, to }));
  const size = splitAt(text, at, /[ \t]x[ \t]/y);
  if (size.length === 2) return both(task, size, (columns, rows) => ({ kind: "size", columns, rows }));
  const terms = splitAt(text, at, /\+/y);
  return terms.length > 1 ? readTerms(text, terms) : readWords(task, at);
}

/** `{h} + {l} V`: the unit stands behind the last. */
function readTerms(text: string, terms: readonly Cols[]): ValueTemplate | Fault {
  const refs: Ref[] = [];
  let unit = "";
  for (const [i, term] of terms.entries()) {
    const isLast = i === terms.length - 1;
    const first = { start: term.start, end: endOfWord(text, term.start, term.end) };
    const rest = trimmed(text, first.end, term.end);
    const ref = refOf(text.slice(first.start, first.end));
    if (!ref) return unfit(first, "Only slots are added up, as in “{h} + {l}”.");
    if (rest.start < rest.end) {
      const symbol = isLast ? unitSymbol(text.slice(rest.start, rest.end)) : undefined;
      if (symbol === undefined) return unfit(rest, isLast ? NO_UNIT : "The unit stands once, behind the last slot.");
      unit = symbol;
    }
    refs.push(ref);
  }
  return { kind: "value", terms: refs, unit };
}

/** A slot with or without a unit, or words and slots with blanks between them: an order. */
function readWords(task: Task, at: Cols): ValueTemplate | Fault {
  const { text } = task;
  const words = splitAt(text, at, /[ \t]+/y);
  const ref = refOf(text.slice(words[0]!.start, words[0]!.end));
  const unit = words.length === 2 ? unitSymbol(text.slice(words[1]!.start, words[1]!.end)) : undefined;
  if (ref && words.length === 1) return { kind: "value", terms: [ref], unit: "" };
  if (ref && unit !== undefined) return { kind: "value", terms: [ref], unit };
  if (words.length === 1) {
    const parts = readTemplate(text, words[0]!);
    return isFault(parts) ? parts : { kind: "word", parts };
  }
  const items: ValueTemplate[] = [];
  for (const word of words) {
    const said = text.slice(word.start, word.end);
    const one = refOf(said);
    if (!one && said.includes("{")) return unfit(word, SLOT_WRONG);
    items.push(one ? { kind: "value", terms: [one], unit: "" } : { kind: "constant", text: said });
  }
  return { kind: "order", items };
}

const SLOT_WRONG = "A slot stands on the right as “{w}”, a part of it as “{p.row}”.";
const NO_UNIT = "This is no unit: write one that the setting takes, as “V”, or leave it out.";

function both(
  task: Task,
  [a, b]: readonly Cols[],
  make: (a: ValueTemplate, b: ValueTemplate) => ValueTemplate,
): ValueTemplate | Fault {
  const first = readOne(task, a!);
  if (isFault(first)) return first;
  const second = readOne(task, b!);
  return isFault(second) ? second : make(first, second);
}

function readCell(task: Task, at: Cols): ValueTemplate | Fault {
  const parts = splitAt(task.text, at, /,/y);
  if (parts.length !== 2)
    return unfit(at, "A place is a column and a row with a comma between, as in “{e} at {p.column}, {p.row}”.");
  return both(task, parts, (column, row) => ({ kind: "cell", column, row }));
}

const FOLLOWS = /^(\{[^}]*\})[ \t]+from[ \t]+/;

function readFollows(task: Task, at: Cols): ValueTemplate | Fault {
  const { text } = task;
  const match = FOLLOWS.exec(text.slice(at.start, at.end));
  const dial = match && refOf(match[1]!);
  const ends = match ? splitAt(text, { start: at.start + match[0].length, end: at.end }, /[ \t]to[ \t]/y) : [];
  if (!dial || ends.length !== 2)
    return unfit(at, "The dial and both ends are expected, as in “{m} follows {c} from {a} to {b}”.");
  return both(task, ends, (from, to) => ({ kind: "follows", dial, from, to }));
}

/** `{c} in {a} to {b}`, several with `and` between; a mode; `always`. */
function readShape(text: string, at: Cols): ValueTemplate | Fault {
  const said = text.slice(at.start, at.end);
  if (said === "always") return { kind: "condition", shape: { kind: "always" } };
  const ref = refOf(said);
  if (ref) return { kind: "condition", shape: { kind: "mode", mode: ref } };
  if (/^[a-z][a-z0-9-]*$/.test(said)) return { kind: "condition", shape: { kind: "mode", mode: said } };
  const ranges: RangeShape[] = [];
  for (const part of splitAt(text, at, /[ \t]and[ \t]/y)) {
    const match = /^(\S+)[ \t]+in[ \t]+(\S+)(?:[ \t]+us)?[ \t]+to[ \t]+(\S+)(?:[ \t]+us)?$/.exec(
      text.slice(part.start, part.end),
    );
    const channel = match && (refOf(match[1]!) ?? channelOf(match[1]!));
    const from = match && (refOf(match[2]!) ?? pulseOf(match[2]!));
    const to = match && (refOf(match[3]!) ?? pulseOf(match[3]!));
    if (channel === null || from === null || to === null)
      return unfit(
        part,
        "A condition is “{c} in {a} to {b}”, several of them with “and” between, a slot or name of a mode, or “always”.",
      );
    ranges.push({ channel, from, to });
  }
  return { kind: "condition", shape: { kind: "ranges", ranges } };
}

function channelOf(text: string): number | null {
  const match = /^ch(\d{1,2})$/.exec(text);
  return match ? Number(match[1]) : null;
}

function pulseOf(text: string): number | null {
  return /^\d{1,4}(\.\d+)?$/.test(text) ? Number(text) : null;
}

/** The slot of a text that is one and nothing else. */
function refOf(text: string): Ref | null {
  const match = WHOLE_REF.exec(text);
  return match && { slot: match[1]!, part: match[2] ?? null };
}

/** Text with slots in it; a fault where a brace is no slot. */
export function readTemplate(text: string, at: Cols): Template | Fault {
  return templateOf(text.slice(at.start, at.end)) ?? unfit(at, SLOT_WRONG);
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
function splitAt(text: string, { start, end }: Cols, separator: RegExp): Cols[] {
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

function trimmed(text: string, from: number, to: number): Cols {
  let [start, end] = [from, to];
  while (start < end && isBlank(text, start)) start++;
  while (end > start && isBlank(text, end - 1)) end--;
  return { start, end };
}

function isBlank(text: string, at: number): boolean {
  return text[at] === " " || text[at] === "\t";
}

/** Where the word at `from` ends: at a blank outside of braces. */
function endOfWord(text: string, from: number, end: number): number {
  let at = from;
  while (at < end && !isBlank(text, at)) {
    const close = text[at] === "{" ? text.indexOf("}", at) : -1;
    at = close >= 0 && close < end ? close + 1 : at + 1;
  }
  return at;
}
