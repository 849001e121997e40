/** Whether two craft ask the same of the logic, so that one board serves both. */
import { dequal } from "dequal";
import type { SwitchInput } from "./switchboard-types.ts";

/**
 * True where every answer would be the same, the lines named in them included. All of the input is
 * compared, so whatever is added to it counts; what both share, as the reading of a line, costs nothing.
 */
export function sameInput(a: SwitchInput, b: SwitchInput): boolean {
  return dequal(a, b);
}
