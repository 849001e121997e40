/**
 * What a craft says of its rates, as numbers: `ratesOf` for the first set, `secondRatesOf` for the second,
 * which lies over the first field by field; `stickTravelsOf` for what the pulses of the sticks mean.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft } from "../model/craft.ts";
import type { RateAxis, Throttle } from "./rates.ts";
import type { StickTravel } from "./sticks.ts";
import { fieldNumberIn, numberIn, numberOf, onceFor, valueIn, wordIn } from "./values.ts";

export interface RatesFigures {
  /** Null where slope or end is not said. */
  readonly roll: RateAxis | null;
  readonly pitch: RateAxis | null;
  readonly yaw: RateAxis | null;
  /** The rate that is never exceeded; null where there is no cap. */
  readonly topDegS: number | null;
  /** Null where the softness has no place to lie about, or a line of it has a fault. */
  readonly throttle: Throttle | null;
}

/** The first set; what is not said has the catalogue's default. */
export const ratesOf = onceFor((craft, catalogue) => readRates(craft, catalogue, "rates"));

/** The second set; null where the craft has none. */
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
  if (softness === null || limit === null || (by !== "scaling" && by !== "clipping")) return null;
  if (softness > 0 && about === null && !curve) return null;
  const soft = softness > 0 && about !== null ? { share: softness, about } : null;
  return { curve, soft, limit, limitBy: by };
}

export interface StickTravels {
  readonly rollAndPitch: StickTravel;
  readonly yaw: StickTravel;
  readonly throttle: { readonly fromUs: number; readonly toUs: number };
}

/** What the pulses of the sticks mean; null where a line of it has a fault. A deadband not said is none. */
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
    yaw: { ...plain, deadbandUs: deadband("yaw-deadband") },
    throttle: { fromUs, toUs },
  };
});
