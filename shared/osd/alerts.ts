/** The alerts of the display at a moment: thresholds of the script that the readings have passed. */
import type { Craft } from "../model/craft.ts";
import { choiceOf, choicesOf, integerOf, quantityOf } from "../model/setting-lookup.ts";
import type { Readings } from "./element-text.ts";
import { chargeOf } from "./pack-state.ts";

export interface Alert {
  /** The word of `osd.alert-on` that enables it. */
  readonly kind: string;
  /** What the element `alerts` shows. */
  readonly text: string;
  /** Elements that flash: their reading is past the threshold. */
  readonly elements: readonly string[];
}

const PACK = ["pack-volts", "cell-volts", "pack-bar"];

/**
 * The alerts that are active at a moment, the most urgent first. Without a threshold in the script there is
 * no alert.
 */
export function activeAlerts(craft: Craft, readings: Readings): readonly Alert[] {
  const read = (name: string) => Number(readings.get(name));
  const under = (name: string, limit: number | undefined) => limit !== undefined && read(name) < limit;
  const atLeast = (name: string, limit: number | undefined) => limit !== undefined && read(name) >= limit;
  const countsCharge = choiceOf(craft, "pack.current-from") !== "none";
  const landing = under("cell-volts", quantityOf(craft, "pack.land-at", "V/cell"));
  const warnMah = chargeOf(craft, "pack.warn-after", quantityOf(craft, "pack.capacity", "mAh"));
  const hasReserve = craft.settings.get("pack")?.get("reserve")?.value != null;
  const flightAlertMin = quantityOf(craft, "osd.flight-time-alert", "min");
  const passed: readonly (Alert & { readonly is: boolean })[] = [
    {
      kind: "weak-link",
      text: "SIGNAL LOST",
      elements: ["link-quality", "signal", "noise-margin"],
      is: read("link-quality") === 0,
    },
    { kind: "low-pack", text: "PACK EMPTY", elements: PACK, is: landing },
    {
      kind: "weak-link",
      text: "LINK WEAK",
      elements: ["link-quality"],
      is: under("link-quality", quantityOf(craft, "osd.link-alert", "%")),
    },
    {
      kind: "weak-signal",
      text: "SIGNAL WEAK",
      elements: ["signal"],
      is: under("signal-dbm", quantityOf(craft, "osd.signal-alert", "dBm")),
    },
    {
      kind: "low-pack",
      text: "PACK LOW",
      elements: PACK,
      is: under("cell-volts", quantityOf(craft, "pack.warn-at", "V/cell")),
    },
    {
      kind: "used-up",
      text: "CHARGE USED UP",
      elements: ["used-capacity", "charge-left"],
      is: countsCharge && atLeast("used-capacity", warnMah),
    },
    {
      kind: "used-up",
      text: "RESERVE REACHED",
      elements: ["time-left"],
      is: countsCharge && hasReserve && read("time-left") === 0,
    },
    {
      kind: "no-fix",
      text: "NO FIX",
      elements: ["satellites"],
      is: under("satellites", integerOf(craft, "navigation.fix-needs")),
    },
    {
      kind: "hot-esc",
      text: "ESC HOT",
      elements: ["esc-heat"],
      is: atLeast("esc-heat", quantityOf(craft, "osd.heat-alert", "degC")),
    },
    {
      kind: "high",
      text: "TOO HIGH",
      elements: ["height", "height-tape"],
      is: atLeast("height", quantityOf(craft, "osd.height-alert", "m")),
    },
    {
      kind: "far",
      text: "TOO FAR",
      elements: ["home-distance"],
      is: atLeast("home-distance", quantityOf(craft, "osd.distance-alert", "m")),
    },
    {
      kind: "long-flight",
      text: "FLIGHT TIME",
      elements: ["flight-time"],
      is: atLeast("flight-time", flightAlertMin && flightAlertMin * 60),
    },
  ];
  return passed.filter(({ is }) => is);
}

/** The text of the element `alerts`: the most urgent alert that `osd.alert-on` enables, or none. */
export function alertText(craft: Craft, alerts: readonly Alert[]): string {
  const shownKinds = choicesOf(craft, "osd.alert-on");
  return alerts.find(({ kind }) => !shownKinds || shownKinds.includes(kind))?.text ?? "";
}
