/** What one meaning of a dialect says, once its slots are known: an entry of a script, judged as the model judges it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec, SettingSpec } from "../../catalogue/specs.ts";
import { beyondLimits } from "../../model/limits.ts";
import { mayHold } from "../../model/may-hold.ts";
import type { ParsedEntry } from "../../model/parsed-entry.ts";
import { readEntry } from "../../model/read-entry.ts";
import { readSetting } from "../../model/read-value.ts";
import { units } from "../../model/units.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { Value, ValueOf } from "../../syntax/value.ts";
import { textOfHeld } from "../codes/codes.ts";
import { CHANNEL, exactIn, numberIn } from "../codes/held.ts";
import { ourCurveOf } from "../curves/curves.ts";
import { slotsOfFormula } from "../curves/slots-of-formula.ts";
import type { Held, Meaning, Shape } from "../dialect.ts";
import { type Exact, exactOf, numberOf } from "../exact.ts";
import { refsOf } from "../file/link-facts.ts";
import { inCatalogueUnits } from "./catalogue-units.ts";
import { type HeldSlots, heldOf, type Made, templateText, valueText, valueTexts } from "./value-text.ts";

/** A range of pulses on a channel, both ends included. */
export interface PulseRange {
  readonly channel: number;
  readonly fromUs: number;
  readonly toUs: number;
}

/** What an entry is set to. */
export type Body =
  /** `text` is the canonical spelling, with the keyword of its kind in front. */
  | { readonly kind: "value"; readonly value: Value; readonly text: string }
  /** All of these at once. */
  | { readonly kind: "ranges"; readonly ranges: readonly PulseRange[] }
  /** Another mode, or `always`. */
  | { readonly kind: "condition"; readonly text: string }
  | { readonly kind: "follows"; readonly channel: number; readonly from: string; readonly to: string }
  /** `divider-ratio` or `shunt-scale`: two settings of which the board knows only one figure. */
  | { readonly kind: "figure"; readonly of: FigureName; readonly figure: Exact }
  | { readonly kind: "unset" };

export type FigureName = "divider-ratio" | "shunt-scale";

export interface Said {
  /** Section and name; a figure by the setting that is worked out of it. Equal for what cannot both count. */
  readonly key: string;
  /** As resolved: `pack/NAME` for a named pack. */
  readonly section: string;
  readonly spec: SectionSpec;
  readonly title: string | null;
  readonly name: string;
  readonly setting: SettingSpec | null;
  readonly body: Body;
  readonly deviationDegS: number | null;
  /** Some of its slots say that nothing is set. */
  readonly isPartlyUnset: boolean;
}

export type Outcome =
  | { readonly kind: "said"; readonly said: Said }
  /** It says that nothing is set, of whatever name. */
  | { readonly kind: "nothing" }
  /** The value does not fit, so that the line may mean something else. */
  | { readonly kind: "unfit"; readonly why: string }
  /** It fits, and the value is beyond what we take. */
  | { readonly kind: "beyond"; readonly why: string };

/** How an entry is read. */
export interface EntryReader {
  readonly catalogue: Catalogue;
  /** Entries by section and text: many lines say the same. */
  readonly known: Map<string, JudgedText>;
  readonly curves: Map<string, ReturnType<typeof ourCurveOf>>;
}

/** An entry as the model judges it. */
export interface JudgedText {
  readonly value: Value | null;
  /** Why it has no value. */
  readonly fault: string | null;
  /** How it is beyond a hard limit. */
  readonly beyond: string | null;
  readonly setting: SettingSpec | null;
}

export function entryReader(catalogue: Catalogue): EntryReader {
  return { catalogue, known: new Map(), curves: new Map() };
}

/** As many entries as are remembered: what is repeated is repeated soon. */
const MOST_KNOWN = 1000;

/** An entry as text of a script, read by the model. */
export function readText(reader: EntryReader, spec: SectionSpec, name: string, rest: string): JudgedText {
  const key = `${spec.name} ${name} ${rest}`;
  let entry = reader.known.get(key);
  if (!entry) {
    const text = `  ${name} ${rest}`;
    const start = name.length + 3;
    const at = { start, end: Math.max(start, text.length) };
    entry = judgedText(readEntry(text, { text: name, start: 2, end: name.length + 2 }, at, spec, reader.catalogue));
    if (reader.known.size >= MOST_KNOWN) reader.known.clear();
    reader.known.set(key, entry);
  }
  return entry;
}

function judgedText({ value, fault, beyond, setting }: Omit<ParsedEntry, "kind" | "pieces">): JudgedText {
  return { value, fault: fault?.message ?? null, beyond: beyond[0]?.message ?? null, setting };
}

/**
 * What a meaning says. `whole`: all of the entry must stand there; else fields that it lacks may stand in other lines
 * of the same number.
 */
export function outcomeOf(reader: EntryReader, meaning: Meaning, slots: HeldSlots, whole: boolean): Outcome {
  const { catalogue } = reader;
  const spec = catalogue.section(meaning.section);
  if (!spec || !mayHold(spec, "craft")) return unfit(`a craft has no section “${meaning.section}”`);
  const title = meaning.title ? templateText(meaning.title, slots) : null;
  const name = templateText(meaning.right.name, slots);
  if (title?.kind === "bad") return unfit(title.why);
  if (name.kind === "bad") return unfit(name.why);
  // `unset` alone says that the line sets nothing, whatever its name would be.
  const isBare = meaning.right.name.length === 0 && meaning.right.value.kind === "unset";
  if (isBare || title?.kind === "unset" || name.kind === "unset") return { kind: "nothing" };
  const place = {
    section: title ? `${spec.name}/${title.made}` : spec.name,
    spec,
    title: title?.made ?? null,
    name: name.made,
  };
  return entryOutcome(reader, meaning, place, slots, whole);
}

type Place = Pick<Said, "section" | "spec" | "title" | "name">;

function entryOutcome(reader: EntryReader, meaning: Meaning, place: Place, slots: HeldSlots, whole: boolean): Outcome {
  const { value } = meaning.right;
  const { spec, name } = place;
  if (!/^[a-z][a-z0-9-]*$/.test(name) || name === "drop") return unfit(`“${name}” is no name of “${spec.name}”`);
  const setting = reader.catalogue.setting(spec.name, name) ?? null;
  const said = (body: Body, deviationDegS: number | null = null): Outcome => {
    const { section, title } = place;
    const key = `${section} ${isFigure(name) ? FIGURE_OF[name] : name}`;
    return { kind: "said", said: { key, section, spec, title, name, setting, body, deviationDegS, isPartlyUnset } };
  };
  // Only fields may be unset one by one.
  const isPartlyUnset = value.kind === "fields" && slotsIn(meaning).some((slot) => slots.get(slot)?.kind === "unset");
  if (value.kind === "unset") return said({ kind: "unset" });
  if (value.kind === "condition") {
    const body = shapeBody(reader, place, value.shape, slots);
    return body.kind === "made" ? said(body.made) : body.kind === "unset" ? said({ kind: "unset" }) : unfit(body.why);
  }
  if (value.kind === "follows") {
    const channel = channelIn(heldOf(value.dial, slots));
    const [from, to] = [valueText(value.from, slots), valueText(value.to, slots)];
    for (const each of [channel, from, to]) {
      if (each.kind === "unset") return said({ kind: "unset" });
      if (each.kind === "bad") return unfit(each.why);
    }
    if (channel.kind !== "made" || from.kind !== "made" || to.kind !== "made") return unfit("it is incomplete");
    return judged(reader, place, [`follows ANY from ${from.made} to ${to.made}`], true, (read) => {
      if (read.kind !== "follows") return said({ kind: "unset" });
      return said({
        kind: "follows",
        channel: channel.made,
        from: printValue(read.from),
        to: printValue(read.to),
      });
    });
  }
  if (value.kind === "curve") {
    const numbers = new Map<string, number>();
    for (const slot of slotsOfFormula(value.formula)) {
      const held = slots.get(slot);
      const number = held && numberIn(held);
      if (number) numbers.set(slot, numberOf(number.number));
    }
    const curve = curveOf(reader, meaning, numbers);
    if ("why" in curve) return { kind: "beyond", why: curve.why };
    const bend = curve.bend === null ? "" : ` bend ${curve.bend}`;
    const text = `slope ${curve.slope} deg/s end ${curve.end} deg/s${bend}`;
    return judged(reader, place, [text], true, (read) =>
      said({ kind: "value", value: read, text: printValue(read) }, curve.deviationDegS),
    );
  }
  if (isFigure(name)) {
    const text = valueText(value, slots);
    if (text.kind === "unset") return said({ kind: "unset" });
    const figure = text.kind === "made" ? figureOf(name, text.made) : null;
    return figure
      ? said({ kind: "figure", of: name, figure })
      : unfit(text.kind === "bad" ? text.why : NO_FIGURE[name]);
  }
  const texts = valueTexts(value, slots, setting);
  if (texts.kind === "unset") return said({ kind: "unset" });
  if (texts.kind === "bad") return unfit(texts.why);
  const isPlace = value.kind === "cell" && spec.holds === "places";
  const written = isPlace ? texts.made.map((text) => `at ${text}`) : texts.made;
  const outcome = judged(reader, place, written, whole, (read) =>
    said({ kind: "value", value: read, text: `${isPlace ? "at " : ""}${printValue(read)}` }),
  );
  // A part that it cannot do without is set to nothing, so nothing is set.
  return outcome.kind === "unfit" && isPartlyUnset ? said({ kind: "unset" }) : outcome;
}

const slotsOfMeaning = new WeakMap<Meaning, readonly string[]>();

/** The slots of a right side. */
function slotsIn(meaning: Meaning): readonly string[] {
  let names = slotsOfMeaning.get(meaning);
  if (!names) {
    names = refsOf(meaning.right, null).map(({ slot }) => slot);
    slotsOfMeaning.set(meaning, names);
  }
  return names;
}

/** The first of the texts that the model takes for the entry, in the units of the catalogue. */
function judged(
  reader: EntryReader,
  { spec, name }: Place,
  texts: readonly string[],
  whole: boolean,
  said: (value: Value) => Outcome,
): Outcome {
  let why = "";
  for (const text of texts) {
    const { value, fault, beyond, setting } = whole
      ? readText(reader, spec, name, text)
      : readPart(reader, spec, name, text);
    if (!value) {
      why ||= fault ?? "";
      continue;
    }
    if (beyond !== null) return { kind: "beyond", why: beyond };
    return said(setting ? inCatalogueUnits(value, setting) : value);
  }
  return unfit(why);
}

/** Some fields of a repeatable setting, which other lines complete. */
function readPart(reader: EntryReader, spec: SectionSpec, name: string, text: string): JudgedText {
  const setting = reader.catalogue.setting(spec.name, name);
  if (!setting?.repeatable) return readText(reader, spec, name, text);
  const read = readSetting(text, { start: 0, end: text.length }, { ...setting, repeatable: false }, units);
  const beyond = read.value ? beyondLimits(read.value, setting) : [];
  return judgedText({ ...read, beyond, setting });
}

function shapeBody(reader: EntryReader, { spec, name }: Place, shape: Shape, slots: HeldSlots): Made<Body> {
  const checked = (text: string, body: (value: Value) => Body): Made<Body> => {
    const { value, fault } = readText(reader, spec, name, `when ${text}`);
    return value ? { kind: "made", made: body(value) } : { kind: "bad", why: fault ?? "" };
  };
  if (shape.kind === "always") return checked("always", (value) => ({ kind: "condition", text: printValue(value) }));
  if (shape.kind === "mode") {
    const mode = typeof shape.mode === "string" ? null : templateText([shape.mode], slots);
    if (mode && mode.kind !== "made") return mode;
    return checked(mode?.made ?? String(shape.mode), (value) => ({ kind: "condition", text: printValue(value) }));
  }
  const ranges: PulseRange[] = [];
  for (const { channel, from, to } of shape.ranges) {
    const numbers = [
      typeof channel === "number" ? channel : channelIn(heldOf(channel, slots)),
      typeof from === "number" ? from : pulseIn(heldOf(from, slots)),
      typeof to === "number" ? to : pulseIn(heldOf(to, slots)),
    ].map((each): Made<number> => (typeof each === "number" ? { kind: "made", made: each } : each));
    const [ch, fromUs, toUs] = numbers.map((each) => (each.kind === "made" ? each.made : undefined));
    for (const each of numbers) if (each.kind !== "made") return each;
    ranges.push({ channel: ch!, fromUs: fromUs!, toUs: toUs! });
  }
  return checked(rangesText(ranges), () => ({ kind: "ranges", ranges }));
}

/** The ranges of one line as a condition over channels. */
function rangesText(ranges: readonly PulseRange[]): string {
  return ranges.map(({ channel, fromUs, toUs }) => `ch${channel} in ${fromUs} us to ${toUs} us`).join(" and ");
}

/** A pulse that a slot holds, in us. */
function pulseIn(held: Made<Held>): Made<number> {
  return wholeOrPart(
    held,
    (number, unit) => (unit === "" ? number : exactIn(number, unit, "us")),
    "a pulse is given in us",
  );
}

/** The channel that a slot holds, with or without its `ch`. */
function channelIn(held: Made<Held>): Made<number> {
  return wholeOrPart(
    held,
    (number, unit) => (unit === "" || unit === CHANNEL ? number : null),
    "a channel is expected",
  );
}

function wholeOrPart(held: Made<Held>, take: (number: Exact, unit: string) => Exact | null, why: string): Made<number> {
  if (held.kind !== "made") return held;
  const number = numberIn(held.made);
  const taken = number && take(number.number, number.unit);
  return taken
    ? { kind: "made", made: numberOf(taken) }
    : { kind: "bad", why: `${why}, and “${textOfHeld(held.made)}” is none` };
}

function curveOf(reader: EntryReader, meaning: Meaning, numbers: ReadonlyMap<string, number>) {
  if (meaning.right.value.kind !== "curve") throw new RangeError("only the right side of a curve has one");
  const key = `${meaning.line} ${[...numbers].map(([slot, number]) => `${slot} ${number}`).join(" ")}`;
  const known = reader.curves.get(key);
  if (known) return known;
  const curve = ourCurveOf(meaning.right.value.formula, numbers);
  reader.curves.set(key, curve);
  return curve;
}

/** The setting that is worked out of a figure. */
const FIGURE_OF: Readonly<Record<FigureName, string>> = { "divider-ratio": "divider-top", "shunt-scale": "shunt" };

const NO_FIGURE: Readonly<Record<FigureName, string>> = {
  "divider-ratio": "“divider-ratio” is a bare number, (top + bottom) / bottom",
  "shunt-scale": "“shunt-scale” is a resistance, shunt times gain, as in 100 mohm",
};

export function isFigure(name: string): name is FigureName {
  return name === "divider-ratio" || name === "shunt-scale";
}

/** A ratio without unit, or a resistance in mohm; null for anything else. */
function figureOf(name: FigureName, text: string): Exact | null {
  const match = /^(-?[\d.]+)(?: (.+))?$/.exec(text.trim());
  const number = match && exactOf(match[1]!);
  const unit = match?.[2] ?? "";
  if (!number || unit === "") return number;
  return name === "divider-ratio" ? null : exactIn(number, unit, "mohm");
}

/** The names of the fields that a value has; null where it has none. */
export function fieldsOf({ body }: Said): ValueOf<"fields">["fields"] | null {
  return body.kind === "value" && body.value.kind === "fields" ? body.value.fields : null;
}

/** Whether lines that say it add up where the board counts them: conditions, lists and repeatable settings. */
export function addsUp({ body, setting, spec }: Said): boolean {
  if (spec.holds === "modes" || spec.holds === "outputs") return body.kind !== "unset";
  if (body.kind !== "value") return false;
  return setting?.repeatable === true || body.value.kind === "list" || body.value.kind === "order";
}

function unfit(why: string): Outcome {
  return { kind: "unfit", why };
}
