/** Parts that several kinds of reference pages share. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Need } from "../../catalogue/specs.ts";
import type { LookedAtKind } from "../../rules/engine/rule.ts";
import { list, paragraphs } from "../context/markdown.ts";
import { thingsThatNeed } from "../context/relation-lines.ts";
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
  const lines = thingsThatNeed(catalogue, matches).map(({ name, need }) => {
    const value = need.is ?? need.has;
    const state =
      value !== undefined ? ` (as \`${value}\`)` : need.not !== undefined ? ` (not as \`${need.not}\`)` : "";
    return `\`${name}\`${need.word === undefined ? "" : ` \`${need.word}\``}${state}: ${need.reason}`;
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
