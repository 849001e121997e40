/** Conditions, controls and places made from their productions. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { Random } from "../random.ts";

const MODES = makeCatalogue().modes.map(({ name }) => name);
const CONTROLS = ["TL", "TR", "PB", "KN", "SX", "K1"];

export function positionText(random: Random): string {
  return random.oneOf(["up", "mid", "down", "rest", "held", "one", "two", "sixteen", "x-1"]);
}

function pulseText(random: Random): string {
  return random.oneOf([
    "1000 us",
    "1500us",
    "2000 us",
    "1.5 ms",
    "1.2345 ms",
    "900 µs",
    "1750.5 us",
    "0 us",
    "0.0000001 us",
    "2100",
    "-1 us",
    "99999999999999999999999 us",
    `${"9".repeat(307)} ms`,
  ]);
}

function subjectText(random: Random): string {
  const kind = random.below(12);
  if (kind < 7) return random.oneOf(CONTROLS);
  return kind < 11 ? `ch${random.between(0, 18)}` : random.oneOf(["ch007", "ch99999999999999999999999", "CH"]);
}

/** A condition, as deep as is told. */
export function conditionText(random: Random, depth: number): string {
  if (depth > 0) {
    const kind = random.below(6);
    if (kind < 2)
      return random
        .some(random.between(2, 3), () => conditionText(random, depth - 1))
        .join(random.oneOf([" or ", " and "]));
    if (kind === 2) return `(${conditionText(random, depth - 1)})`;
    if (kind === 3) return `not ${conditionText(random, depth - 1)}`;
  }
  const kind = random.below(10);
  if (kind < 4) return `${random.oneOf(CONTROLS)} is ${random.onceIn(4) ? "not " : ""}${positionText(random)}`;
  if (kind < 6) return `${subjectText(random)} ${random.oneOf(["above", "below"])} ${pulseText(random)}`;
  if (kind < 8) return `${subjectText(random)} in ${pulseText(random)} to ${pulseText(random)}`;
  return kind === 8 ? "always" : random.oneOf(MODES);
}

/** What follows the name of a control. */
export function controlText(random: Random): string {
  const kind = random.oneOf(["switch", "switch", "selector", "button", "dial"]);
  const lies = random.onceIn(4)
    ? ` lies ${random.oneOf(["left", "right", "middle"])}${random.oneOf(["", " shoulder", " face", " back"])}`
    : "";
  const channel = random.onceIn(20) ? subjectText(random) : `ch${random.between(5, 16)}`;
  if (kind === "dial") return `${kind} ${channel} ${pulseText(random)} to ${pulseText(random)}${lies}`;
  const count = kind === "selector" ? random.between(1, 17) : random.between(1, 4);
  const places = random.some(
    count,
    () => `${random.onceIn(3) ? `p${random.below(20)}` : positionText(random)} ${pulseText(random)}`,
  );
  const rests = random.onceIn(4) ? ` rests ${positionText(random)}` : "";
  return `${kind} ${channel} ${places.join("  ")}${rests}${lies}`;
}

function axisText(random: Random, anchors: readonly string[]): string {
  const offset = random.oneOf([0, 1, 2, 12, 30, 99, 10_000]);
  if (random.onceIn(3)) return String(offset);
  const anchor = random.oneOf(anchors);
  return random.onceIn(3) ? anchor : `${anchor}${random.oneOf(["+", "-", " + ", " -"])}${offset}`;
}

/** A place of the OSD. */
export function placeText(random: Random): string {
  const column = axisText(random, ["left", "centre", "right"]);
  return `${column}${random.oneOf([", ", ",", " , "])}${axisText(random, ["top", "middle", "bottom"])}`;
}
