/** The settings that follow a dial in flight: from what to what, and what they are at a pulse. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import { convert } from "../catalogue/units.ts";
import type { Craft, Source } from "../model/craft.ts";
import { adjustable } from "../model/read-entry.ts";
import type { ControlKind, Value } from "../syntax/value.ts";
import { onceFor } from "./values.ts";

/** What a setting is at one stop of its dial. */
export interface AdjustEnd {
  /** In the unit of the adjustment. */
  readonly number: number;
  /** The pulse that the dial sends at this stop. */
  readonly pulseUs: number;
}

/** A setting that follows a dial; `from` belongs to the dial's first stop, also of a dial whose range falls. */
export interface Adjustment {
  readonly section: string;
  readonly name: string;
  readonly dial: string;
  readonly from: AdjustEnd;
  readonly to: AdjustEnd;
  /** The unit of both ends; "" for bare numbers. */
  readonly unit: string;
  /** Digits after the point with which values between the ends are worth showing. */
  readonly decimals: number;
  /** A second set that says the setting itself: that the dial moves it there too is not said. */
  readonly ownIn: string | null;
  readonly source: Source;
}

/** A line of `adjust` that moves nothing. */
export interface IdleFollower {
  readonly name: string;
  /** `control` is known and no dial, so that its positions have no values between them. */
  readonly control: string;
  readonly kind: Exclude<ControlKind, "dial">;
  readonly source: Source;
}

export interface Adjustments {
  readonly moving: readonly Adjustment[];
  readonly idle: readonly IdleFollower[];
  /** Settings whose line has a fault: which control moves them is not known. */
  readonly faulty: readonly string[];
}

/** What the lines of `adjust` say, in the order in which they were first said; settings that follow a control that is not there are left out. */
export const adjustmentsOf = onceFor((craft: Craft, catalogue: Catalogue): Adjustments => {
  const moving: Adjustment[] = [];
  const idle: IdleFollower[] = [];
  const faulty: string[] = [];
  for (const { name, value, source } of craft.adjust.values()) {
    const dial = value?.kind === "follows" ? craft.controls.get(value.dial)?.value : undefined;
    if (value?.kind !== "follows") faulty.push(name);
    else if (dial && dial.control !== "dial") idle.push({ name, control: value.dial, kind: dial.control, source });
    else if (dial && dial.fromUs !== null && dial.toUs !== null) {
      const unit = unitOf(value.to);
      const [from, to] = [numberIn(value.from, unit), numberIn(value.to, unit)];
      const section = catalogue.sections.find(({ settings }) => settings.includes(adjustable(name, catalogue)!));
      if (from === null || to === null || !section) continue;
      moving.push({
        section: section.name,
        name,
        dial: value.dial,
        from: { number: from, pulseUs: dial.fromUs },
        to: { number: to, pulseUs: dial.toUs },
        unit,
        decimals: decimalsBetween(from, to),
        ownIn: craft.settings.get(`${section.name}-second`)?.has(name) ? `${section.name}-second` : null,
        source,
      });
    }
  }
  return { moving, idle, faulty };
});

function unitOf(value: Value): string {
  return value.kind === "quantity" ? value.unit : "";
}

/** A quantity or a whole number in `unit`; null where its family is another. */
function numberIn(value: Value, unit: string): number | null {
  if (value.kind === "integer") return unit === "" ? value.number : null;
  return value.kind === "quantity" ? (convert(value.number, value.unit, unit) ?? null) : null;
}

/** A fiftieth of the way, about what one step of a dial moves, is to be seen in the digits. */
const SEEN_STEPS = 50;

function decimalsBetween(from: number, to: number): number {
  const step = Math.abs(to - from) / SEEN_STEPS;
  return step === 0 ? 0 : Math.min(6, Math.max(0, Math.ceil(-Math.log10(step))));
}

/**
 * What the setting is while the dial sends a pulse, in the adjustment's unit: in proportion to the dial's way from
 * its first stop; beyond a stop, what it is at that stop.
 */
export function adjustedAt({ from, to }: Pick<Adjustment, "from" | "to">, pulseUs: number): number {
  const share = (pulseUs - from.pulseUs) / (to.pulseUs - from.pulseUs);
  return from.number + Math.min(1, Math.max(0, share)) * (to.number - from.number);
}

/** A value of the setting as text, with its unit: “1.06”, “72.4 %”. The ends are shown as they were written. */
export function adjustedText(adjustment: Adjustment, number: number): string {
  const { from, to, unit, decimals } = adjustment;
  const isEnd = number === from.number || number === to.number;
  const text = isEnd ? String(Number(number.toPrecision(12))) : String(Number(number.toFixed(decimals)) + 0);
  return unit === "" ? text : `${text} ${unit}`;
}
