/** Whether two craft give the logic the same input, so that one board serves both. */
import { dequal } from "dequal";
import type { SwitchInput } from "./switchboard-types.ts";

/**
 * True where every answer would be the same, including the source lines in them. The whole input is
 * compared deeply, so members added to it later count as well; objects that both share, such as
 * conditions of unchanged lines, are compared by identity first.
 */
export function sameInput(a: SwitchInput, b: SwitchInput): boolean {
  return dequal(a, b);
}
