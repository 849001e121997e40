/** What a hover leads with: the effective value of an entry on each craft, and the lines that it comes from. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";
import { joinWithAnd } from "../../text/list.ts";
import { plainText } from "../../text/plain-text.ts";
import { visibleLine } from "../../text/visible-text.ts";
import { type EffectiveEntry, effectiveEntryIn, lineCounts, type NamedEntry } from "../context/effective-entry.ts";
import { formatCount } from "../context/format.ts";
import { codeSpan } from "../context/markdown.ts";
import { type LinkTargets, lineLink } from "./links.ts";

/** What a hover is about: an entry's name, on a line of a file; without a line where it is only named there. */
export type Subject = Pick<Entry, "kind" | "section" | "name"> & {
  readonly own: Pick<Entry, "line" | "text" | "value"> | null;
  /** What stands in where nothing says it. */
  readonly usual: string | undefined;
};

/** An entry where it stands. */
export function subjectOf(catalogue: Catalogue, entry: Entry): Subject {
  const { kind, section, name } = entry;
  return { kind, section, name, own: entry, usual: usualOf(catalogue, entry) };
}

/** The default of a name; undefined where there is none. */
export function usualOf(catalogue: Catalogue, { kind, section, name }: NamedEntry): string | undefined {
  return kind === "setting" ? catalogue.setting(baseOf(section), name)?.default : undefined;
}

/** Values that differ between craft, names in one of them, and lines of one value: more are not read. */
const MOST_VALUES = 3;
const MOST_NAMES = 3;
const MOST_LINES = 4;

/** A longer value, such as a condition of many clauses, is not read in a hover. */
const MOST_TEXT = 300;

/**
 * The effective value of an entry with its lines, one paragraph for each value that differs between the craft: first
 * where the line counts. Without a craft, the value of the line itself.
 */
export function leadText(entry: Subject, { file, kind }: Script, crafts: readonly Craft[], links: LinkTargets): string {
  if (crafts.length === 0) return entry.own ? alone(entry.own, kind) : "";
  const groups = new Map<string, Craft[]>();
  const counting = crafts.filter((craft) => counts(entry, file, craft));
  for (const craft of [...counting, ...crafts.filter((each) => !counting.includes(each))]) {
    const text = leadOn(entry, file, craft, links);
    const group = groups.get(text);
    if (group) group.push(craft);
    else groups.set(text, [craft]);
  }
  const shown = [...groups].slice(0, MOST_VALUES);
  const more = groups.size - shown.length;
  return [
    ...shown.map(([text, group]) => text.replace(CRAFT, () => craftsInWords(group))),
    ...(more > 0 ? [`${formatCount(more, "more value")} on other craft`] : []),
  ].join("  \n");
}

/** Where the names of the craft stand in a text. A script may have it, but a value is shown without what does not show. */
const CRAFT = "\u0000";

/** True where the entry's own line gives the value. */
function counts({ own, ...of }: Subject, file: string, craft: Craft): boolean {
  return own === null || lineCounts(craft, file, { ...of, line: own.line });
}

function alone({ text, value }: NonNullable<Subject["own"]>, kind: Script["kind"]): string {
  const whose = kind === "handset" ? "handset" : "layer";
  return value === null
    ? `No value: this line has a fault`
    : `${codeText(text)}, on no craft yet: none uses this ${whose}`;
}

function leadOn(entry: Subject, file: string, craft: Craft, links: LinkTargets): string {
  const effective = effectiveEntryIn(craft, entry);
  if (!effective) return goneText(entry, file, craft, links);
  const { text, sources, faulty } = effective;
  const faults = faulty.map((source) => lineLink(source, file, links));
  const fault = `${joinWithAnd(faults)} ${faults.length === 1 ? "has" : "have"} a fault`;
  if (faults.length === sources.length) return `No value on ${CRAFT}: ${fault}, and nothing earlier shows through`;
  const wins = counts(entry, file, craft) ? "" : ", which wins over this line";
  const but = faults.length > 0 ? `; ${fault}` : "";
  return `${codeText(text)} on ${CRAFT}, ${linesText(effective, file, links)}${wins}${but}`;
}

/** Where the entry's name has no line on the craft: which `drop` took it back. */
function goneText(entry: Subject, file: string, craft: Craft, links: LinkTargets): string {
  const { kind, section, name } = entry;
  const removed = dropOf(craft, section, name);
  const what = kind === "mode" || kind === "output" ? "Off" : "Nothing";
  const why = removed ? `dropped in ${lineLink(removed, file, links)}` : "no line says it";
  return `${what} on ${CRAFT}: ${why}${usualInWords(entry.usual)}`;
}

/** Says that a default stands in where nothing is said; empty where there is none. */
export function usualInWords(usual: string | undefined): string {
  return usual === undefined ? "" : `; its default ${codeSpan(usual)} stands in`;
}

/** The last line that drops a name, or its whole section. */
function dropOf(craft: Craft, section: string, name: string): Source | null {
  for (const script of craft.scripts.toReversed()) {
    const drop = script.drops.findLast(
      (each) => each.section === section && (each.all || each.names.some(({ text }) => text === name)),
    );
    if (drop) return { file: script.file, line: drop.line };
  }
  return null;
}

/** The lines of a value, each once; of fields, each with the parts that it says. */
export function linesText({ sources }: EffectiveEntry, from: string, links: LinkTargets): string {
  const parts = new Map<string, string[]>();
  for (const { part, source } of sources) {
    const line = lineLink(source, from, links);
    parts.set(line, [...(parts.get(line) ?? []), ...(part === "" ? [] : [part])]);
  }
  const lines = [...parts].map(([line, of]) =>
    of.length === 0 || parts.size === 1 ? line : `${line} (${of.join(", ")})`,
  );
  const more = lines.length - MOST_LINES;
  return joinWithAnd([...lines.slice(0, MOST_LINES), ...(more > 0 ? [formatCount(more, "more line")] : [])]);
}

function craftsInWords(crafts: readonly Craft[]): string {
  const names = crafts.slice(0, MOST_NAMES).map(({ name }) => plainText(name));
  const more = crafts.length - names.length;
  return joinWithAnd([...names, ...(more > 0 ? [`${more} more`] : [])]);
}

/** A value as code, and bold: what the hover is read for. */
export function codeText(text: string): string {
  const shown = visibleLine(text);
  const short = shown.length > MOST_TEXT ? `${shown.slice(0, MOST_TEXT)} …` : shown;
  return `**${codeSpan(short)}**`;
}
