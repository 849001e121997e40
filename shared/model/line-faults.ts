/** Issues of a line that leave the effective craft without what the line was to say. */
import type { ReadingCode } from "./script.ts";

/** After these a line says nothing: it was not understood. What is only unusual or said twice counts. */
export const NOT_UNDERSTOOD: ReadonlySet<ReadingCode> = new Set([
  "syntax",
  "unknown-name",
  "wrong-type",
  "wrong-unit",
  "missing-unit",
  "section-misplaced",
]);

/** After these it is not what was to be said: beyond its limits a value counts, and is most likely not what was meant. */
export const NOT_AS_MEANT: ReadonlySet<ReadingCode> = new Set([...NOT_UNDERSTOOD, "out-of-range"]);
