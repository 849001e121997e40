/** Positions of controls, in words. */
import type { Positions } from "../../logic/switchboard-types.ts";

/** Positions as a list: “TL down, KN at 1500 us”. */
export function positionsInWords(positions: Positions): string {
  const words = Object.entries(positions).map(([name, at]) =>
    typeof at === "number" ? `${name} at ${at} us` : `${name} ${at}`,
  );
  return words.length === 0 ? "any position of the controls" : words.join(", ");
}
