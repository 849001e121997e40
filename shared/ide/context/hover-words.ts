/** What is to be expected of a hover, in words: always a range, since the estimate is rough. */
import type { Expected } from "../../numbers/thrust.ts";
import type { ExpectedHover } from "../../numbers/thrust-of.ts";
import { formatNumber } from "./format.ts";

/** “22 % to 33 % of the throttle”. */
export function throttleRange({ from, to }: Expected): string {
  return `${formatNumber(from * 100, 2)} % to ${formatNumber(to * 100, 2)} % of the throttle`;
}

/** “4 A to 8.6 A”. */
export function currentRange({ currentA: { from, to } }: ExpectedHover): string {
  return `${formatNumber(from, 2)} A to ${formatNumber(to, 2)} A`;
}
