/** Compares two craft in meaning: what differs, riskiest first. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type Craft, type Mode, type Placed, type Setting, type Source } from "../../model/craft.ts";
import { layoutOf } from "../../osd/layout.ts";
import type { Page, PlacedElement } from "../../osd/placed.ts";
import type { DifferenceKind, Risk } from "../../protocol/compare.ts";
import { quote } from "../../syntax/scanner.ts";
import { areWrittenAlike, isSameCondition, pairedConditions } from "./conditions.ts";
import { isSameSetting, meaningOf } from "./meaning.ts";
import { compareRisks, riskOf } from "./risk.ts";

/** Something that two craft do not have alike. */
export interface Difference {
  /** SECTION.NAME, such as `modes.arm`, `pack/Winter.cells` or `osd.pack-volts`. */
  readonly what: string;
  readonly kind: DifferenceKind;
  readonly risk: Risk;
  /** The canonical text; null where that craft does not have it. */
  readonly before: string | null;
  readonly after: string | null;
  readonly beforeAt: Source | null;
  readonly afterAt: Source | null;
}

/**
 * What differs in meaning between the effective craft: formatting, order, units, comments, the files that say it and
 * ways of writing a condition or a place are no difference. A default is no value: unset differs from the same value
 * said. Names of the craft do not count. Sorted by risk, then in the catalogue's order of sections, then by name.
 */
export function differencesOf(before: Craft, after: Craft, catalogue: Catalogue): readonly Difference[] {
  if (before === after) return [];
  const found: Difference[] = [];
  handsetDifference(before, after, found);
  settingDifferences(before, after, found);
  conditionDifferences(before, after, found);
  placeDifferences(before, after, catalogue, "osd", found);
  placeDifferences(before, after, catalogue, "osd-second", found);
  collect("controls", "control", before.controls, after.controls, isSameValue, found);
  collect("adjust", "setting", before.adjust, after.adjust, isSameValue, found);
  collect("verbatim", "setting", keptByDialect(before), keptByDialect(after), (a, b) => a.text === b.text, found);
  return sorted(found, catalogue);
}

/** By risk, then in the catalogue's order of sections, then by name. */
function sorted(found: readonly Difference[], catalogue: Catalogue): readonly Difference[] {
  const rank = new Map(catalogue.sections.map(({ name }, index) => [name, index]));
  return found
    .map((each) => ({ each, rank: rank.get(baseOf(sectionOf(each.what))) ?? -1 }))
    .sort(
      (a, b) =>
        compareRisks(a.each.risk, b.each.risk) ||
        a.rank - b.rank ||
        (a.each.what < b.each.what ? -1 : a.each.what > b.each.what ? 1 : 0),
    )
    .map(({ each }) => each);
}

/** The section of SECTION.NAME; the name of a pack may hold points, and no name of an entry does. */
export function sectionOf(what: string): string {
  return what.startsWith("verbatim.") ? "verbatim" : what.slice(0, what.lastIndexOf("."));
}

/** The name in SECTION.NAME. */
export function nameOf(what: string): string {
  return what.slice(sectionOf(what).length + 1);
}

/** What both craft have in maps by name. */
interface Said {
  readonly text: string;
  readonly source: Source;
}

/** Adds what one of them lacks, and what is not the same on both. */
function collect<T extends Said>(
  section: string,
  kind: DifferenceKind,
  before: ReadonlyMap<string, T>,
  after: ReadonlyMap<string, T>,
  isSame: (a: T, b: T, name: string) => boolean,
  found: Difference[],
): void {
  const add = (name: string, a: T | undefined, b: T | undefined) =>
    found.push({
      what: `${section}.${name}`,
      kind,
      risk: riskOf(section, name, kind),
      before: a?.text ?? null,
      after: b?.text ?? null,
      beforeAt: a?.source ?? null,
      afterAt: b?.source ?? null,
    });
  for (const [name, a] of before) {
    const b = after.get(name);
    if (b === undefined || (a !== b && !isSame(a, b, name))) add(name, a, b);
  }
  for (const [name, b] of after) if (!before.has(name)) add(name, undefined, b);
}

function handsetDifference(before: Craft, after: Craft, found: Difference[]): void {
  const named = ({ handset }: Craft): ReadonlyMap<string, Said> =>
    new Map(
      handset
        ? [["name", { text: quote(handset.name), source: { file: handset.file, line: handset.tree.header ?? 0 } }]]
        : [],
    );
  collect("handset", "handset", named(before), named(after), (a, b) => a.text === b.text, found);
}

function settingDifferences(before: Craft, after: Craft, found: Difference[]): void {
  for (const section of new Set([...before.settings.keys(), ...after.settings.keys()])) {
    const kind = section === "transmitter" ? "handset" : "setting";
    const [a, b] = [before.settings.get(section) ?? NONE, after.settings.get(section) ?? NONE];
    if (a !== b) collect(section, kind, a, b, isSameSetting, found);
  }
}

const NONE: ReadonlyMap<string, Setting> = new Map();

function conditionDifferences(before: Craft, after: Craft, found: Difference[]): void {
  // All written alike over the same controls they are the same, and over others they are compared as text.
  const pair = areWrittenAlike(before, after) ? null : pairedConditions(before, after);
  const said = (modes: ReadonlyMap<string, Mode>) =>
    new Map([...modes].map(([name, mode]) => [name, { ...mode, source: mode.lines.at(-1)!.source }] as const));
  collect(
    "modes",
    "mode",
    said(before.modes),
    said(after.modes),
    (a, b, name) => isSameCondition(name, a, b, pair),
    found,
  );
  collect(
    "outputs",
    "output",
    said(before.outputs),
    said(after.outputs),
    (a, b, name) => isSameCondition(`outputs.${name}`, a, b, pair),
    found,
  );
}

function placeDifferences(before: Craft, after: Craft, catalogue: Catalogue, page: Page, found: Difference[]): void {
  const [a, b] = page === "osd" ? [before.osd, after.osd] : [before.osdSecond, after.osdSecond];
  if (a.size + b.size === 0) return;
  const [ofBefore, ofAfter] = [before, after].map((craft) => layoutOf(craft, catalogue, page));
  const sameGrid =
    ofBefore && ofAfter && ofBefore.grid.columns === ofAfter.grid.columns && ofBefore.grid.rows === ofAfter.grid.rows;
  const cellsOf = (elements: readonly PlacedElement[]) =>
    new Map(elements.map((each) => [each.name, `${each.column} ${each.row} ${each.width} ${each.height}`]));
  const [cellsBefore, cellsAfter] = sameGrid
    ? [cellsOf(ofBefore.elements), cellsOf(ofAfter.elements)]
    : [NO_CELLS, NO_CELLS];
  collect(
    page,
    "osd",
    a,
    b,
    (one, other, name) =>
      isSameValue(one, other) || (cellsBefore.has(name) && cellsBefore.get(name) === cellsAfter.get(name)),
    found,
  );
}

const NO_CELLS: ReadonlyMap<string, string> = new Map();

function isSameValue(a: Pick<Placed, "value" | "text">, b: Pick<Placed, "value" | "text">): boolean {
  return a.text === b.text || meaningOf(a.value, a.text) === meaningOf(b.value, b.text);
}

/** Board text that was kept, by its dialect: all its lines, with the last of them as its place. */
function keptByDialect({ kept }: Craft): ReadonlyMap<string, Said> {
  const found = new Map<string, Said>();
  for (const { dialect, text, source } of kept) {
    const before = found.get(dialect);
    found.set(dialect, { text: before ? `${before.text}\n${text}` : text, source });
  }
  return found;
}
