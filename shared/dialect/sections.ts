/** The sections that a dialect may have. */
import type { SectionSpec } from "../catalogue/specs.ts";

/** Those that are not a craft's. */
export const OWN_SECTIONS = ["text", "codes"] as const;

/** A board keeps what a craft's file may say, but neither what the pilot holds nor text that was kept. */
export function isMapped(spec: SectionSpec): boolean {
  return spec.holds !== "controls" && spec.holds !== "kept" && spec.in.includes("craft");
}
