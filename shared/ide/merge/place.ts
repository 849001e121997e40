/** Puts the statements of a merge in their places: those of ours, and what theirs adds or moves beside what it stands by there. */

import type { Clashes } from "./clashes.ts";
import { type Cluster, conflictsOf } from "./clusters.ts";
import type { Document, Unit } from "./document.ts";
import { type BlockMatch, type Match, type Matching, movedBlocks, movedUnits, SIDES, type Side } from "./match.ts";
import { isSaidOrder, saidOrder } from "./order.ts";
import type { Outcome, SameCore } from "./outcome.ts";
import { output } from "./output.ts";
import { adapted, isSameText, type Marks, type Piece, type Row, rowsPiece } from "./rows.ts";
import {
  append,
  conflictBlock,
  conflictSlot,
  lastOf,
  newBlock,
  pastOurs,
  type ResultBlock,
  type Slot,
  unchain,
} from "./slots.ts";

export interface Merging {
  readonly matching: Matching;
  readonly documents: Readonly<Record<Side, Document>>;
  readonly outcomes: ReadonlyMap<Match, Outcome>;
  readonly clashes: Clashes;
  readonly isSame: SameCore;
  readonly style: Marks["style"];
  /** Whether it counts where a statement stands among those of its group. */
  readonly isOrdered: (match: Match) => boolean;
}

export interface Placed {
  readonly pieces: readonly Piece[];
  /** The statements that are in no conflict, in their order. */
  readonly order: readonly Match[];
}

export function placed(merging: Merging): Placed {
  const { matching, documents } = merging;
  const conflicts = conflictsOf(matching, documents, merging.clashes);
  const moved = { ours: movedUnits(matching, "ours"), theirs: movedUnits(matching, "theirs") };
  const movedSections = {
    ours: movedBlocks(matching, documents, "ours"),
    theirs: movedBlocks(matching, documents, "theirs"),
  };
  const aboveIn = {
    base: aboveEach(matching, documents.base, "base"),
    ours: aboveEach(matching, documents.ours, "ours"),
    theirs: aboveEach(matching, documents.theirs, "theirs"),
  };
  const slots = new Map<Match | Cluster, Slot>();
  const blocks = new Map<BlockMatch | Cluster, ResultBlock>();
  const result: ResultBlock[] = [];

  for (const block of documents.ours.blocks) {
    const match = matching.ofBlock.ours.get(block)!;
    const isOursAlone = match.theirs === null && match.base === null;
    const movedHere = movedSections.ours.has(match);
    const cluster = conflicts.sections.get(match.section);
    if (cluster) {
      if (!blocks.has(cluster))
        addBlock(cluster, conflictBlock(match, cluster, isOursAlone || movedHere), result.length);
      continue;
    }
    const made = newBlock(match, merging, isOursAlone || movedHere);
    addBlock(match, made, result.length);
    let last = made.head;
    for (const unit of block.units) {
      const slot = slotOfOurs(matching.of.ours.get(unit)!, made);
      if (!slot) continue;
      append(last, slot);
      last = slot;
    }
  }

  let previous: ResultBlock = result[0]!;
  for (const block of documents.theirs.blocks) {
    const match = matching.ofBlock.theirs.get(block)!;
    const there = blockFor(match);
    if (there) previous = there;
    if (conflicts.sections.has(match.section)) continue;
    let target = there;
    let at: Slot | null = there?.head ?? null;
    for (const unit of block.units) {
      const found = matching.of.theirs.get(unit)!;
      const cluster = conflicts.of.get(found);
      const key = cluster ?? found;
      const slot = slots.get(key);
      if (slot) {
        const isMoved = !cluster && moved.theirs.has(found) && !moved.ours.has(found);
        if (isMoved) {
          unchain(slot);
          if (!target) [target, at] = intoGone(match);
          slot.block = target;
          append(pastOurs(at!), slot);
        }
        if (slot.block === target) at = slot;
        continue;
      }
      const made = slotOfTheirs(found, cluster);
      if (!made) continue;
      if (!target) [target, at] = intoGone(match);
      made.block = target;
      slots.set(key, made);
      append(pastOurs(at!), made);
      at = made;
    }
  }
  putInOrder();
  return emitted();

  function addBlock(key: BlockMatch | Cluster, block: ResultBlock, at: number): void {
    blocks.set(key, block);
    result.splice(at, 0, block);
  }

  /** Where a block of theirs is in the result; it is put there where theirs added it, or moved where theirs moved it. */
  function blockFor(match: BlockMatch): ResultBlock | null {
    const cluster = conflicts.sections.get(match.section);
    const found = blocks.get(cluster ?? match);
    if (!found) {
      if (!cluster && match.base !== null) return null;
      const made = cluster ? conflictBlock(match, cluster, false) : newBlock(match, merging, false);
      addBlock(cluster ?? match, made, placeAfter(previous));
      return made;
    }
    if (!cluster && movedSections.theirs.has(match) && !movedSections.ours.has(match)) {
      result.splice(result.indexOf(found), 1);
      result.splice(placeAfter(previous), 0, found);
    }
    return found;
  }

  function placeAfter(block: ResultBlock): number {
    let at = result.indexOf(block) + 1;
    while (at < result.length && result[at]!.isOursAlone) at++;
    return at;
  }

  /** A place for what theirs puts into a block that ours has no more: another one of that section, or that one again. */
  function intoGone(match: BlockMatch): [ResultBlock, Slot] {
    const other = result.findLast((each) => each.match.section === match.section);
    if (other) return [other, lastOf(other)];
    const made = newBlock(match, merging, false);
    addBlock(match, made, placeAfter(previous));
    previous = made;
    return [made, made.head];
  }

  function slotOfOurs(match: Match, block: ResultBlock): Slot | null {
    const cluster = conflicts.of.get(match);
    const isOursAlone = match.base === null ? match.theirs === null : moved.ours.has(match);
    if (cluster) {
      if (slots.has(cluster)) return null;
      const made = conflictSlot(cluster, cluster.ours[0]!, block, isOursAlone);
      slots.set(cluster, made);
      return made;
    }
    const outcome = merging.outcomes.get(match)!;
    if (outcome.kind !== "stays") return null;
    const isComment = match.ours!.unit.kind === "comment";
    const made: Slot = { ...outcome, match, isComment, isOursAlone, block, before: null, after: null };
    slots.set(match, made);
    return made;
  }

  function slotOfTheirs(match: Match, cluster: Cluster | undefined): Slot | null {
    const block = result[0]!;
    if (cluster) return conflictSlot(cluster, cluster.theirs[0]!, block, false);
    const outcome = merging.outcomes.get(match)!;
    if (outcome.kind !== "stays") return null;
    const isComment = match.theirs!.unit.kind === "comment";
    return { ...outcome, match, isComment, isOursAlone: false, block, before: null, after: null };
  }

  function emitted(): Placed {
    const out = output();
    const order: Match[] = [];
    for (const block of result) {
      const { head } = block;
      if (head.after === null && (block.isGoing || isEmptied(block))) continue;
      const isFirst = out.pieces.length === 0;
      // A section that stood at the top of theirs, and does so no more, is set off from what is above it now.
      const isSetOff = !isFirst && head.lead.length === 0 && block.match.ours === null;
      if (head.pieces.length > 0) out.put(isSetOff ? [BLANK] : head.lead, head.pieces, false);
      let above: Match | BlockMatch | null = block.match;
      for (let slot = head.after; slot; slot = slot.after) {
        const { match, pieces, isComment } = slot;
        out.put(match ? leadOf(match, above) : slot.lead, pieces, isComment);
        if (match) order.push(match);
        above = match;
      }
    }
    const { base, ours, theirs } = documents;
    const tail = isSameText(base.tail, ours.tail) ? adapted(theirs.tail) : ours.tail;
    return { pieces: [...out.pieces, rowsPiece(tail)], order };
  }

  /** A part of a section that theirs added, and all of which came to stand elsewhere. */
  function isEmptied({ match: { section, base, ours, theirs } }: ResultBlock): boolean {
    if (conflicts.sections.has(section) || base || ours) return false;
    return theirs !== null && theirs.units.length > 0 && theirs.heading?.note.length === 0;
  }

  /** The blank lines above a statement: of the side in which the same stands above it as in the result. */
  function leadOf(match: Match, above: Match | BlockMatch | null): readonly Row[] {
    const [base, ours, theirs] = SIDES.map((side) => {
      const unit = match[side]?.unit;
      return unit && aboveIn[side].get(unit) === above ? unit.lead : null;
    });
    if (ours && theirs) return base && isSameText(base, ours) ? adapted(theirs) : ours;
    return ours ?? (theirs ? adapted(theirs) : null) ?? match.ours?.unit.lead ?? adapted(match.theirs?.unit.lead ?? []);
  }

  /** Puts layers, and the lines of a list, into the order that the sides say, where they say one. */
  function putInOrder(): void {
    const chains = new Map<string, Slot[]>();
    for (const { head } of result) {
      for (let slot = head.after; slot; slot = slot.after) {
        if (!slot.match || !merging.isOrdered(slot.match)) continue;
        const chain = chains.get(slot.match.group);
        if (chain) chain.push(slot);
        else chains.set(slot.match.group, [slot]);
      }
    }
    for (const chain of chains.values()) {
      const now = chain.map(({ match }) => match!);
      const order = chain.length > 1 && !isSaidOrder(now) ? saidOrder(now) : null;
      if (!order) continue;
      const pieces = new Map(chain.map((slot) => [slot.match!, slot.pieces]));
      order.forEach((match, i) => {
        Object.assign(chain[i]!, { match, pieces: pieces.get(match)! });
      });
    }
  }
}

const BLANK: Row = { text: "", end: null };

/** What stands above each unit in its text: another statement of its block, or the heading of that. */
function aboveEach({ of, ofBlock }: Matching, { blocks }: Document, side: Side): Map<Unit, Match | BlockMatch> {
  const above = new Map<Unit, Match | BlockMatch>();
  for (const block of blocks) {
    let last: Match | BlockMatch = ofBlock[side].get(block)!;
    for (const unit of block.units) {
      above.set(unit, last);
      last = of[side].get(unit)!;
    }
  }
  return above;
}
