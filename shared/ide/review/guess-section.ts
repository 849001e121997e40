/** Which section an entry belongs to that stands in none, where its name and its value tell. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { readEntry } from "../../model/read-entry.ts";
import { parseLine } from "../../syntax/parse-line.ts";

/** A section, or why none is certain: null where no section has such a name. */
export type Guess = { readonly section: string } | { readonly among: readonly string[] } | null;

/** Sections whose entries are said of a second set: an entry alone is meant for the first. */
const isSecond = (name: string) => name.endsWith("-second");

/**
 * The one section in which a line, without its indent, is understood; `here` is preferred. Where it is understood in
 * none, the one that has its name.
 */
export function guessSection(text: string, here: string | null, catalogue: Catalogue): Guess {
  const { node, text: line } = parseLine(` ${text}`, "plain");
  if (node.kind !== "entry") return null;
  const named = catalogue.sections.filter(
    ({ name, holds, in: kinds }) =>
      kinds.includes("layer") &&
      !isSecond(name) &&
      holds !== "kept" &&
      mayHold(holds, name, node.head.text, line, catalogue),
  );
  const understood = named.filter((spec) => readEntry(line, node.head, node.value, spec, catalogue).value !== null);
  const found = (understood.length > 0 ? understood : named).map(({ name }) => name);
  if (here !== null && found.includes(here)) return { section: here };
  if (found.length === 1) return { section: found[0]! };
  return found.length === 0 ? null : { among: found };
}

/** Whether a line, without its indent, is understood in this section, or in any where there is none or it has no such name. */
export function isUnderstood(text: string, place: SectionSpec | undefined, catalogue: Catalogue): boolean {
  const { node, text: line } = parseLine(` ${text}`, "plain");
  if (node.kind !== "entry") return false;
  const isRead = (spec: SectionSpec) =>
    spec.holds !== "kept" && readEntry(line, node.head, node.value, spec, catalogue).value !== null;
  if (place && isRead(place)) return true;
  const guess = guessSection(text, null, catalogue);
  const spec = guess !== null && "section" in guess ? catalogue.section(guess.section) : undefined;
  return spec !== undefined && isRead(spec);
}

/** Why an entry stands in no certain section, in a sentence. */
export function ambiguity(name: string, among: readonly string[]): string {
  const sections = among.map((each) => `“${each}”`).join(" or ");
  return `“${name}” can stand in ${sections}, and its value does not tell: write the name of the section above it.`;
}

/** Whether a section may hold an entry of that name; of free names the words behind it tell. */
function mayHold(holds: string, section: string, name: string, line: string, catalogue: Catalogue): boolean {
  switch (holds) {
    case "modes":
      return catalogue.mode(name) !== undefined;
    case "places":
      return catalogue.element(name) !== undefined || catalogue.setting(section, name) !== undefined;
    case "settings":
      return catalogue.setting(section, name) !== undefined;
    case "follows":
      return /^\s*\S+\s+follows\b/.test(line);
    case "controls":
      return /^\s*[A-Z][A-Za-z0-9]*\s+(?:switch|selector|button|dial)\b/.test(line);
    default:
      return false;
  }
}
