/**
 * Craft that fly together: which of their analogue pictures are disturbed, and the channels by which none is.
 *
 * - `flightOf`: all of it for some craft
 * - `MOST_TOGETHER`: as many as a plan is looked for
 * - `EVEN_CHANNELS_MHZ`: channels that viewers are likely to have
 */
import type { FileView } from "../model/files.ts";
import type { FlownCraft } from "../model/flown.ts";
import { type Choice, channelPlan, type Movable, type Rank } from "./channel-plan.ts";
import { fits, type Spacing, type Work } from "./channel-search.ts";
import { type Disturbance, disturbancesAt, khzOf, LANDS_WITHIN_MHZ } from "./channels.ts";
import { ANALOGUE_WIDTH_MHZ, edgesMhz } from "./radio.ts";
import { bandPositionOf, isRegion, type Region } from "./radio-bands.ts";

/** More than fly at once anywhere; far fewer have room beside one another. */
export const MOST_TOGETHER = 12;

/** Eight channels of common practice, 5658 + 37 (n − 1) MHz; no source. */
export const EVEN_CHANNELS_MHZ: readonly number[] = Array.from({ length: 8 }, (_, n) => 5658 + 37 * n);

/**
 * A transmitter is built for one band: no further from its carrier than this part of it may it be asked to go. Own
 * figure, by which every one of the eight channels is within reach of every other.
 */
const REACH = 0.05;

/** So much work is done for one flight, see `Work`, by whoever can wait: a second or two at the very most. */
const PATIENT_STEPS = 40_000_000;
/** And by whoever may be asked at every key: some 15 ms. */
const HURRIED_STEPS = 1_000_000;

export const ANALOGUE_SPACING: Spacing = {
  widthKhz: khzOf(ANALOGUE_WIDTH_MHZ),
  landsKhz: khzOf(LANDS_WITHIN_MHZ),
};

/** How long a plan may be looked for: what is found is the same, but a hurried search gives up sooner. Never by the clock. */
export type Patience = "hurried" | "patient";

/** As long as whoever looks at the files can wait. */
export function patienceOf(view: FileView | undefined): Patience {
  return view?.isPatient ? "patient" : "hurried";
}

export interface FlightMove {
  /** Index of the craft. */
  readonly craft: number;
  readonly fromMhz: number;
  readonly toMhz: number;
  readonly rank: Rank;
}

/** Why there is no plan. `fit` is how many go together on the channels that there are; null where that is not known. */
export type NoPlan =
  /** Nobody says where any of them could go. */
  | { readonly kind: "no-choice" }
  | { readonly kind: "too-many" }
  | { readonly kind: "no-room"; readonly fit: number | null }
  /** `isHurried` where somebody who can wait looks longer. */
  | { readonly kind: "too-much-work"; readonly isHurried: boolean };

export interface Flight {
  /** For each craft what disturbs it, by indices of the craft. */
  readonly disturbances: readonly (readonly Disturbance[])[];
  /** How many craft send an analogue picture on a frequency that is known. */
  readonly analogue: number;
  /** The changes by which nothing is left in the way: none where nothing is, null where there are none such. */
  readonly plan: readonly FlightMove[] | null;
  readonly noPlan: NoPlan | null;
}

/** As many flights as are remembered: one is asked for by each of its craft, and while somebody types. */
const MOST_REMEMBERED = 30;
const remembered = new Map<string, Flight>();

/**
 * What disturbs whom, and the smallest change by which nobody is disturbed (see `channel-plan.ts`). Digital pictures,
 * and those of an unknown kind, stay where they are; a craft that moves keeps clear of them, and no mixture of theirs
 * is claimed. A hurried search may come to no plan where a patient one does.
 */
export function flightOf(craft: readonly FlownCraft[], patience: Patience = "hurried"): Flight {
  const key = JSON.stringify([
    patience,
    ...craft.map(({ signal, carrierMhz, widthMhz, spareMhz, region }) => [
      signal,
      carrierMhz,
      widthMhz,
      spareMhz,
      region,
    ]),
  ]);
  const known = remembered.get(key);
  if (known) return known;
  const flight = workOut(craft, patience);
  if (remembered.size >= MOST_REMEMBERED) remembered.clear();
  remembered.set(key, flight);
  return flight;
}

function workOut(craft: readonly FlownCraft[], patience: Patience): Flight {
  const sending = craft.flatMap(({ signal, carrierMhz }, i) =>
    signal === "analogue" && carrierMhz !== null ? [i] : [],
  );
  const carriersMhz = sending.map((i) => craft[i]!.carrierMhz!);
  const disturbances: (readonly Disturbance[])[] = craft.map(() => []);
  for (const [at, i] of sending.entries())
    disturbances[i] = disturbancesAt(carriersMhz, at).map((each) => renumbered(each, sending));
  const isClear = disturbances.every((each) => each.length === 0);
  return {
    disturbances,
    analogue: sending.length,
    ...(isClear ? { plan: [], noPlan: null } : planFor(craft, sending, patience)),
  };
}

function renumbered(disturbance: Disturbance, indices: readonly number[]): Disturbance {
  return disturbance.kind === "overlap"
    ? { ...disturbance, of: indices[disturbance.of]! }
    : { ...disturbance, from: disturbance.from.map((i) => indices[i]!) };
}

function planFor(
  craft: readonly FlownCraft[],
  sending: readonly number[],
  patience: Patience,
): Pick<Flight, "plan" | "noPlan"> {
  if (sending.length > MOST_TOGETHER) return { plan: null, noPlan: { kind: "too-many" } };
  const movable = sending.map(
    (i): Movable => ({
      khz: khzOf(craft[i]!.carrierMhz!),
      choices: choicesFor(craft[i]!, craft),
    }),
  );
  if (movable.every(({ choices }) => choices.length === 0)) return { plan: null, noPlan: { kind: "no-choice" } };
  const work: Work = { steps: patience === "patient" ? PATIENT_STEPS : HURRIED_STEPS };
  const channels = [...new Set(movable.flatMap(({ khz, choices }) => [khz, ...choices.map((each) => each.khz)]))];
  channels.sort((a, b) => a - b);
  const noRoom = (): Pick<Flight, "plan" | "noPlan"> => ({
    plan: null,
    noPlan: { kind: "no-room", fit: fewerThan(sending.length, channels, work) },
  });
  // Whether so many go together at all is known much sooner than who of them goes where.
  if (fits(channels, sending.length, ANALOGUE_SPACING, work) === false) return noRoom();
  const found = channelPlan(movable, ANALOGUE_SPACING, work);
  if (found.kind === "none") return noRoom();
  if (found.kind === "unknown")
    return { plan: null, noPlan: { kind: "too-much-work", isHurried: patience === "hurried" } };
  const plan = sending.flatMap((i, at): FlightMove[] => {
    const khz = found.moves.get(at);
    if (khz === undefined) return [];
    const { rank } = movable[at]!.choices.find((each) => each.khz === khz)!;
    return [{ craft: i, fromMhz: craft[i]!.carrierMhz!, toMhz: khz / 1000, rank }];
  });
  return { plan, noPlan: null };
}

/** The most that go together, fewer than so many. */
function fewerThan(count: number, channels: readonly number[], work: Work): number | null {
  for (let each = count - 1; each > 1; each--) {
    const doFit = fits(channels, each, ANALOGUE_SPACING, work);
    if (doFit === null) return null;
    if (doFit) return each;
  }
  return 1;
}

/**
 * Where a craft may go: to its spare frequency, to a channel that one of the craft or common practice names, or to any
 * whole megahertz. All of them lie in a band of the region that is said, whole megahertz with both edges of the
 * picture. Of a craft that says no region those of the others count, as they fly at one place; where nobody says one
 * the eight channels, and what lies between them, are all that is known.
 */
function choicesFor(of: FlownCraft, craft: readonly FlownCraft[]): Choice[] {
  const own = of.carrierMhz!;
  const regions = of.region === null ? craft.flatMap(({ region }) => region ?? []) : [of.region];
  const known = [...new Set(regions)].filter(isRegion);
  const isAllowed = (mhz: number, withEdges: "carrier" | "edges") =>
    Math.abs(mhz - own) <= own * REACH &&
    known.every((region) => isIn(region, mhz, withEdges)) &&
    craft.every((other) => other === of || !isOccupied(mhz, other));
  const named = [...craft.flatMap(({ carrierMhz, spareMhz }) => [carrierMhz, spareMhz]), ...EVEN_CHANNELS_MHZ];
  const ranks = new Map<number, Rank>();
  const add = (mhz: number | null, rank: Rank, withEdges: "carrier" | "edges") => {
    if (mhz !== null && !ranks.has(khzOf(mhz)) && isAllowed(mhz, withEdges)) ranks.set(khzOf(mhz), rank);
  };
  add(of.spareMhz, "spare", "carrier");
  for (const mhz of named) add(mhz, "named", "carrier");
  const [lowest, highest] = rasterMhz(own, known);
  for (let mhz = Math.ceil(lowest); mhz <= highest; mhz++) add(mhz, "any", "edges");
  ranks.delete(khzOf(own));
  return [...ranks].map(([khz, rank]) => ({ khz, rank }));
}

/** From where to where any whole megahertz may be looked at. */
function rasterMhz(own: number, regions: readonly Region[]): readonly [lowest: number, highest: number] {
  const [first, last] = [EVEN_CHANNELS_MHZ[0]!, EVEN_CHANNELS_MHZ.at(-1)!];
  return regions.length > 0 ? [own * (1 - REACH), own * (1 + REACH)] : [first, last];
}

function isIn(region: Region, mhz: number, withEdges: "carrier" | "edges"): boolean {
  const place = bandPositionOf(region, mhz, ANALOGUE_WIDTH_MHZ, "analogue");
  return place === "inside" || (withEdges === "carrier" && place === "spills");
}

/** Whether an analogue picture on this carrier would share room with one that stays where it is: a digital one, or one of an unknown kind. */
function isOccupied(mhz: number, { signal, carrierMhz, widthMhz }: FlownCraft): boolean {
  if (signal === "analogue" || carrierMhz === null) return false;
  const [a, b] = [edgesMhz(mhz, ANALOGUE_WIDTH_MHZ), edgesMhz(carrierMhz, widthMhz ?? 0)];
  return a.fromMhz < b.toMhz && b.fromMhz < a.toMhz;
}
