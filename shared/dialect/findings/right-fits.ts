/** Holds the right sides of a dialect to the model: names that exist, units and values that their settings take. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec, SettingSpec, SimpleType, ValueType } from "../../catalogue/specs.ts";
import { convert, unitFamily } from "../../catalogue/units.ts";
import { readSetting } from "../../model/read-value.ts";
import { units } from "../../model/units.ts";
import { type Fault, unknownName } from "../../syntax/read-context.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Meaning, Ref, Template, ValueTemplate } from "../dialect.ts";
import { channelFault, conditionFault } from "./condition-fits.ts";
import { type Task, wholeBits, wrong } from "./right-task.ts";
import { type Holder, partOf, type Sample, samplesOf } from "./spellings.ts";
import { type WordsTaken, wordsTaken } from "./words-taken.ts";

/** The most combinations of words that are tried for one name or value. */
const MOST_TRIED = 200;

/** Where a value stands. */
export interface Place {
  readonly name: string;
  readonly types: readonly ValueType[];
}

/** What is wrong with the right side of a meaning; null where nothing is, as far as it can be told. */
export function rightFault(meaning: Meaning, spec: SectionSpec, catalogue: Catalogue, taken: WordsTaken): Fault | null {
  const task: Task = { meaning, spec, catalogue, taken, holder: (ref) => holderOf(meaning, ref) };
  const { right, at } = meaning;
  if (right.name.length === 0) return null;
  const names = expanded(task, right.name);
  const problem = right.value.kind === "condition" ? conditionFault(task, right.value.shape) : null;
  if (problem || names === null) return problem && { ...problem, start: at.start, end: at.end };
  let noName: Fault | null = null;
  let noValue: Fault | null = null;
  let fits = false;
  for (const sample of names) {
    const { text } = sample;
    const place = placeOf(task, text);
    if (place === null) {
      const none = unknownName(at, text, namesIn(spec, catalogue), `“${spec.name}” has nothing called “${text}”.`);
      taken.refuse(sample.words, none);
      noName ??= none;
      continue;
    }
    taken.take(sample.words);
    const wrong = place === "any" ? null : entryFault(task, right.value, place);
    if (!wrong) fits = true;
    else noValue ??= wrong;
  }
  if (fits) return null;
  // Where some names exist, those that do not are told at their words.
  if (noValue) return { ...noValue, start: at.start, end: at.end };
  return !noName || taken.tell(names, noName) ? null : noName;
}

/** What the entries of a meaning may be: their names, each with the types that its value may have. */
export function placesOf(meaning: Meaning, spec: SectionSpec, catalogue: Catalogue): readonly Place[] {
  const task: Task = { meaning, spec, catalogue, taken: wordsTaken(), holder: (ref) => holderOf(meaning, ref) };
  const names = expanded(task, meaning.right.name) ?? [];
  return names.flatMap(({ text }) => {
    const place = placeOf(task, text);
    return place === null || place === "any" ? [] : [place];
  });
}

/** What a slot of the left sides, or of their heading, holds; null where there is none of this name. */
export function holderOf({ lefts }: Meaning, { slot, part }: Ref): Holder | null {
  for (const { pattern, under } of lefts) {
    const found = pattern.slots.get(slot) ?? (under.kind === "heading" ? under.pattern.slots.get(slot) : undefined);
    if (!found) continue;
    if (part === null) return found;
    return found.code?.kind === "bits" ? partOf(found.code, part) : null;
  }
  return null;
}

/** What a template may be; null where one of its slots may hold anything. */
function expanded(task: Task, template: Template): readonly Sample[] | null {
  let all: readonly Sample[] = [{ text: "", words: [] }];
  for (const part of template) {
    if (typeof part === "string") {
      all = all.map(({ text, words }) => ({ text: text + part, words }));
      continue;
    }
    const holder = task.holder(part);
    const samples = holder && everyNumber(holder);
    if (!samples) return null;
    all = all
      .flatMap((before) =>
        samples.map(({ text, words }) => ({ text: before.text + text, words: [...before.words, ...words] })),
      )
      .slice(0, MOST_TRIED);
  }
  return all;
}

/** Of few whole numbers each, since a name that is made of one may exist for some of them only. */
function everyNumber(holder: Holder): readonly Sample[] | null {
  const { whole } = holder;
  if (holder.code || !whole || whole.to - whole.from > 40) return samplesOf(holder);
  return Array.from({ length: whole.to - whole.from + 1 }, (_, i) => ({ text: String(whole.from + i), words: [] }));
}

function namesIn(spec: SectionSpec, catalogue: Catalogue): readonly string[] {
  if (spec.holds === "modes") return catalogue.modes.map(({ name }) => name);
  const settings = catalogue.settingsOf(spec.name).map(({ name }) => name);
  return spec.holds === "places" ? [...settings, ...catalogue.elements.map(({ name }) => name)] : settings;
}

/** What an entry of this name takes; `any` where that is not a matter of types; null where there is no such name. */
function placeOf({ spec, catalogue, meaning }: Task, name: string): Place | "any" | null {
  const { value } = meaning.right;
  switch (spec.holds) {
    case "modes":
      return catalogue.mode(name) ? "any" : null;
    case "places":
      if (catalogue.element(name)) return { name, types: [{ is: "cell" }] };
      break;
    case "outputs":
    case "controls":
    case "kept":
      return "any";
    case "follows": {
      const setting = catalogue.sections.flatMap(({ settings }) => settings.filter((each) => each.name === name))[0];
      return setting ?? null;
    }
    case "settings":
  }
  const setting = catalogue.setting(spec.name, name);
  if (setting) return setting;
  if (spec.name !== "pack" || value.kind !== "value") return null;
  if (name === "divider-ratio") return { name, types: [{ is: "quantity", unit: "" }] };
  return name === "shunt-scale" ? "any" : null;
}

/** What is wrong with the value of an entry. */
function entryFault(task: Task, value: ValueTemplate, place: Place): Fault | null {
  if (value.kind === "curve") {
    const fields = place.types.flatMap((type) => (type.is === "fields" ? type.fields.map(({ name }) => name) : []));
    if (["slope", "end", "bend"].every((name) => fields.includes(name))) return null;
    return wrong(`${place.name} is no rate: a curve stands behind roll, pitch or yaw of “rates”.`);
  }
  if (value.kind === "follows") {
    const dial = task.holder(value.dial);
    const unfit = dial && channelFault(task, value.dial);
    return unfit ?? valueFault(task, value.from, place) ?? valueFault(task, value.to, place);
  }
  if (value.kind === "unset") return null;
  if (value.kind === "fields") return fieldsFault(task, value, place);
  return valueFault(task, value, place);
}

function fieldsFault(task: Task, { fields }: ValueTemplate & { kind: "fields" }, place: Place): Fault | null {
  const known = place.types.flatMap((type) => (type.is === "fields" ? type.fields : []));
  if (known.length === 0) return wrong(`${place.name} has no fields: write its value alone.`);
  for (const field of fields) {
    const names = expanded(task, field.name);
    if (names === null) continue;
    let first: Fault | null = null;
    let fits = false;
    for (const sample of names) {
      const spec = known.find(({ name }) => name === sample.text);
      if (!spec) {
        const candidates = known.map(({ name }) => name);
        const message = `${place.name} has no field “${sample.text}”: it has ${candidates.join(", ")}.`;
        const none = unknownName({ start: 0, end: 0 }, sample.text, candidates, message);
        task.taken.refuse(sample.words, none);
        first ??= none;
        continue;
      }
      task.taken.take(sample.words);
      const problem = valueFault(task, field.value, { name: `${place.name} ${spec.name}`, types: spec.types });
      if (!problem) fits = true;
      else first ??= problem;
    }
    if (!fits && first && !task.taken.tell(names, first)) return first;
  }
  return null;
}

/** What is wrong with a value that may stand within another one. */
function valueFault(task: Task, value: ValueTemplate, place: Place): Fault | null {
  const { name, types } = place;
  switch (value.kind) {
    case "constant":
      return textFault(value.text, place);
    case "value":
      return slotsFault(task, value.terms, value.unit, place);
    case "text":
      return types.some(({ is }) => is === "text" || is === "colour")
        ? null
        : wrong(`${name} is no text: write the slot without quotes.`);
    case "word": {
      if (types.some(({ is }) => is === "cell")) return null;
      const words = expanded(task, value.parts);
      return words === null ? null : anyFits(task, words, place);
    }
    case "cell":
      if (!types.some(({ is }) => is === "cell"))
        return wrong(`${name} has no place on the screen: only elements stand “at” one.`);
      return axisFault(task, value.column) ?? axisFault(task, value.row);
    case "range": {
      const of = types.flatMap((type) => (type.is === "range" ? [type.of] : []));
      if (of.length === 0) return wrong(`${name} is one value, and no range from one to another.`);
      // Only the second end may lend its unit to the first.
      const unit = value.to.kind === "value" ? value.to.unit : "";
      const from = value.from.kind === "value" && value.from.unit === "" ? { ...value.from, unit } : value.from;
      const end = { name, types: of };
      return valueFault(task, value.to, end) ?? (from.kind === "constant" ? null : valueFault(task, from, end));
    }
    case "size":
      return types.some(({ is }) => is === "size") ? null : wrong(`${name} is no size in columns and rows.`);
    case "list": {
      const of = types.flatMap((type): readonly SimpleType[] => (type.is === "list" ? [type.of] : []));
      if (of.length === 0) return wrong(`${name} is no list: it has one value, without commas.`);
      const last = value.items.at(-1);
      const unit = last?.kind === "value" ? last.unit : "";
      for (const item of value.items) {
        if (item.kind === "constant") continue;
        const lent = item.kind === "value" && item.unit === "" ? { ...item, unit } : item;
        const problem = valueFault(task, lent, { name, types: of });
        if (problem) return problem;
      }
      return null;
    }
    case "order": {
      const fields = types.flatMap((type) => (type.is === "fields" ? type.fields.map((field) => field.name) : []));
      const [first] = value.items;
      if (fields.length > 0 && first?.kind === "constant")
        return unknownName(
          { start: 0, end: 0 },
          first.text,
          fields,
          `${name} has no field “${first.text}”: it has ${fields.join(", ")}.`,
        );
      if (!types.some(({ is }) => is === "order"))
        return wrong(
          `${name} is not read from several words: a unit is one that it takes, and slots stand alone, or with + between.`,
        );
      for (const item of value.items) {
        const problem = valueFault(task, item, place);
        if (problem) return problem;
      }
      return null;
    }
    default:
      return wrong(`This cannot stand in a value of ${name}.`);
  }
}

function axisFault(task: Task, axis: ValueTemplate): Fault | null {
  if (axis.kind !== "value") return axis.kind === "constant" || axis.kind === "word" ? null : wrong(NO_AXIS);
  if (axis.unit !== "") return wrong(NO_AXIS);
  for (const term of axis.terms) {
    const holder = task.holder(term);
    if (holder?.code?.kind === "number" && (holder.code.unit !== "" || holder.code.channels)) return wrong(NO_AXIS);
    if (holder?.code?.kind === "bits") return wholeBits(term, holder.code.parts);
  }
  return null;
}

const NO_AXIS = "A place counts cells, in whole numbers without a unit.";

/** What is wrong with slots as a value, alone or added up. */
function slotsFault(task: Task, terms: readonly Ref[], unit: string, place: Place): Fault | null {
  const { name, types } = place;
  for (const term of terms) {
    const holder = task.holder(term);
    if (!holder) continue;
    if (holder.code?.kind === "bits") return wholeBits(term, holder.code.parts);
    const own = holder.code?.kind === "number" ? holder.code.unit : "";
    if (own !== "" && unit !== "" && own !== unit && convert(1, own, unit) === undefined)
      return wrong(`“{${term.slot}}” is in ${own} by its code, and ${unit} stands here: leave the unit out.`);
    const samples = samplesOf(holder);
    const problem = samples
      ? anyFits(
          task,
          samples.map(({ text, words }) => ({ text: withUnit(text, unit), words })),
          place,
        )
      : unknownFault(unit, holder.code?.kind === "text", place);
    if (problem) return problem;
  }
  return types.length === 0 ? wrong(`${name} takes no value.`) : null;
}

function withUnit(text: string, unit: string): string {
  return unit === "" || !/^-?[\d.]+$/.test(text) ? text : `${text} ${unit}`;
}

/** A slot without a code: of its value only the unit is known. */
function unknownFault(unit: string, isText: boolean, place: Place): Fault | null {
  if (unit !== "")
    return ["1", "10", "0"].map((digits) => textFault(`${digits} ${unit}`, place)).find(isNull) === null
      ? null
      : textFault(`1 ${unit}`, place);
  const needed = place.types.map(neededUnit);
  if (isText || needed.some((each) => each === null)) return null;
  const unitNeeded = needed[0]!;
  const family = unitFamily(unitNeeded)?.units.map(({ symbol }) => symbol) ?? [unitNeeded];
  return wrong(
    `${place.name} is given in ${family.join(", ")}, and the board writes a number alone: write its unit behind the slot, as in “{…} ${unitNeeded}”.`,
  );
}

function isNull(problem: Fault | null): boolean {
  return problem === null;
}

/** The unit without which a value is none; null where there may be one without. */
function neededUnit(type: ValueType): string | null {
  if (type.is === "range") return neededUnit(type.of);
  if (type.is === "list" && type.of.is === "quantity") return neededUnit(type.of);
  return type.is === "quantity" && type.unit !== "" ? type.unit : null;
}

/** Null where one of the samples fits; words that do not are noted. */
function anyFits({ taken }: Task, samples: readonly Sample[], place: Place): Fault | null {
  let first: Fault | null = null;
  let fits = samples.length === 0;
  for (const sample of samples.slice(0, MOST_TRIED)) {
    const problem = textFault(sample.text, place);
    if (problem) {
      taken.refuse(sample.words, problem);
      first ??= { ...problem, message: `With “${sample.text}” in the slot: ${problem.message}` };
    } else {
      taken.take(sample.words);
      fits = true;
    }
  }
  return fits || !first || taken.tell(samples, first) ? null : first;
}

/** What is wrong with a text as a value; text of the board has no quotes, so it is tried with them too. */
function textFault(text: string, { name, types }: Place): Fault | null {
  const spec = { name, types } as unknown as SettingSpec;
  const read = (value: string) => readSetting(value, { start: 0, end: value.length }, spec, units).fault;
  const problem = read(text);
  if (!problem) return null;
  return types.some(({ is }) => is === "text" || is === "colour") && !read(quote(text)) ? null : problem;
}
