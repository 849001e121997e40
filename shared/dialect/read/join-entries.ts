/** The entries of a script, each made of all that lines say of it. */
import { printValue } from "../../syntax/print-value.ts";
import type { ControlValue, Field, Value } from "../../syntax/value.ts";
import { conditionFromRanges, dialFor, joinConditions } from "../conditions/from-ranges.ts";
import { decimalOf, dividedBy, type Exact, exactOf, exactOfNumber, minus, times } from "../exact.ts";
import { type EntryReader, type FigureName, fieldsOf, readText, type Said } from "./entries.ts";
import { type JoinedEntry, type Saying, saidOf } from "./sayings.ts";
import { sentence } from "./slots.ts";

export type { JoinedEntry };

type JoinedPart = Omit<JoinedEntry, "isNumbered">;

/** Both ends of the scale. */
interface PulseEnds {
  readonly fromUs: number;
  readonly toUs: number;
}

/** What is known beside the text. */
export interface Surroundings {
  /** The handset's controls; null where none is known, and channels stay as they are; `raw`: nobody asks for them. */
  readonly controls: ReadonlyMap<string, ControlValue> | null | "raw";
  /** The ends of the scale that the craft's files say, in us; null where they say none. */
  readonly endpoints: PulseEnds | null;
  /** The channels on which only the ends of a control arrive. */
  readonly twoLevelChannels: readonly number[];
  /** The settings of the craft by which a figure is parted. */
  readonly dividerBottomKohm: Exact | null;
  readonly shuntGain: Exact | null;
}

export interface Joined {
  readonly entries: readonly JoinedEntry[];
  readonly notes: readonly string[];
  readonly curves: readonly { readonly what: string; readonly deviationDegS: number }[];
}

/** Joins what counts. What turns out to be incomplete, or beyond a limit as a whole, is marked as dead. */
export function joinEntries(all: readonly Saying[], reader: EntryReader, around: Surroundings): Joined {
  const names = new Map<string, Saying[]>();
  for (const saying of inOrder(all)) {
    const said = saidOf(saying);
    if (saying.dead !== null || !said || said.body.kind === "unset") continue;
    const group = names.get(said.key);
    if (group) group.push(saying);
    else names.set(said.key, [saying]);
  }
  const entries: JoinedEntry[] = [];
  const curves: { what: string; deviationDegS: number }[] = [];
  const task: Task = {
    reader,
    around,
    notes: new Set(),
    endpoints: endpointsOf(names, around),
    twoLevelChannels: twoLevelIn(names, around),
  };
  for (const sayings of names.values()) {
    for (const part of partsOf(sayings)) {
      const joined = joinPart(part, task, names);
      if (typeof joined === "string") {
        for (const saying of part) saying.dead = joined;
        continue;
      }
      if (joined.length === 0) continue;
      const isNumbered = part[0]!.number !== null;
      const made = joined.map((entry) => ({ ...entry, isNumbered }));
      entries.push(...made);
      for (const saying of part) saying.entries = made;
      for (const saying of part) {
        const said = saidOf(saying)!;
        if (said.deviationDegS !== null)
          curves.push({ what: `${said.section} ${said.name}`, deviationDegS: said.deviationDegS });
      }
    }
  }
  return { entries, notes: [...task.notes], curves };
}

interface Task {
  readonly reader: EntryReader;
  readonly around: Surroundings;
  readonly notes: Set<string>;
  readonly endpoints: PulseEnds;
  readonly twoLevelChannels: readonly number[];
}

/** Numbered lines by their number, others as they stand. */
function inOrder(all: readonly Saying[]): readonly Saying[] {
  return [...all].sort((a, b) =>
    a.number !== null && b.number !== null && a.number !== b.number ? a.number - b.number : a.lines[0]! - b.lines[0]!,
  );
}

/** The sayings of one name, those of each line of the script by themselves. */
function partsOf(sayings: readonly Saying[]): readonly (readonly Saying[])[] {
  const [first] = sayings;
  if (!saidOf(first!)?.setting?.repeatable) return [sayings];
  // A repeatable setting has a line for each item, and an item may have its fields in several lines of one number.
  const items = new Map<unknown, Saying[]>();
  for (const saying of sayings) {
    const key = saying.item ?? saying;
    const item = items.get(key);
    if (item) item.push(saying);
    else items.set(key, [saying]);
  }
  return [...items.values()];
}

/** The lines of the script that these sayings become; why they become none. */
function joinPart(part: readonly Saying[], task: Task, names: ReadonlyMap<string, Saying[]>): JoinedPart[] | string {
  const said = saidOf(part[0]!)!;
  const { section, spec, title, name, body } = said;
  const lines =
    part.length === 1 ? part[0]!.lines : [...new Set(part.flatMap((saying) => saying.lines))].sort((a, b) => a - b);
  const entry = (called: string, rest: string): JoinedPart => ({ section, spec, title, name: called, rest, lines });
  if (spec.holds === "modes" || spec.holds === "outputs") {
    const text = conditionOf(part, task);
    const { value, fault } = readText(task.reader, spec, name, `when ${text}`);
    return value ? [entry(name, `when ${printValue(value)}`)] : sentence(fault ?? "");
  }
  if (body.kind === "follows") return followingLine(body, task, entry, name);
  if (body.kind === "figure") {
    const settings = figureSettings(body.of, body.figure, said, task, names);
    const wrong = settings
      .map((each) => readText(task.reader, spec, each.name, each.rest))
      .find((each) => each.fault !== null || each.beyond !== null);
    if (wrong) return sentence(wrong.beyond ?? wrong.fault ?? "");
    return settings.map((each) => entry(each.name, each.rest));
  }
  if (body.kind !== "value") return "It says nothing.";
  if (part.length === 1 && part[0]!.item === null && part[0]!.lost === null) return [entry(name, body.text)];
  const value = joinedValue(part);
  const text = value ? printValue(value) : body.text;
  const { fault, beyond } = readText(task.reader, spec, name, text);
  // What it needs is set to nothing, so nothing is set.
  if (fault !== null && part.some((saying) => saidOf(saying)!.isPartlyUnset)) return [];
  if (fault !== null) return `It is half of an entry: ${fault}`;
  return beyond === null ? [entry(name, text)] : sentence(beyond);
}

/** Fields and lists of several lines as one value; null where the last line counts alone. */
function joinedValue(part: readonly Saying[]): Value | null {
  const saids = part.map((saying) => ({ saying, said: saidOf(saying)! }));
  const values = saids.flatMap(({ said: { body } }) => (body.kind === "value" ? [body.value] : []));
  const [first] = values;
  if (first?.kind === "list") {
    const items = new Map<string, Value>();
    for (const value of values)
      if (value.kind === "list") for (const item of value.items) items.set(printValue(item), item);
    return { ...first, items: [...items.values()] };
  }
  if (first?.kind === "order") {
    const words = new Set(values.flatMap((value) => (value.kind === "order" ? value.words : [])));
    return { ...first, words: [...words] };
  }
  if (first?.kind !== "fields") return null;
  const fields = new Map<string, Field>();
  for (const { saying, said } of saids)
    for (const field of fieldsOf(said) ?? []) if (!saying.lost?.has(field.name)) fields.set(field.name, field);
  const type = saids[0]!.said.setting?.types.find((each) => each.is === "fields");
  const order = type?.fields.map(({ name }) => name) ?? [];
  return { ...first, fields: [...fields.values()].sort((a, b) => order.indexOf(a.name) - order.indexOf(b.name)) };
}

// --- Conditions --------------------------------------------------------------------

/** The lines of one mode, joined by `or`: ranges become positions where they are the same in every state. */
function conditionOf(part: readonly Saying[], { around, endpoints, twoLevelChannels }: Task): string {
  const controls = around.controls === "raw" ? NO_CONTROLS : (around.controls ?? NO_CONTROLS);
  return joinConditions(
    part.map((saying) => {
      const { body } = saidOf(saying)!;
      if (body.kind === "condition") return body.text;
      return body.kind === "ranges" ? conditionFromRanges(body.ranges, controls, endpoints, twoLevelChannels) : "";
    }),
  );
}

const NO_CONTROLS: ReadonlyMap<string, ControlValue> = new Map();
const USUAL_ENDS = { fromUs: 1000, toUs: 2000 };

/** The ends of the scale: as the text says, else as the craft does, else the usual ones. */
function endpointsOf(names: ReadonlyMap<string, Saying[]>, around: Surroundings): PulseEnds {
  const value = valueSaid(names, "link endpoints");
  return value?.kind === "range"
    ? { fromUs: value.from.number, toUs: value.to.number }
    : (around.endpoints ?? USUAL_ENDS);
}

/** The channels that carry two levels only: as the text says, else as the craft does. */
function twoLevelIn(names: ReadonlyMap<string, Saying[]>, around: Surroundings): readonly number[] {
  const value = valueSaid(names, "link two-level");
  return value?.kind === "list"
    ? value.items.flatMap((item) => (item.kind === "integer" ? [item.number] : []))
    : around.twoLevelChannels;
}

/** The value that the text itself says of a setting; null where it says none. */
function valueSaid(names: ReadonlyMap<string, Saying[]>, name: string): Value | null {
  const body = names.get(name)?.map(saidOf).at(-1)?.body;
  return body?.kind === "value" ? body.value : null;
}

function followingLine(
  { channel, from, to }: { channel: number; from: string; to: string },
  { around }: Task,
  entry: (name: string, rest: string) => JoinedPart,
  name: string,
): JoinedPart[] | string {
  if (around.controls === "raw") return [entry(name, `follows ch${channel} from ${from} to ${to}`)];
  if (!around.controls)
    return `A value follows a dial, and without the handset it is not known which dial sends ch${channel}.`;
  const dial = dialFor(channel, around.controls);
  return dial === null
    ? `The handset has no dial that sends ch${channel}, and a value follows a dial.`
    : [entry(name, `follows ${dial} from ${from} to ${to}`)];
}

// --- Figures of two settings -------------------------------------------------------

const ONE = exactOfNumber(1);

/** `divider-ratio` and `shunt-scale` as the two settings of which each is made. */
function figureSettings(
  of: FigureName,
  figure: Exact,
  said: Said,
  { around, notes }: Task,
  names: ReadonlyMap<string, Saying[]>,
): { name: string; rest: string }[] {
  if (of === "divider-ratio") {
    const known = saidNumber(names, said.section, "divider-bottom");
    const bottom = known ?? around.dividerBottomKohm ?? ONE;
    const top = { name: "divider-top", rest: `${decimalOf(times(minus(figure, ONE), bottom))} kohm` };
    if (known) return [top];
    notes.add(
      `The board knows only the ratio ${decimalOf(figure)} of its divider: divider-bottom is ${around.dividerBottomKohm ? "as the craft says" : "taken as 1 kohm"}, and divider-top follows from it.`,
    );
    return [top, { name: "divider-bottom", rest: `${decimalOf(bottom)} kohm` }];
  }
  const known = saidNumber(names, said.section, "shunt-gain");
  const gain = known ?? around.shuntGain ?? ONE;
  const shunt = { name: "shunt", rest: `${gain.over === 0n ? "0" : decimalOf(dividedBy(figure, gain))} mohm` };
  if (known) return [shunt];
  notes.add(
    `The board knows only shunt times gain, ${decimalOf(figure)} mohm: shunt-gain is ${around.shuntGain ? "as the craft says" : "taken as 1"}, and shunt follows from it.`,
  );
  return [shunt, { name: "shunt-gain", rest: decimalOf(gain) }];
}

/** The number that the text itself says of a setting; in the unit of the catalogue. */
function saidNumber(names: ReadonlyMap<string, Saying[]>, section: string, name: string): Exact | null {
  const value = valueSaid(names, `${section} ${name}`);
  return value?.kind === "quantity" ? exactOf(value.digits) : null;
}
