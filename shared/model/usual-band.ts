/** Which usual band applies to a craft, of which not everything may be known. */
import type { IntegerType, QuantityType, UsualBand } from "../catalogue/specs.ts";

/** What the usual bands depend on; undefined if it is not known. */
export interface CraftTraits {
  readonly propellerIn?: number | undefined;
  readonly cells?: number | undefined;
  readonly motors?: number | undefined;
  /** Where the throttle stick rests. */
  readonly throttle?: "low" | "middle" | undefined;
  /** Whether some filter takes out a narrow band. */
  readonly notches?: "some" | "none" | undefined;
}

type Condition = NonNullable<UsualBand["when"]>;
type Interval = { readonly from?: number | undefined; readonly to?: number | undefined };

const INTERVALS = ["propellerIn", "cells", "motors"] as const;
const WORDS = { throttle: ["low", "middle"], notches: ["some", "none"] } as const;

/**
 * What is usual for such a craft, where the number lies outside of it for certain, whatever is not known of
 * the craft: the band that applies; of several that may, the span of them all.
 */
export function bandExcluding(
  { usual = [], off }: QuantityType | IntegerType,
  traits: CraftTraits,
  number: number,
): UsualBand | undefined {
  if (number === off) return undefined;
  const possible = possibleBands(usual, traits);
  if (possible.length === 0 || possible.some((band) => isInside(number, band))) return undefined;
  const isCertain = applies(possible.at(-1)!, traits) === true || coverAll(possible, traits);
  return isCertain ? joined(possible) : undefined;
}

/** The bands that may apply, in order, up to the first that does for certain. */
export function possibleBands(bands: readonly UsualBand[], traits: CraftTraits): UsualBand[] {
  const possible: UsualBand[] = [];
  for (const band of bands) {
    const does = applies(band, traits);
    if (does !== false) possible.push(band);
    if (does === true) break;
  }
  return possible;
}

/** Whether a band applies; undefined if that depends on something that is not known. */
function applies({ when }: UsualBand, traits: CraftTraits): boolean | undefined {
  if (!when) return true;
  let does: boolean | undefined = true;
  for (const key of INTERVALS) {
    const interval = when[key];
    if (!interval) continue;
    const trait = traits[key];
    if (trait === undefined) does = undefined;
    else if (!isInside(trait, interval)) return false;
  }
  for (const key of ["throttle", "notches"] as const) {
    const word = when[key];
    if (word === undefined) continue;
    const trait = traits[key];
    if (trait === undefined) does = undefined;
    else if (trait !== word) return false;
  }
  return does;
}

/** Whether one of the bands applies whatever is not known: tried at every bound of theirs, and beyond. */
function coverAll(bands: readonly UsualBand[], traits: CraftTraits): boolean {
  let craft: CraftTraits[] = [traits];
  for (const key of INTERVALS) {
    const bounds = bands.flatMap(({ when }) =>
      [when?.[key]?.from, when?.[key]?.to].filter((each) => each !== undefined),
    );
    if (traits[key] !== undefined || bounds.length === 0) continue;
    // Cells and motors are whole.
    const step = key === "propellerIn" ? 0.01 : 1;
    const tried = [...new Set(bounds)].flatMap((bound) => [bound, bound - step, bound + step]);
    craft = craft.flatMap((each) => tried.map((number) => ({ ...each, [key]: number })));
  }
  for (const key of ["throttle", "notches"] as const) {
    if (traits[key] !== undefined || bands.every(({ when }) => when?.[key] === undefined)) continue;
    craft = craft.flatMap((each) => WORDS[key].map((word) => ({ ...each, [key]: word })));
  }
  return craft.every((each) => bands.some((band) => applies(band, each) === true));
}

/** From the least to the most of some bands, with the conditions that all of them have. */
function joined([first, ...others]: readonly UsualBand[]): UsualBand | undefined {
  if (!first || others.length === 0) return first;
  const all = [first, ...others];
  const ends = (end: "from" | "to") => all.map((band) => band[end]).filter((each) => each !== undefined);
  const when = Object.fromEntries(
    Object.entries(first.when ?? {}).filter(([key, condition]) =>
      others.every((band) => isSame(band.when?.[key as keyof Condition], condition)),
    ),
  ) as Condition;
  return {
    ...(ends("from").length === all.length && { from: Math.min(...ends("from")) }),
    ...(ends("to").length === all.length && { to: Math.max(...ends("to")) }),
    source: first.source,
    ...(Object.keys(when).length > 0 && { when }),
  };
}

function isSame(a: Condition[keyof Condition], b: Condition[keyof Condition]): boolean {
  if (typeof a === "object" && typeof b === "object") return a.from === b.from && a.to === b.to;
  return a === b;
}

/** Whether a number lies between two ends, both inside. */
export function isInside(number: number, { from, to }: Interval): boolean {
  return (from === undefined || number >= from) && (to === undefined || number <= to);
}

/** The condition of a band as text, such as “ with propellers of 3 in and more”; empty if it has none. */
export function bandConditionText({ when = {} }: Pick<UsualBand, "when">): string {
  const { propellerIn, cells, motors, throttle, notches } = when;
  const parts: string[] = [];
  if (propellerIn) parts.push(`propellers of ${intervalText(propellerIn, "in")}`);
  if (cells) parts.push(intervalText(cells, cells.to === 1 ? "cell" : "cells"));
  if (motors) parts.push(intervalText(motors, "motors"));
  if (throttle === "middle") parts.push("a throttle that rests in its middle");
  if (throttle === "low") parts.push("a throttle that rests at its end");
  if (notches === "none") parts.push("no notch");
  if (notches === "some") parts.push("a notch");
  return parts.length === 0 ? "" : ` with ${parts.join(" and ")}`;
}

function intervalText({ from, to }: Interval, unit: string): string {
  if (from === undefined) return `up to ${to} ${unit}`;
  if (to === undefined) return `${from} ${unit} and more`;
  return from === to ? `${from} ${unit}` : `${from} to ${to} ${unit}`;
}
