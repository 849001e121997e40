/**
 * The rates of a craft: `ratesOf` for the first set, `secondRatesOf` for the second, which overrides the
 * first field by field; `stickTravelsOf` for the pulses of the sticks.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft } from "../model/craft.ts";
import type { RateAxis, Throttle } from "./rates.ts";
import type { StickTravel } from "./sticks.ts";
import { fieldNumberIn, numberIn, numberOf, onceFor, valueIn, wordIn } from "./values.ts";

export interface RatesFigures {
  /** Null if slope, end or bend is not known. */
  readonly roll: RateAxis | null;
  readonly pitch: RateAxis | null;
  readonly yaw: RateAxis | null;
  /** The rate that is never exceeded; null if there is no such limit. */
  readonly topDegS: number | null;
  /** Null if there is softness but no hover throttle to centre it on, or if a line of it has a fault. */
  readonly throttle: Throttle | null;
}

/** The first set; what is not set has the catalogue's default. */
export const ratesOf = onceFor((craft, catalogue) => readRates(craft, catalogue, "rates"));

/** The second set; null if the craft has none. */
export const secondRatesOf = onceFor((craft, catalogue) =>
  craft.settings.has("rates-second") ? readRates(craft, catalogue, "rates-second") : null,
);

function readRates(craft: Craft, catalogue: Catalogue, section: string): RatesFigures {
  const axis = (name: string): RateAxis | null => {
    const field = (of: string, unit: string) => fieldNumberIn(craft, catalogue, section, name, of, unit);
    const [slopeDegS, endDegS, bend] = [field("slope", "deg/s"), field("end", "deg/s"), field("bend", "")];
    return slopeDegS === null || endDegS === null || bend === null ? null : { slopeDegS, endDegS, bend };
  };
  return {
    roll: axis("roll"),
    pitch: axis("pitch"),
    yaw: axis("yaw"),
    topDegS: numberIn(craft, catalogue, section, "top-rate", "deg/s"),
    throttle: readThrottle(craft, catalogue, section),
  };
}

function readThrottle(craft: Craft, catalogue: Catalogue, section: string): Throttle | null {
  const share = (name: string): number | null => {
    const percent = numberIn(craft, catalogue, section, name, "%");
    return percent === null ? null : percent / 100;
  };
  const points = valueIn(craft, catalogue, section, "throttle-curve");
  const curve = points?.kind === "list" ? points.items.map((item) => (numberOf(item, "%") ?? 0) / 100) : null;
  const [softness, about, limit] = [share("throttle-soft"), share("throttle-hover"), share("throttle-limit")];
  const by = wordIn(craft, catalogue, section, "throttle-limit-by");
  if (softness === null || limit === null || (by !== "stretched" && by !== "cut-off")) return null;
  if (softness > 0 && about === null && !curve) return null;
  const soft = softness > 0 && about !== null ? { share: softness, about } : null;
  return { curve, soft, limit, limitBy: by };
}

export interface StickTravels {
  readonly rollAndPitch: StickTravel;
  readonly yaw: StickTravel;
  readonly throttle: { readonly fromUs: number; readonly toUs: number };
}

/**
 * Ends, middle and deadbands of the sticks' pulses; null if a line of them has a fault. A deadband that is
 * not set is 0.
 */
export const stickTravelsOf = onceFor((craft, catalogue): StickTravels | null => {
  const ends = valueIn(craft, catalogue, "link", "endpoints");
  if (ends?.kind !== "range") return null;
  const [fromUs, toUs] = [numberOf(ends.from, "us"), numberOf(ends.to, "us")];
  const centreUs = numberIn(craft, catalogue, "link", "centre", "us");
  if (fromUs === null || toUs === null || centreUs === null) return null;
  const deadband = (name: string) => numberIn(craft, catalogue, "link", name, "us") ?? 0;
  const plain = { fromUs, centreUs, toUs };
  return {
    rollAndPitch: { ...plain, deadbandUs: deadband("deadband") },
    yaw: { ...plain, deadbandUs: deadband("yaw-rest-zone") },
    throttle: { fromUs, toUs },
  };
});
