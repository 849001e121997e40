/** The names that an offered script says or takes away, and what a craft has under them. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import { nameOf, sectionOf } from "../compare/compare.ts";

/** A name that a script says, with its lines. */
export interface SaidName {
  /** SECTION.NAME, as in a comparison. */
  readonly what: string;
  readonly lines: readonly number[];
  /** It is taken away, and not said again. */
  readonly isTaken: boolean;
}

/** The names in the order of the text. `drop all` stands for each name that the craft has in that section. */
export function namesSaid(script: Script, mine: Craft): readonly SaidName[] {
  const found = new Map<string, { lines: Set<number>; isTaken: boolean }>();
  const add = (what: string, line: number, isTaken: boolean) => {
    const known = found.get(what) ?? { lines: new Set(), isTaken };
    known.lines.add(line);
    known.isTaken &&= isTaken;
    found.set(what, known);
  };
  for (const { section, name, line } of script.entries) add(`${section}.${name}`, line, false);
  for (const { dialect, source } of script.kept) add(`verbatim.${dialect}`, source.line, false);
  for (const { section, line, all, names } of script.drops) {
    if (all && section.startsWith("verbatim/")) add(`verbatim.${section.slice("verbatim/".length)}`, line, true);
    else
      for (const name of all ? namesIn(mine, section) : names.map(({ text }) => text))
        add(`${section}.${name}`, line, true);
  }
  return [...found]
    .map(([what, { lines, isTaken }]) => ({ what, lines: [...lines].sort((a, b) => a - b), isTaken }))
    .sort((a, b) => a.lines[0]! - b.lines[0]!);
}

/** The lines that take away a whole section of which the craft has nothing. */
export function idleDrops(script: Script, mine: Craft): readonly { readonly line: number; readonly section: string }[] {
  return script.drops.filter(
    ({ all, section }) => all && !section.startsWith("verbatim/") && namesIn(mine, section).length === 0,
  );
}

function namesIn(craft: Craft, section: string): readonly string[] {
  return [...tablesOf(craft, section)].flatMap((table) => [...table.keys()]);
}

type Table = ReadonlyMap<
  string,
  { readonly text: string; readonly source?: Source; readonly lines?: readonly { readonly source: Source }[] }
>;

function tablesOf(craft: Craft, section: string): readonly Table[] {
  const own: Readonly<Record<string, Table | undefined>> = {
    modes: craft.modes,
    outputs: craft.outputs,
    controls: craft.controls,
    adjust: craft.adjust,
    osd: craft.osd,
    "osd-second": craft.osdSecond,
  };
  const settings = craft.settings.get(section);
  return [Object.hasOwn(own, section) ? own[section] : undefined, settings].filter((table) => table !== undefined);
}

/** What a craft says of a name, with its line; null where it says nothing. */
export function saidOf(craft: Craft, what: string): { readonly text: string; readonly source: Source } | null {
  const [section, name] = [sectionOf(what), nameOf(what)];
  if (section === "verbatim") {
    const kept = craft.kept.filter(({ dialect }) => dialect === name);
    const last = kept.at(-1);
    return last ? { text: kept.map(({ text }) => text).join("\n"), source: last.source } : null;
  }
  for (const table of tablesOf(craft, section)) {
    const said = table.get(name);
    const source = said?.source ?? said?.lines?.at(-1)?.source;
    if (said && source) return { text: said.text, source };
  }
  return null;
}
