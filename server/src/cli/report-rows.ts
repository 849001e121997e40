/** Parts of the reports about board text, as a person reads them. */
import { oneLine } from "./io.ts";

/** As many rows of one kind as a person will read through; the JSON has all. */
const MOST = 24;

/** A heading with a row for each; nothing without any. */
export function rows(heading: string, all: readonly string[]): string {
  if (all.length === 0) return "";
  const more = all.length - MOST;
  const shown = all.slice(0, more > 1 ? MOST : all.length).map((each) => `  ${oneLine(each)}\n`);
  return `${heading}\n${shown.join("")}${more > 1 ? `  and ${more} more: see --format json\n` : ""}`;
}

/** Names as `SECTION NAME`, those of a section in one row. */
export function bySection(heading: string, all: readonly string[]): string {
  const sections = new Map<string, string[]>();
  for (const what of all) {
    const end = what.lastIndexOf(" ");
    const section = what.slice(0, end);
    const names = sections.get(section) ?? [];
    sections.set(section, names);
    names.push(what.slice(end + 1));
  }
  return rows(
    heading,
    [...sections].map(([section, names]) => `${section}: ${names.join(", ")}`),
  );
}

/** `3 rounded, 1 lost`: what there is none of is left out. */
export function countsOf(counts: readonly (readonly [number, string])[]): string[] {
  return counts.flatMap(([number, words]) => (number === 0 ? [] : [`${number} ${words}`]));
}
