/** What the elements that are figures show at a moment. */
import type { FigureReading } from "../protocol/panel.ts";
import type { Readings } from "./element-text.ts";

/** The reading of a figure, by its element's name; null for one that shows none, and where a reading is not known. */
export function figureOf(name: string, readings: Readings): FigureReading | null {
  return Object.hasOwn(FIGURES, name) ? FIGURES[name]!((reading) => readings.get(reading)) : null;
}

type Read = (reading: string) => number | string | undefined;

const FIGURES: Readonly<Record<string, (read: Read) => FigureReading | null>> = {
  "pack-bar": figureFrom(["charge-left"], (percent) => ({
    kind: "bar",
    share: Math.min(1, Math.max(0, percent / 100)),
  })),
  "home-arrow": figureFrom(["home-bearing"], (turnDeg) => ({ kind: "arrow", turnDeg })),
  "horizon-line": figureFrom(["pitch-angle", "roll-angle"], (pitchDeg, rollDeg) => ({
    kind: "horizon",
    pitchDeg,
    rollDeg,
  })),
  "heading-tape": figureFrom(["heading"], (headingDeg) => ({ kind: "compass", headingDeg })),
  "height-tape": figureFrom(["height"], (value) => ({ kind: "scale", value, step: 5, unit: "m" })),
  "speed-tape": figureFrom(["speed"], (value) => ({ kind: "scale", value, step: 10, unit: "km/h" })),
  // The throttle rests at its lower end, the others in their middle.
  "stick-trace-left": figureFrom(["stick-yaw", "stick-throttle"], (yaw, throttle) => stick(yaw, throttle * 2 - 100)),
  "stick-trace-right": figureFrom(["stick-roll", "stick-pitch"], stick),
};

/** A figure of readings that are numbers; none where one of them is not there. */
function figureFrom(names: readonly string[], make: (...values: number[]) => FigureReading) {
  return (read: Read): FigureReading | null => {
    const values = names.map(read).filter((value) => typeof value === "number");
    return values.length === names.length ? make(...values) : null;
  };
}

/** From percent of the way. */
function stick(across: number, up: number): FigureReading {
  return { kind: "stick", across: across / 100, up: up / 100 };
}
