/** Which line end a script has at a place. */
import type { LineEnd, Tree } from "./tree.ts";

/** The line end that a new line at this one gets: its own, and at a last line that has none the first of the script. */
export function lineEnd({ ends }: Pick<Tree, "ends">, line: number): LineEnd {
  return ends[line] || ends.find((end) => end !== "") || "\n";
}
