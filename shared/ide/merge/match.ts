/** What in three texts is the same: sections by what they are called, statements by what they are about. */
import { longestRising, partnersOf } from "./align.ts";
import type { Block, Document, Unit } from "./document.ts";

export type Side = "base" | "ours" | "theirs";
export const SIDES: readonly Side[] = ["base", "ours", "theirs"];

/** Where a unit stands in its text: in which block, and the how manieth unit of the text it is. */
export interface Place {
  readonly unit: Unit;
  readonly block: BlockMatch;
  readonly order: number;
}

/** One statement in up to three texts. */
export interface Match {
  /** The statements that are about the same: those of one name in one section, all `use` lines, all runs of comments. */
  readonly group: string;
  base: Place | null;
  ours: Place | null;
  theirs: Place | null;
}

export interface BlockMatch {
  /** The section as the base calls it, or as the side that added it does. */
  readonly section: string;
  base: Block | null;
  ours: Block | null;
  theirs: Block | null;
}

export interface Matching {
  readonly matches: readonly Match[];
  readonly blocks: readonly BlockMatch[];
  readonly groups: ReadonlyMap<string, readonly Match[]>;
  readonly of: Readonly<Record<Side, ReadonlyMap<Unit, Match>>>;
  readonly ofBlock: Readonly<Record<Side, ReadonlyMap<Block, BlockMatch>>>;
}

export const USES = "use";
export const COMMENTS = "comment";

export function entryGroup(section: string, name: string): string {
  return `${section}\0entry\0${name}`;
}

export function dropGroup(section: string): string {
  return `${section}\0drop`;
}

/** `isList` tells of the name of a group whether its lines are a list, each a thing of its own. */
export function matchDocuments(
  documents: Readonly<Record<Side, Document>>,
  isList: (section: string, name: string) => boolean,
): Matching {
  const blocks = matchBlocks(documents);
  const ofBlock = {
    base: new Map<Block, BlockMatch>(),
    ours: new Map<Block, BlockMatch>(),
    theirs: new Map<Block, BlockMatch>(),
  };
  for (const match of blocks) for (const side of SIDES) if (match[side]) ofBlock[side].set(match[side], match);

  const groups = new Map<string, Record<Side, Place[]>>();
  for (const side of SIDES) {
    let order = 0;
    for (const block of documents[side].blocks) {
      const match = ofBlock[side].get(block)!;
      for (const unit of block.units) {
        const key = groupOf(unit, match.section);
        const group = groups.get(key) ?? { base: [], ours: [], theirs: [] };
        groups.set(key, group);
        group[side].push({ unit, block: match, order: order++ });
      }
    }
  }
  const matches: Match[] = [];
  const byGroup = new Map<string, Match[]>();
  for (const [group, places] of groups) {
    const found = matchGroup(group, places, isList);
    byGroup.set(group, found);
    for (const match of found) matches.push(match);
  }
  const of = { base: new Map<Unit, Match>(), ours: new Map<Unit, Match>(), theirs: new Map<Unit, Match>() };
  for (const match of matches) for (const side of SIDES) if (match[side]) of[side].set(match[side].unit, match);
  return { matches, blocks, groups: byGroup, of, ofBlock };
}

function groupOf(unit: Unit, section: string): string {
  switch (unit.kind) {
    case "use":
      return USES;
    case "comment":
      return COMMENTS;
    case "entry":
      return entryGroup(section, unit.name);
    case "stray":
      return `${section}\0stray\0${unit.name}`;
    default:
      return `${section}\0${unit.kind}`;
  }
}

const contents = new WeakMap<Unit, string>();

/** Its text without what is only layout. */
export function contentOf(unit: Unit): string {
  if (unit.kind === "use") return unit.name;
  let content = contents.get(unit);
  if (content === undefined) {
    content = unit.rows.map(({ text }) => text.trim().replace(/\s+/g, " ")).join("\n");
    contents.set(unit, content);
  }
  return content;
}

function matchGroup(
  group: string,
  { base, ours, theirs }: Record<Side, Place[]>,
  isList: (section: string, name: string) => boolean,
): Match[] {
  const matches = base.map((place): Match => ({ group, base: place, ours: null, theirs: null }));
  const kind = (base[0] ?? ours[0] ?? theirs[0])!.unit.kind;
  // A layer or a comment is paired with another one only where it is plain which took whose place.
  const unlike = kind === "use" || kind === "comment" ? "as many" : "in order";
  const freeOf = (side: "ours" | "theirs", places: readonly Place[]): Place[] => {
    const partners = paired(base, places, unlike);
    const taken = new Set<number>();
    partners.forEach((at, i) => {
      if (at < 0) return;
      matches[i]![side] = places[at]!;
      taken.add(at);
    });
    return places.filter((_, i) => !taken.has(i));
  };
  const [newOurs, newTheirs] = [freeOf("ours", ours), freeOf("theirs", theirs)];
  const [section = "", , name = ""] = group.split("\0");
  const isOne =
    kind === "header" || kind === "kept" || (kind === "entry" && base.length === 0 && !isList(section, name));
  const partners = paired(newOurs, newTheirs, isOne ? "in order" : "never");
  const both = new Set(partners);
  newOurs.forEach((place, i) => {
    matches.push({ group, base: null, ours: place, theirs: newTheirs[partners[i]!] ?? null });
  });
  newTheirs.forEach((place, i) => {
    if (!both.has(i)) matches.push({ group, base: null, ours: null, theirs: place });
  });
  return matches;
}

/**
 * Partners by content, wherever they stand; of those that have none, by their order between two that stay in place:
 * always, only where there are as many on both sides, or never.
 */
function paired(a: readonly Place[], b: readonly Place[], unlike: "in order" | "as many" | "never"): Int32Array {
  const partners = sameContent(a, b);
  if (unlike === "never") return partners;
  const taken = new Set(partners);
  const known = [...partners.keys()].filter((i) => partners[i]! >= 0);
  const anchors = longestRising(known.map((i) => partners[i]!)).map((i) => known[i]!);
  let [i, j] = [0, 0];
  for (const anchor of [...anchors, a.length]) {
    const to = anchor < a.length ? partners[anchor]! : b.length;
    const freeA: number[] = [];
    const freeB: number[] = [];
    for (; i < anchor; i++) if (partners[i]! < 0) freeA.push(i);
    for (; j < to; j++) if (!taken.has(j)) freeB.push(j);
    if (unlike === "in order" || freeA.length === freeB.length)
      for (let k = 0; k < Math.min(freeA.length, freeB.length); k++) partners[freeA[k]!] = freeB[k]!;
  }
  return partners;
}

/** Partners by what they say, before that with their note: of what stands once in both wherever that is, else in order. */
function sameContent(a: readonly Place[], b: readonly Place[]): Int32Array {
  const partners = new Int32Array(a.length).fill(-1);
  for (const textOf of [withNote, contentOf]) {
    const freeA = [...a.keys()].filter((i) => partners[i]! < 0);
    const taken = new Set(partners);
    const freeB = [...b.keys()].filter((j) => !taken.has(j));
    if (freeA.length === 0 || freeB.length === 0) break;
    const [inA, inB] = [freeA.map((i) => textOf(a[i]!.unit)), freeB.map((j) => textOf(b[j]!.unit))];
    partnersOf(inA, inB).forEach((j, i) => {
      if (j >= 0) partners[freeA[i]!] = freeB[j]!;
    });
    const now = new Set(partners);
    const [onceA, onceB] = [onceIn(inA), onceIn(inB)];
    for (const [content, i] of onceA) {
      const j = onceB.get(content);
      if (j !== undefined && partners[freeA[i]!]! < 0 && !now.has(freeB[j]!)) partners[freeA[i]!] = freeB[j]!;
    }
  }
  return partners;
}

function withNote(unit: Unit): string {
  return [...unit.note.map(({ text }) => text.trim()), contentOf(unit)].join("\n");
}

function onceIn(contents: readonly string[]): Map<string, number> {
  const once = new Map<string, number>();
  const many = new Set<string>();
  contents.forEach((content, i) => {
    if (once.has(content)) many.add(content);
    else once.set(content, i);
  });
  for (const content of many) once.delete(content);
  return once;
}

function matchBlocks(documents: Readonly<Record<Side, Document>>): BlockMatch[] {
  const matches: BlockMatch[] = documents.base.blocks.map((block) => ({
    section: block.section,
    base: block,
    ours: null,
    theirs: null,
  }));
  const fresh = { ours: [] as BlockMatch[], theirs: [] as BlockMatch[] };
  for (const side of ["ours", "theirs"] as const) {
    const renamed = renamedSections(documents.base, documents[side]);
    const open = new Map<string, BlockMatch[]>();
    for (const match of matches) if (match.base) push(open, match.section, match);
    const mine = new Map<string, Block[]>();
    for (const block of documents[side].blocks) push(mine, renamed.get(block.section) ?? block.section, block);
    for (const [section, blocks] of mine) {
      const partners = likeliest(open.get(section) ?? [], blocks);
      for (const block of blocks) {
        const match = partners.get(block);
        if (match) match[side] = block;
        else fresh[side].push({ section, base: null, ours: null, theirs: null, [side]: block });
      }
    }
  }
  for (const match of fresh.theirs) {
    const same = fresh.ours.find(({ section, theirs }) => section === match.section && theirs === null);
    if (same) same.theirs = match.theirs;
    else fresh.ours.push(match);
  }
  return matches.concat(fresh.ours);
}

/** Which block of the base each block of a side is: of several of one section the one with which it shares the most. */
function likeliest(open: readonly BlockMatch[], blocks: readonly Block[]): Map<Block, BlockMatch> {
  const partners = new Map<Block, BlockMatch>();
  if (open.length === 1 && blocks.length === 1) return partners.set(blocks[0]!, open[0]!);
  if (open.length === 0) return partners;
  const holders = new Map<string, BlockMatch[]>();
  for (const match of open) for (const sign of signsOf(match.base!)) push(holders, sign, match);
  const pairs: { readonly block: Block; readonly match: BlockMatch; readonly shared: number }[] = [];
  for (const block of blocks) {
    const shared = new Map<BlockMatch, number>();
    for (const sign of signsOf(block)) {
      const all = holders.get(sign) ?? [];
      // What so many have tells none of them apart, and would take long.
      if (all.length <= MOST_HOLDERS) for (const match of all) shared.set(match, (shared.get(match) ?? 0) + 1);
    }
    for (const [match, count] of shared) pairs.push({ block, match, shared: count });
  }
  pairs.sort((a, b) => b.shared - a.shared);
  const taken = new Set<BlockMatch>();
  for (const { block, match } of pairs) {
    if (partners.has(block) || taken.has(match)) continue;
    taken.add(match);
    partners.set(block, match);
  }
  const left = open.filter((match) => !taken.has(match));
  const rest = blocks.filter((block) => !partners.has(block));
  rest.forEach((block, i) => {
    if (left[i]) partners.set(block, left[i]);
  });
  return partners;
}

const MOST_HOLDERS = 50;

/** By what a block is known: the note of its heading, and of each statement the name, what it says, and its note. */
function* signsOf({ heading, units }: Block): Generator<string> {
  if (heading && heading.note.length > 0) yield `note\0${withNote(heading)}`;
  for (const unit of units) {
    yield `name\0${unit.kind}\0${unit.name}`;
    yield contentOf(unit);
    if (unit.note.length > 0) yield withNote(unit);
  }
}

/** Named sections of a side that are those of the base under another name: at least half of their lines are the same. */
export function renamedSections(base: Document, side: Document): Map<string, string> {
  const renamed = new Map<string, string>();
  const [before, after] = [base, side].map(({ blocks }) => new Set(blocks.map(({ section }) => section)));
  const gone = [...linesBySection(base, (section) => section.includes("/") && !after!.has(section))];
  const fresh = [...linesBySection(side, (section) => section.includes("/") && !before!.has(section))];
  if (gone.length * fresh.length > 10_000) return renamed;
  const pairs: { from: string; to: string; share: number }[] = [];
  for (const [from, old] of gone) {
    const counts = new Set(old);
    for (const [to, now] of fresh) {
      if (from.split("/")[0] !== to.split("/")[0]) continue;
      const shared = now.filter((line) => counts.has(line)).length;
      const share = shared / Math.max(old.length, now.length, 1);
      if (shared > 0 && share >= 0.5) pairs.push({ from, to, share });
    }
  }
  pairs.sort((a, b) => b.share - a.share);
  const taken = new Set<string>();
  for (const { from, to } of pairs) {
    if (taken.has(from) || renamed.has(to)) continue;
    taken.add(from);
    renamed.set(to, from);
  }
  return renamed;
}

function linesBySection({ blocks }: Document, isAsked: (section: string) => boolean): Map<string, string[]> {
  const lines = new Map<string, string[]>();
  for (const { section, units } of blocks) {
    if (!isAsked(section)) continue;
    const found = lines.get(section) ?? [];
    lines.set(section, found);
    for (const unit of units) found.push(...contentOf(unit).split("\n"));
  }
  return lines;
}

/** The matches of all three that one side moved: to another block, or to another place among the rest of its block. */
export function movedUnits({ matches }: Matching, side: "ours" | "theirs"): Set<Match> {
  const moved = new Set<Match>();
  const inBlock = new Map<BlockMatch, Match[]>();
  for (const match of matches) {
    const [before, now] = [match.base, match[side]];
    if (!before || !now || !match.ours || !match.theirs) continue;
    if (before.block !== now.block) moved.add(match);
    else push(inBlock, now.block, match);
  }
  for (const list of inBlock.values())
    addOutOfOrder(
      list,
      (each) => each.base!.order,
      (each) => each[side]!.order,
      moved,
    );
  return moved;
}

/** The sections of all three that one side moved. */
export function movedBlocks(
  { blocks }: Matching,
  documents: Readonly<Record<Side, Document>>,
  side: "ours" | "theirs",
) {
  const moved = new Set<BlockMatch>();
  const [before, now] = [orderOf(documents.base), orderOf(documents[side])];
  const both = blocks.filter((match) => match.base && match.ours && match.theirs);
  addOutOfOrder(
    both,
    (match) => before.get(match.base!)!,
    (match) => now.get(match[side]!)!,
    moved,
  );
  return moved;
}

function orderOf({ blocks }: Document): Map<Block, number> {
  return new Map(blocks.map((block, i) => [block, i]));
}

function addOutOfOrder<T>(list: readonly T[], before: (each: T) => number, now: (each: T) => number, moved: Set<T>) {
  const sorted = list.toSorted((a, b) => before(a) - before(b));
  const stay = new Set(longestRising(sorted.map(now)));
  sorted.forEach((each, i) => {
    if (!stay.has(i)) moved.add(each);
  });
}

function push<K, V>(lists: Map<K, V[]>, key: K, value: V): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
}
