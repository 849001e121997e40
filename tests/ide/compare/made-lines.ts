/** Lines of scripts, made at random from the catalogue's own examples: every kind of value, spelt in several ways. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { SimpleType, ValueType } from "../../../shared/catalogue/specs.ts";
import { baseOf } from "../../../shared/model/craft.ts";

export const catalogue = makeCatalogue();

/** A source of random choices: the same seed gives the same ones. */
export interface Dice {
  /** A whole number from 0, below `count`. */
  below(count: number): number;
  chance(share: number): boolean;
  pick<T>(list: readonly T[]): T;
  /** So many of a list, each once, in an order of their own. */
  some<T>(list: readonly T[], count: number): T[];
}

/** Small generator of even numbers (Tommy Ettinger's Mulberry32; from memory). */
export function diceOf(seed: number): Dice {
  let a = seed | 0;
  const next = (): number => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
  const below = (count: number): number => Math.floor(next() * count);
  return {
    below,
    chance: (share) => next() < share,
    pick: (list) => list[below(list.length)]!,
    some(list, count) {
      const left = [...list];
      return Array.from({ length: Math.min(count, left.length) }, () => left.splice(below(left.length), 1)[0]!);
    },
  };
}

/** A control of a made handset: its line in several spellings, and what conditions may say of it. */
interface MadeControl {
  readonly name: string;
  readonly rests: readonly string[];
  readonly positions: readonly string[];
}

/** Controls as two handsets and the craft themselves may have them: alike in part, so that restating one matters. */
export const CONTROLS: readonly MadeControl[] = [
  {
    name: "TL",
    rests: [
      "switch ch5 up 1000 us down 2000 us",
      "switch  ch5  up 1 ms  down 2 ms",
      "switch ch5 up 1000 us down 2000 us lies left shoulder",
      "switch ch6 up 1000 us mid 1500 us down 2000 us",
    ],
    positions: ["up", "down"],
  },
  {
    name: "TR",
    rests: [
      "switch ch6 up 1000 us mid 1500 us down 2000 us",
      "switch ch6 up 1000 us mid 1500 us down 2000 us rests mid",
      "switch ch7 up 1000 us mid 1500 us down 2000 us",
    ],
    positions: ["up", "mid", "down"],
  },
  {
    name: "PB",
    rests: ["button ch8 rest 1000 us held 2000 us", "button ch9 rest 1000 us held 2000 us"],
    positions: ["rest", "held"],
  },
  { name: "KN", rests: ["dial ch10 1000 us to 2000 us", "dial ch10 2000 us to 1000 us"], positions: [] },
  {
    name: "SX",
    rests: [
      "selector ch11 one 1000 us two 1250 us three 1500 us four 2000 us",
      "selector ch12 one 1000 us two 1500 us three 2000 us",
    ],
    positions: ["one", "two", "three"],
  },
];

const TEXTS = ['"Kiln 30"', '"the second shelf"', '"a \\"quoted\\" word"', '"#3, blue"', '"Töpferei"'];
const COLOURS = ["teal", "red", "orange", '"#00ff80"', '"#FF0000"', "white"];
const DATES = ["2026-04-18", "2025-11-02", "2026-01-31"];
const SIZES = ["53 x 20", "30x13", "30 x 16", "60 x 22"];
const PLACES_ACROSS = ["left", "left+1", "left + 4", "centre", "centre-6", "right-1", "right", "3", "12", "27"];
const PLACES_DOWN = ["top", "top+2", "middle", "middle+1", "bottom-1", "bottom - 2", "bottom", "4", "9"];
const FACTORS = [1, 1, 1.1, 0.9, 2, 0.5];

const siblings = new Map(
  catalogue.unitFamilies.flatMap(({ units }) => {
    const plain = units.filter(({ size, logarithm }) => !logarithm && Number.isInteger(Math.log10(size)));
    return plain.map(
      (unit) => [unit.symbol, plain.map(({ symbol, size }) => ({ symbol, by: unit.size / size }))] as const,
    );
  }),
);

/** A quantity near a number, in its own unit or in another one of the family, with or without a blank. */
function quantityText(dice: Dice, number: number, unit: string): string {
  const value = number * dice.pick(FACTORS);
  const { symbol, by } = dice.chance(0.25)
    ? dice.pick(siblings.get(unit) ?? [{ symbol: unit, by: 1 }])
    : { symbol: unit, by: 1 };
  const digits = String(Number((value * by).toPrecision(6)));
  if (digits.includes("e")) return quantityText(dice, number, unit);
  const padded = dice.chance(0.05) && !digits.includes(".") ? `${digits}.0` : digits;
  return symbol === "" ? padded : `${padded}${dice.chance(0.1) ? "" : " "}${symbol}`;
}

/** The first number of an example, by which others of its kind are made. */
function numberIn(example: string, otherwise: number): number {
  return Number(/-?\d+(\.\d+)?/.exec(example)?.[0] ?? otherwise) || otherwise;
}

function simpleText(dice: Dice, type: SimpleType, example: string): string {
  switch (type.is) {
    case "quantity": {
      const written = new RegExp(`(-?\\d+(?:\\.\\d+)?) *(${type.unit === "" ? "" : "[A-Za-z/%]+"})`).exec(example);
      const unit = written?.[2] && siblings.has(written[2]) && type.unit !== "" ? written[2] : type.unit;
      const fits = siblings.get(type.unit)?.some(({ symbol }) => symbol === unit) ?? unit === type.unit;
      return quantityText(dice, numberIn(example, 10), fits ? unit : type.unit);
    }
    case "integer":
      return String(Math.max(1, Math.round(numberIn(example, 3)) + dice.below(3) - 1));
    case "choice":
      return dice.pick(type.choices).word;
    case "yes-no":
      return dice.pick(["yes", "no"]);
    case "text":
      return dice.pick(TEXTS).slice(0, type.longest > 20 ? undefined : 99);
    case "date":
      return dice.pick(DATES);
    case "order":
      return dice.some(type.words, type.words.length).join(" ");
    case "range": {
      const [low, high] = example.includes(" to ") ? example.split(" to ") : ["1000 us", "2000 us"];
      const from = numberIn(low!, 1000) + dice.below(3);
      return `${from}${dice.chance(0.5) ? ` ${type.of.unit}` : ""} to ${numberIn(high!, 2000) + dice.below(3)} ${type.of.unit}`;
    }
    case "size":
      return dice.pick(SIZES);
    case "cell":
      return placeText(dice);
    case "colour":
      return dice.pick(COLOURS);
    case "list": {
      if (type.of.is === "order") return example;
      const count = Math.max(type.fewest, Math.min(type.most, 1 + dice.below(3)));
      if (type.of.is === "choice")
        return dice
          .some(type.of.choices, count)
          .map(({ word }) => word)
          .join(", ");
      const of = type.of;
      return Array.from({ length: count }, () => simpleText(dice, of, example)).join(", ");
    }
  }
}

function typedText(dice: Dice, types: readonly ValueType[], example: string): string {
  const type = dice.chance(0.7) ? types[0]! : dice.pick(types);
  if (type.is !== "fields") return simpleText(dice, type, example);
  const must = type.fields.filter(({ required }) => required);
  const free = type.fields.filter(({ required }) => !required);
  const chosen = [
    ...must,
    ...dice.some(free, must.length > 0 ? dice.below(free.length + 1) : 1 + dice.below(free.length)),
  ];
  return dice
    .some(chosen, chosen.length)
    .map(({ name, types: of }) => {
      const said = new RegExp(`(?:^| )${name} ([^ ]+(?: [A-Za-z/%]+(?= |$))?)`).exec(example)?.[1] ?? "";
      return `${name} ${simpleText(dice, dice.chance(0.7) ? of[0]! : dice.pick(of), said)}`;
    })
    .join(dice.pick([" ", "  "]));
}

export function placeText(dice: Dice): string {
  return `${dice.pick(PLACES_ACROSS)}${dice.pick([", ", ",", " , "])}${dice.pick(PLACES_DOWN)}`;
}

/** A condition over the made controls, some other modes and free channels. */
export function conditionText(dice: Dice, depth = 2): string {
  if (depth > 0 && dice.chance(0.4)) {
    const parts = [conditionText(dice, depth - 1), conditionText(dice, depth - 1)];
    const joined = parts.join(dice.pick([" and ", " or "]));
    return dice.chance(0.3) ? `not (${joined})` : dice.chance(0.3) ? `(${joined})` : joined;
  }
  const test = dice.below(10);
  if (test < 6) {
    const { name, positions } = dice.pick(CONTROLS);
    if (positions.length === 0)
      return `${name} ${dice.pick(["above 1300 us", "below 1.7 ms", "in 1200 us to 1600 us"])}`;
    return `${name} is ${dice.chance(0.2) ? "not " : ""}${dice.pick(positions)}`;
  }
  if (test < 8) return dice.pick(["arm", "not arm", "turtle", "level"]);
  if (test === 8) return dice.pick(["ch3 below 1200 us", "ch14 above 1500 us", "CH is up"]);
  return dice.pick(["always", "TL is down or not TL is down", "TR is mid"]);
}

const MOVABLE = catalogue.sections.flatMap(({ settings }) => settings.filter(({ adjustable }) => adjustable));
export const OUTPUTS = ["lamp", "nose-light", "sprinkler"];
const ADJUSTED = MOVABLE.slice(0, 12);

/** The names that a section can have, as the catalogue knows them; of outputs and controls those that are made here. */
export function namesIn(section: string): readonly string[] {
  const spec = catalogue.section(baseOf(section))!;
  switch (spec.holds) {
    case "modes":
      return catalogue.modes.map(({ name }) => name);
    case "outputs":
      return OUTPUTS;
    case "controls":
      return CONTROLS.map(({ name }) => name);
    case "follows":
      return ADJUSTED.map(({ name }) => name);
    case "kept":
      return [];
    case "places":
    case "settings": {
      const settings = catalogue.settingsOf(spec.name).map(({ name }) => name);
      return spec.holds === "places" ? [...settings, ...catalogue.elements.map(({ name }) => name)] : settings;
    }
  }
}

/** What follows a name in a section: a sound value of its type, at random. */
export function restFor(dice: Dice, section: string, name: string): string {
  const spec = catalogue.section(baseOf(section))!;
  if (spec.holds === "modes" || spec.holds === "outputs") return `when ${conditionText(dice)}`;
  if (spec.holds === "controls") return dice.pick(CONTROLS.find((each) => each.name === name)!.rests);
  if (spec.holds === "follows") {
    const { types, example = "1" } = MOVABLE.find((each) => each.name === name)!;
    const type = types.find(({ is }) => is === "quantity") as SimpleType;
    return `follows ${dice.pick(["KN", "KN", "SX"])} from ${simpleText(dice, type, example)} to ${simpleText(dice, type, example)}`;
  }
  if (spec.holds === "places" && catalogue.element(name)) return `at ${placeText(dice)}`;
  const setting = catalogue.setting(spec.name, name)!;
  const example = setting.example ?? "1";
  return dice.chance(0.15) ? example : typedText(dice, setting.types, example);
}

/** A line that does not say what its name is to be: a value of no type, a missing unit, a word nobody knows. */
export function faultyRest(dice: Dice): string {
  return dice.pick(["12 parsec", "when TL is sideways", "kettle", "12 12 12", "at", "???", ""]);
}
