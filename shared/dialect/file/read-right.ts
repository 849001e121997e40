/** Reads the right side of a fact: the entry that a left side means, with slots where its values stand. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec, SettingSpec } from "../../catalogue/specs.ts";
import { adjustable } from "../../model/read-entry.ts";
import { type Fault, isFault } from "../../syntax/read-context.ts";
import type { Cols } from "../../syntax/span.ts";
import { parseFormula } from "../curves/formula.ts";
import type { RangeShape, Right, Template, ValueTemplate } from "../dialect.ts";
import { factScanner, unfit } from "./fact-scanner.ts";
import { endOfWord, readTemplate, refOf, splitAt, trimmed } from "./read-template.ts";
import { both, readOne, readValue } from "./read-value-template.ts";

/** Reads the entry in these columns; a fault where it is none. */
export function readRight(text: string, at: Cols, spec: SectionSpec, catalogue: Catalogue): Right | Fault {
  const head = { start: at.start, end: endOfWord(text, at.start, at.end) };
  if (head.end === head.start)
    return unfit(
      { start: Math.max(0, at.start - 1), end: at.start },
      "The entry that this line means is expected behind the board's text.",
    );
  const rest = trimmed(text, head.end, at.end);
  if (text.slice(at.start, at.end) === "unset") return { name: [], value: { kind: "unset" } };
  const name = readTemplate(text, head);
  if (isFault(name)) return name;
  const settings = knownSettings(text, head, name, spec, catalogue);
  if (isFault(settings)) return settings;
  if (rest.start === rest.end)
    return unfit(
      head,
      `What “${text.slice(head.start, head.end)}” is set to is missing: write a slot, a value, or “unset” behind it.`,
    );
  const value = readAfterName(text, rest, spec, settings, catalogue);
  return isFault(value) ? value : { name, value };
}

/** What boards know of two settings at once: (top + bottom) / bottom of the divider, and shunt times gain. */
export const FIGURES: ReadonlySet<string> = new Set(["divider-ratio", "shunt-scale"]);

/** The settings that a name may mean; none for a mode, an output or an element. */
function knownSettings(
  text: string,
  at: Cols,
  name: Template,
  spec: SectionSpec,
  catalogue: Catalogue,
): readonly SettingSpec[] | Fault {
  const { holds } = spec;
  const all = holds === "settings" || holds === "places" ? catalogue.settingsOf(spec.name) : [];
  const [word] = name;
  if (name.length !== 1 || typeof word !== "string") return all.filter((each) => mayBe(name, each.name));
  if (holds === "outputs") return [];
  if (holds === "places" && catalogue.element(word)) return [];
  if (holds === "modes") return catalogue.mode(word) ? [] : unknown(text, at, "mode", spec, catalogue.modes);
  if (holds === "follows") {
    const setting = adjustable(word, catalogue);
    if (setting) return [setting];
    const movable = catalogue.sections.flatMap(({ settings }) => settings.filter((each) => each.adjustable));
    return unknown(text, at, "setting that a dial may move", spec, movable);
  }
  const setting = catalogue.setting(spec.name, word);
  if (setting) return [setting];
  if (spec.name === "pack" && FIGURES.has(word)) return [];
  return holds === "places"
    ? unknown(text, at, "setting or element", spec, [...all, ...catalogue.elements])
    : unknown(text, at, "setting", spec, all);
}

/** Whether slots can make this name of a template. */
function mayBe(template: Template, name: string): boolean {
  const [first, last] = [template[0], template.at(-1)];
  return (typeof first !== "string" || name.startsWith(first)) && (typeof last !== "string" || name.endsWith(last));
}

function unknown(
  text: string,
  at: Cols,
  what: string,
  spec: SectionSpec,
  candidates: readonly { readonly name: string; readonly words?: readonly string[] }[],
): Fault {
  const word = text.slice(at.start, at.end);
  return {
    ...unfit(at, `“${spec.name}” has no ${what} “${word}”.`),
    code: "unknown-name",
    unknown: { word, candidates: candidates.map(({ name }) => name) },
  };
}

function readAfterName(
  text: string,
  at: Cols,
  spec: SectionSpec,
  settings: readonly SettingSpec[],
  catalogue: Catalogue,
): ValueTemplate | Fault {
  const scan = factScanner(text, at);
  const word = scan.match(/[a-z]+(?![\w-])/y)?.text;
  const rest = trimmed(text, scan.lastEnd(), at.end);
  if (word === "unset" && scan.done()) return { kind: "unset" };
  if (spec.holds === "modes" || spec.holds === "outputs")
    return word === "when"
      ? readShape(text, rest, catalogue)
      : unfit(at, "“when” is expected behind the name, as in “{m} when {c} in {a} to {b}”.");
  if (word === "at" && spec.holds === "places") return readCell(text, rest);
  if (word === "curve" && spec.holds === "settings") {
    const formula = parseFormula(text.slice(rest.start, rest.end), rest.start);
    return isFault(formula) ? formula : { kind: "curve", formula };
  }
  if (word === "follows" && spec.holds === "follows") return readFollows(text, rest);
  if (spec.holds === "follows")
    return unfit(at, "“follows” is expected behind the name, as in “{m} follows {c} from {a} to {b}”.");
  return readValue(text, at, settings);
}

const ANCHORED = /^(?:left|centre|right|top|middle|bottom)[+-]/;

function readCell(text: string, at: Cols): ValueTemplate | Fault {
  const parts = splitAt(text, at, /,/y);
  if (parts.length !== 2)
    return unfit(at, "A place is a column and a row with a comma between, as in “{e} at {p.column}, {p.row}”.");
  return both(text, parts, readAxis, (column, row) => ({ kind: "cell", column, row }));
}

/** One axis of a place: `{x}`, or from an anchor, `left+{x}`. */
function readAxis(text: string, at: Cols): ValueTemplate | Fault {
  const said = text.slice(at.start, at.end);
  if (!ANCHORED.test(said) || !said.includes("{")) return readOne(text, at);
  const parts = readTemplate(text, at);
  return isFault(parts) ? parts : { kind: "word", parts };
}

const FOLLOWS = /^(\{[^}]*\})[ \t]+from[ \t]+/;

function readFollows(text: string, at: Cols): ValueTemplate | Fault {
  const match = FOLLOWS.exec(text.slice(at.start, at.end));
  const dial = match && refOf(match[1]!);
  const ends = match ? splitAt(text, { start: at.start + match[0].length, end: at.end }, /[ \t]to[ \t]/y) : [];
  if (!dial || ends.length !== 2)
    return unfit(
      at.start < at.end ? at : { start: at.start - 1, end: at.end },
      "The dial and both ends are expected, as in “{m} follows {c} from {a} to {b}”.",
    );
  return both(text, ends, readOne, (from, to) => ({ kind: "follows", dial, from, to }));
}

const RANGE = /^(\S+)[ \t]+in[ \t]+(\S+?)(?:[ \t]*us)?[ \t]+to[ \t]+(\S+?)(?:[ \t]*us)?$/;

/** `{c} in {a} to {b}`, several with `and` between; a mode; `always`. */
function readShape(text: string, at: Cols, catalogue: Catalogue): ValueTemplate | Fault {
  const said = text.slice(at.start, at.end);
  if (said === "always") return { kind: "condition", shape: { kind: "always" } };
  const ref = refOf(said);
  if (ref) return { kind: "condition", shape: { kind: "mode", mode: ref } };
  if (/^[a-z][a-z0-9-]*$/.test(said)) {
    if (catalogue.mode(said)) return { kind: "condition", shape: { kind: "mode", mode: said } };
    return {
      ...unfit(at, `There is no mode “${said}”.`),
      code: "unknown-name",
      unknown: { word: said, candidates: catalogue.modes.map(({ name }) => name) },
    };
  }
  const ranges: RangeShape[] = [];
  for (const part of splitAt(text, at, /[ \t]and[ \t]/y)) {
    const match = RANGE.exec(text.slice(part.start, part.end));
    const channel = match && (refOf(match[1]!) ?? channelOf(match[1]!));
    const from = match && (refOf(match[2]!) ?? pulseOf(match[2]!));
    const to = match && (refOf(match[3]!) ?? pulseOf(match[3]!));
    if (channel === null || from === null || to === null)
      return unfit(
        part.start < part.end ? part : { start: Math.max(0, part.start - 1), end: part.end },
        "A condition is “{c} in {a} to {b}”, several of them with “and” between, a slot or name of a mode, or “always”; for “or” write a line of its own.",
      );
    ranges.push({ channel, from, to });
  }
  return { kind: "condition", shape: { kind: "ranges", ranges } };
}

function channelOf(text: string): number | null {
  const match = /^ch([1-9]\d?)$/.exec(text);
  return match ? Number(match[1]) : null;
}

function pulseOf(text: string): number | null {
  return /^\d{1,4}(\.\d+)?$/.test(text) ? Number(text) : null;
}
