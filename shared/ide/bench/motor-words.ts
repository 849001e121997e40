/** A motor as a pilot has to find it: its corner, its direction, and the propeller that belongs there. */
import { frontLeftTurns, otherWay } from "../../rules/lib/motor-turning.ts";
import type { SaidMotor } from "../../rules/lib/said-motors.ts";

/** Which way a motor turns, and whether a line says so or it follows from the set. */
export interface TurnOf {
  readonly way: string;
  readonly isSaid: boolean;
}

/** Corners whose motors turn like the one at the front left, on a craft with four arms crosswise. */
const LIKE_FRONT_LEFT: Readonly<Record<string, boolean>> = {
  "front-left": true,
  "rear-right": true,
  "front-right": false,
  "rear-left": false,
};

/** What is said of its direction, else what follows from `spin` on a craft with four motors crosswise; null where neither is known. */
export function turnOf({ place, direction }: SaidMotor, spin: string | null, motors: number | null): TurnOf | null {
  if (direction) return { way: direction.is, isSaid: true };
  const like = place && LIKE_FRONT_LEFT[place.is];
  if (like == null || spin === null || motors !== 4) return null;
  const first = frontLeftTurns(spin);
  return { way: like ? first : otherWay(first), isSaid: false };
}

/** A place in words: `rear-left` is “rear left”. */
export function placeInWords(place: string): string {
  return place.startsWith("under-")
    ? `below, ${place.slice("under-".length).replace("-", " ")}`
    : place.replace("-", " ");
}

/** Which propeller belongs on a motor that turns so. */
export function propellerFor(way: string): string {
  return `a propeller made to turn ${way}, printed side up: the higher edge of each blade goes first`;
}
