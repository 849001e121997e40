/** Units by family; conversion is possible only within a family. Symbols follow the SI brochure if it has one. */
import type { UnitFamily } from "./specs.ts";

export const unitFamilies: readonly UnitFamily[] = [
  {
    name: "voltage",
    what: "Electric tension of a pack or a supply.",
    units: [unit("V", "volt", 1), unit("mV", "millivolt", 1e-3)],
  },
  {
    name: "cell-voltage",
    what: "Tension of one cell of a pack; never the same thing as the pack's volts.",
    units: [unit("V/cell", "volts per cell", 1)],
  },
  {
    name: "current",
    what: "How much electricity flows each second.",
    units: [unit("A", "ampere", 1), unit("mA", "milliampere", 1e-3)],
  },
  {
    name: "charge",
    what: "Electric charge: what a pack holds or has given.",
    units: [unit("mAh", "milliampere hour", 1), unit("Ah", "ampere hour", 1e3)],
  },
  {
    name: "time",
    what: "A duration, or the width of a control pulse.",
    units: [
      unit("us", "microsecond", 1e-6, ["µs", "μs"]),
      unit("ms", "millisecond", 1e-3),
      unit("s", "second", 1),
      unit("min", "minute", 60),
    ],
  },
  {
    name: "frequency",
    what: "How often something happens each second, or a radio carrier.",
    units: [
      unit("Hz", "hertz", 1),
      unit("kHz", "kilohertz", 1e3),
      unit("MHz", "megahertz", 1e6),
      unit("GHz", "gigahertz", 1e9),
    ],
  },
  {
    name: "power",
    what: "Power, of a transmitter above all.",
    units: [
      unit("mW", "milliwatt", 1),
      unit("W", "watt", 1e3),
      { symbol: "dBm", name: "decibels over a milliwatt", size: 1, logarithm: true },
    ],
  },
  { name: "ratio", what: "A ratio of powers in decibels.", units: [unit("dB", "decibel", 1)] },
  { name: "angle", what: "How far something is turned.", units: [unit("deg", "degree", 1)] },
  { name: "turn-rate", what: "How fast something turns.", units: [unit("deg/s", "degrees per second", 1)] },
  { name: "percent", what: "A share of a whole, in hundredths.", units: [unit("%", "percent", 1)] },
  {
    name: "length",
    what: "A length, a height or a distance.",
    units: [
      unit("mm", "millimetre", 1e-3),
      unit("cm", "centimetre", 1e-2),
      unit("m", "metre", 1),
      unit("in", "inch", 0.0254),
      unit("ft", "foot", 0.3048),
    ],
  },
  {
    name: "mass",
    what: "Mass, as a kitchen scale reads it.",
    units: [unit("g", "gram", 1), unit("kg", "kilogram", 1e3), unit("oz", "ounce", 28.349523125)],
  },
  {
    name: "motor-constant",
    what: "Turns a minute of an idle motor for each volt.",
    units: [unit("rpm/V", "turns per minute per volt", 1)],
  },
  {
    name: "resistance",
    what: "How hard a part resists current.",
    units: [unit("ohm", "ohm", 1), unit("kohm", "kilohm", 1e3), unit("mohm", "milliohm", 1e-3)],
  },
  {
    name: "data-rate",
    what: "How fast a serial line carries data.",
    units: [unit("kbit/s", "kilobits per second", 1)],
  },
  { name: "temperature", what: "How hot something is.", units: [unit("degC", "degree Celsius", 1)] },
  {
    name: "discharge",
    what: "A discharge rating: multiples of the capacity, each hour.",
    units: [unit("C", "times the capacity per hour", 1)],
  },
  {
    name: "speed",
    what: "Speed over the ground or of climb.",
    units: [
      unit("m/s", "metres per second", 1),
      unit("km/h", "kilometres per hour", 1 / 3.6),
      unit("mph", "miles per hour", 0.44704),
    ],
  },
];

function unit(symbol: string, name: string, size: number, also?: string[]): UnitFamily["units"][number] {
  return also ? { symbol, name, size, also } : { symbol, name, size };
}

interface Known {
  readonly family: UnitFamily;
  readonly symbol: string;
  readonly size: number;
  readonly logarithm: boolean;
}

const known = new Map<string, Known>();
for (const family of unitFamilies)
  for (const { symbol, size, logarithm = false, also = [] } of family.units)
    for (const spelling of [symbol, ...also]) known.set(spelling, { family, symbol, size, logarithm });

/** The canonical symbol for an accepted spelling of a unit (`µs` gives `us`); undefined if there is none. */
export function unitSymbol(spelling: string): string | undefined {
  return known.get(spelling)?.symbol;
}

/** The family of a unit symbol; undefined for a bare number and for an unknown symbol. */
export function unitFamily(symbol: string): UnitFamily | undefined {
  return known.get(symbol)?.family;
}

/** Converts `number` from unit `from` to unit `to`, rounded to 12 significant digits; undefined across families. */
export function convert(number: number, from: string, to: string): number | undefined {
  if (from === to) return number;
  const a = known.get(from);
  const b = known.get(to);
  if (!a || !b || a.family !== b.family) return undefined;
  const inFirst = a.logarithm ? 10 ** (number / 10) : number * a.size;
  const out = b.logarithm ? 10 * Math.log10(inFirst) : inFirst / b.size;
  return Number(out.toPrecision(12));
}
