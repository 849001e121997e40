/** The hostile texts as cases: several in a row, as a sweep has no time to try each by itself in every place. */
import { attacks, inRows } from "../../hostile-texts.ts";
import { casesOr, ONLY } from "../amount.ts";

/** So many texts stand in one workspace, side by side: in four cases each of them is tried. */
const IN_ROW = 20;
const ALL_ONCE = Math.ceil(attacks.length / IN_ROW);

/**
 * The number and the text of each case of this run. The first cases have every text once; from there on others stand
 * at the beginning of the row, which is all that a name or a title has room for: in 80 cases each text has stood there.
 */
export function hostileRows(): readonly (readonly [number, string])[] {
  const numbers = ONLY === null ? Array.from({ length: casesOr(ALL_ONCE) }, (_, index) => index) : [ONLY];
  return numbers.map((number) => {
    const from = (ALL_ONCE * Math.floor(number / ALL_ONCE)) % attacks.length;
    return [number, inRows([...attacks.slice(from), ...attacks.slice(0, from)], IN_ROW)[number % ALL_ONCE]!];
  });
}
