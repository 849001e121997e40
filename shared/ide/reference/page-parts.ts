/** Parts that several kinds of reference pages share. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Need } from "../../catalogue/specs.ts";
import type { LookedAtKind } from "../../rules/engine/rule.ts";
import { list, paragraphs } from "../context/markdown.ts";
import { rulesLookingAt } from "./rules-of.ts";

/** A chapter of a page; empty if its text is. */
export function headed(title: string, text: string): string {
  return text === "" ? "" : `## ${title}\n\n${text}`;
}

/** Names as code, between commas. */
export function code(names: readonly string[]): string {
  return names.map((name) => `\`${name}\``).join(", ");
}

/** The rules that look at a name, besides those that look at every line alike. */
export function rulesText(catalogue: Catalogue, kind: LookedAtKind, name: string): string {
  const found = rulesLookingAt(catalogue, kind, name);
  return headed(
    "Rules that look at it",
    list(found.map((rule) => `\`${rule.code}\` (${rule.severity}): ${rule.summary}`)),
  );
}

/** The settings, modes and elements with a need that `matches` accepts. */
export function neededBy(catalogue: Catalogue, matches: (need: Need) => boolean): string {
  const things = [
    ...catalogue.sections.flatMap((section) =>
      section.settings.map(({ name, needs }) => ({ name: `${section.name}.${name}`, needs })),
    ),
    ...catalogue.modes,
    ...catalogue.elements,
  ];
  const lines = things.flatMap(({ name, needs = [] }) => {
    const need = needs.find(matches);
    if (!need) return [];
    const state =
      need.is !== undefined ? ` (as \`${need.is}\`)` : need.not !== undefined ? ` (not as \`${need.not}\`)` : "";
    return [`\`${name}\`${state}: ${need.reason}`];
  });
  return headed("Needed by", list(lines));
}

/** Lines of a script, fenced. */
export function fenced(script: string): string {
  return `\`\`\`fettle\n${script}\n\`\`\``;
}

/** Related names, and the plain words that lead to the page. */
export function seeAlso(related: readonly string[] | undefined, words: readonly string[]): string {
  return paragraphs(
    related && related.length > 0 ? `See also: ${code(related)}.` : "",
    words.length > 0 ? `Also found as: ${words.join("; ")}.` : "",
  );
}
