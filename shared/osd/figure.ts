/** What graphical elements show at a moment. */
import type { FigureReading } from "../protocol/panel.ts";
import type { Readings } from "./element-text.ts";

/** What a figure shows, by its element's name; null for one that shows no reading, and if a reading is not known. */
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
  // Throttle is 0 to 100 %, the other sticks are -100 to 100 %.
  "stick-trace-left": figureFrom(["stick-yaw", "stick-throttle"], (yaw, throttle) => stick(yaw, throttle * 2 - 100)),
  "stick-trace-right": figureFrom(["stick-roll", "stick-pitch"], stick),
};

/** Makes a figure from numeric readings; null if one of them is missing. */
function figureFrom(names: readonly string[], make: (...values: number[]) => FigureReading) {
  return (read: Read): FigureReading | null => {
    const values = names.map(read).filter((value) => typeof value === "number");
    return values.length === names.length ? make(...values) : null;
  };
}

/** A stick, from percentages of its travel. */
function stick(across: number, up: number): FigureReading {
  return { kind: "stick", across: across / 100, up: up / 100 };
}
