/** In a hover, one line on the files that said a name, nearest last. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { plainText } from "../../text/plain-text.ts";
import { lineCounts, type NamedEntry } from "../context/effective-entry.ts";
import { codeSpan } from "../context/markdown.ts";
import { shortChain } from "../origin/origin.ts";
import { type LinkTargets, linked } from "./links.ts";

/** Files and characters that fit into a line: of more files the nearest, of longer values the beginning. */
const MOST_STEPS = 4;
const MOST_TEXT = 32;

/**
 * As “Base 3.6 V/cell → Habits 3.5 V/cell”, where more than one file said the name on a craft; and where the line of a
 * layer counts, the way to another value on that craft alone.
 */
export function chainText(
  workspace: Workspace,
  craft: Craft,
  entry: NamedEntry & { readonly line: number },
  file: string,
  links: LinkTargets,
): string {
  const chain = shortChain(craft, { section: entry.section, name: entry.name, field: null }, workspace);
  const steps = chain.slice(-MOST_STEPS).map(({ script, does, text, source }) => {
    const words = does === "drops" ? text : codeOf(text);
    return `${linked(plainText(script), links.line(source))} ${words}`;
  });
  const more = chain.length > MOST_STEPS ? "… → " : "";
  const said = steps.length > 0 ? more + steps.join(" → ") : "";
  const isForeign = file !== craft.file && lineCounts(craft, file, entry);
  const way = isForeign ? (links.override?.({ file, line: entry.line }, craft.file) ?? null) : null;
  const override = way === null ? "" : linked(`Override on ${plainText(craft.name)}`, way);
  return [said, override].filter((text) => text !== "").join(" · ");
}

function codeOf(text: string): string {
  return codeSpan(text.length > MOST_TEXT ? `${text.slice(0, MOST_TEXT)}…` : text);
}
