/**
 * What the display could show in the middle of a flight: one set of readings that agree with each
 * other and with what the craft says of its pack, and the elements' texts made from them. The
 * scene itself (how far, how fast, how warm) is the project's own example, no measurement.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Element } from "../catalogue/types.ts";
import { convert } from "../catalogue/units.ts";
import type { Craft } from "../model/craft.ts";
import { nameText } from "./layout.ts";

/** By the name of the reading: a number in the reading's own unit, or words. */
export type Readings = ReadonlyMap<string, number | string>;

/** Volts of a rested cell half way through a flight; from memory: the middle of common discharge curves. */
const HALF_WAY_VOLTS: Readonly<Record<string, number>> = { lipo: 3.82, lihv: 3.9, "li-ion": 3.6 };
const SAG_VOLTS = 0.12;
/** Share of the capacity used half way through a flight that lands with a fifth left. */
const USED_SHARE = 0.4;
/** What stands in where the craft does not say it: a five-inch craft's pack, as an example. */
const EXAMPLE = { cells: 4, capacityMah: 1300, hoverA: 6, videoMhz: 5800, videoMw: 25, packetHz: 150, handsetMw: 100 };
/** Flown briskly, a craft takes this many times the current of its hover. */
const BRISK = 1.6;

const SCENE: Readonly<Record<string, number | string>> = {
  "link-quality": 98,
  "signal-dbm": -68,
  "noise-margin": 9,
  antenna: 1,
  lifetime: 2_478,
  "time-of-day": 15 * 60 + 42,
  day: "2026-05-01",
  "lap-time": 27,
  "lap-number": 3,
  throttle: 41,
  "sets-in-use": "R1 G1",
  adjusting: "",
  // Nothing is amiss here, yet the place of both must be seen: an alert that may come to any flight.
  alert: "FLIGHT TIME",
  message: "CHECKS PASSED",
  heading: 218,
  "pitch-angle": -12,
  "roll-angle": 8,
  "g-force": 1.1,
  height: 24.5,
  "ground-clearance": 22.8,
  "top-height": 41,
  climb: 0.8,
  speed: 48,
  "top-speed": 93,
  "home-distance": 164,
  "home-bearing": 47,
  satellites: 14,
  "fix-spread": 0.9,
  // The middle of the North Sea: nobody's home.
  latitude: 56.00123,
  longitude: 3.00456,
  "esc-heat": 58,
  "board-heat": 46,
  "motor-rpm": 17_400,
  "camera-angle": 20,
  "recorder-left": 71,
  "loop-load": 34,
  "stick-roll": 6,
  "stick-pitch": 18,
  "stick-yaw": -3,
  "stick-throttle": 44,
};

/** The readings of a craft half way through a flight. */
export function midFlight(craft: Craft): Readings {
  const cells = integerOf(craft, "pack", "cells") ?? EXAMPLE.cells;
  const capacityMah = quantityOf(craft, "pack", "capacity", "mAh") ?? EXAMPLE.capacityMah;
  const amps = (quantityOf(craft, "pack", "hover-current", "A") ?? EXAMPLE.hoverA) * BRISK;
  const restedVolts = HALF_WAY_VOLTS[wordOf(craft, "pack", "chemistry") ?? "lipo"] ?? HALF_WAY_VOLTS.lipo!;
  const cellVolts = restedVolts - SAG_VOLTS;
  const usedMah = Math.round(capacityMah * USED_SHARE);
  // A mAh is 3.6 A·s.
  const flightS = Math.round((usedMah * 3.6) / amps);
  const speedKmh = SCENE.speed as number;
  return new Map<string, number | string>([
    ...Object.entries(SCENE),
    ["pack-volts", cellVolts * cells],
    ["cell-volts", cellVolts],
    ["rested-volts", restedVolts],
    ["amps", amps],
    ["watts", cellVolts * cells * amps],
    ["used-capacity", usedMah],
    ["charge-left", Math.round(100 * (1 - USED_SHARE))],
    ["charge-per-distance", (amps * 1000) / speedKmh],
    ["time-left", Math.round(((capacityMah * 0.8 - usedMah) * 3.6) / amps)],
    ["flight-time", flightS],
    ["power-time", flightS + 50],
    ["travelled", Math.round((speedKmh / 3.6) * flightS * 0.8)],
    ["link-power", handsetMw(craft)],
    ["packet-rate", quantityOf(craft, "link", "packet-rate", "Hz") ?? EXAMPLE.packetHz],
    ["video-frequency", quantityOf(craft, "video", "frequency", "MHz") ?? EXAMPLE.videoMhz],
    ["video-power", quantityOf(craft, "video", "power", "mW") ?? EXAMPLE.videoMw],
    ["mode", craft.modes.has("level") ? "LEVEL" : "RATES"],
    ["craft-name", craft.name],
    ["pilot-name", nameText("osd.pilot-name", craft)],
  ]);
}

function handsetMw(craft: Craft): number {
  return quantityOf(craft, "transmitter", "power", "mW") ?? EXAMPLE.handsetMw;
}

/**
 * The text of an element, a string for each row, cut to its cells; empty for a figure. Where the
 * moment has nothing to show there, the element's own name stands in, so that its place is seen.
 */
export function sampleText(element: Element, readings: Readings, catalogue: Catalogue, width: number): string[] {
  const rows = element.shows.map((template) => filled(template, readings, catalogue));
  if (rows.length === 0 || element.drawn !== "text") return [];
  if (rows.every((row) => row.trim() === "")) return [element.name.toUpperCase().slice(0, width)];
  return rows.map((row) => [...row].slice(0, width).join(""));
}

const BRACES = /\{([a-z-]+)(?:\.(\d)|:(clock))?\}/g;

/** A template with its readings filled in. A reading that is not known leaves dashes. */
export function filled(template: string, readings: Readings, catalogue: Catalogue): string {
  return template.replace(BRACES, (_, name: string, decimals: string | undefined, clock: string | undefined) => {
    const value = readings.get(name);
    if (value === undefined) return "--";
    if (typeof value === "string") return value;
    if (clock) return clockText(value, catalogue.readings.find((each) => each.name === name)?.unit === "min");
    return decimal(value, Number(decimals ?? 0));
  });
}

function decimal(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace("-", "") : text;
}

/** A duration in s as m:ss; minutes as h:mm, which is the same sum. */
function clockText(value: number, inMinutes: boolean): string {
  const whole = inMinutes ? Math.floor(value) : Math.round(value);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

function quantityOf(craft: Craft, section: string, name: string, unit: string): number | undefined {
  const value = craft.settings.get(section)?.get(name)?.value;
  return value?.kind === "quantity" ? convert(value.number, value.unit, unit) : undefined;
}

function integerOf(craft: Craft, section: string, name: string): number | undefined {
  const value = craft.settings.get(section)?.get(name)?.value;
  return value?.kind === "integer" ? value.number : undefined;
}

function wordOf(craft: Craft, section: string, name: string): string | undefined {
  const value = craft.settings.get(section)?.get(name)?.value;
  return value?.kind === "choice" ? value.word : undefined;
}
