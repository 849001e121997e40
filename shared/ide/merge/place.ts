/** Puts the statements of a merge in their places: those of ours, and what theirs adds or moves beside what it stands by there. */

import type { Clashes } from "./clashes.ts";
import { type Cluster, conflictsOf, piecesOfCluster } from "./clusters.ts";
import type { Document, Unit } from "./document.ts";
import { type BlockMatch, type Match, type Matching, movedBlocks, movedUnits, type Side } from "./match.ts";
import { type Outcome, outcomeOf, type SameCore } from "./outcome.ts";
import { adapted, isSameText, type Marks, type Piece, type Row, rowsPiece } from "./rows.ts";

export interface Merging {
  readonly matching: Matching;
  readonly documents: Readonly<Record<Side, Document>>;
  readonly outcomes: ReadonlyMap<Match, Outcome>;
  readonly clashes: Clashes;
  readonly isSame: SameCore;
  readonly style: Marks["style"];
}

export interface Placed {
  readonly pieces: readonly Piece[];
  /** The statements that are in no conflict, in their order. */
  readonly order: readonly Match[];
}

/** A place in the result; those of a block are chained, and its heading is the first. */
interface Slot {
  lead: readonly Row[];
  readonly pieces: readonly Piece[];
  readonly match: Match | null;
  readonly isComment: boolean;
  /** Ours added or moved it here, so that what theirs adds in the same place comes after it. */
  readonly isOursAlone: boolean;
  block: ResultBlock;
  before: Slot | null;
  after: Slot | null;
}

interface ResultBlock {
  readonly match: BlockMatch;
  readonly isOursAlone: boolean;
  head: Slot;
}

export function placed(merging: Merging): Placed {
  const { matching, documents } = merging;
  const conflicts = conflictsOf(matching, documents, merging.clashes);
  const moved = { ours: movedUnits(matching, "ours"), theirs: movedUnits(matching, "theirs") };
  const movedSections = {
    ours: movedBlocks(matching, documents, "ours"),
    theirs: movedBlocks(matching, documents, "theirs"),
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
          if (!target) [target, at] = intoGone(match);
          unchain(slot);
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
    const pieces: Piece[] = [];
    const order: Match[] = [];
    let isBelowComment = false;
    let isFirst = true;
    const put = ({ lead, pieces: own, match, isComment }: Slot) => {
      // Without a blank line in between a comment that belongs to nothing would become the note of what follows.
      const above = lead.length === 0 && isBelowComment ? [BLANK] : lead;
      if (above.length > 0) pieces.push(rowsPiece(above));
      pieces.push(...own);
      if (match) order.push(match);
      isBelowComment = isComment;
    };
    for (const block of result) {
      if (isEmptied(block)) continue;
      const { head } = block;
      if (head.pieces.length > 0) {
        if (!isFirst && head.lead.length === 0 && block.match.ours === null) head.lead = [BLANK];
        put(head);
      }
      for (let slot = head.after; slot; slot = slot.after) put(slot);
      isFirst &&= head.pieces.length === 0 && head.after === null;
    }
    const { base, ours, theirs } = documents;
    pieces.push(rowsPiece(isSameText(base.tail, ours.tail) ? adapted(theirs.tail) : ours.tail));
    return { pieces, order };
  }

  /** A section that theirs removed, or ours, and of which nothing is left. */
  function isEmptied({ match, head }: ResultBlock): boolean {
    if (head.after !== null || conflicts.sections.has(match.section) || !match.base?.heading) return false;
    return match.theirs === null || match.ours === null;
  }
}

const BLANK: Row = { text: "", end: null };

function lastOf({ head }: ResultBlock): Slot {
  let last = head;
  while (last.after) last = last.after;
  return last;
}

function append(at: Slot, slot: Slot): void {
  slot.before = at;
  slot.after = at.after;
  if (at.after) at.after.before = slot;
  at.after = slot;
}

function unchain(slot: Slot): void {
  if (slot.before) slot.before.after = slot.after;
  if (slot.after) slot.after.before = slot.before;
}

/** The last of what ours alone put behind a place. */
function pastOurs(at: Slot): Slot {
  let last = at;
  while (last.after?.isOursAlone) last = last.after;
  return last;
}

function newBlock(match: BlockMatch, { isSame, style }: Merging, isOursAlone: boolean): ResultBlock {
  const units = {
    base: match.base?.heading ?? null,
    ours: match.ours?.heading ?? null,
    theirs: match.theirs?.heading ?? null,
  };
  const heading = units.ours ?? units.theirs;
  if (!heading) return blockOf(match, [], [], isOursAlone);
  const outcome = outcomeOf(units, isSame, style);
  if (outcome.kind === "stays") return blockOf(match, outcome.lead, outcome.pieces, isOursAlone);
  // A heading that goes stands here as long as something is left below it.
  const rows = units.ours ? [...heading.note, ...heading.rows] : adapted([...heading.note, ...heading.rows]);
  if (outcome.kind === "goes" || !units.ours || !units.theirs)
    return blockOf(match, heading.lead, [rowsPiece(rows)], isOursAlone);
  const cluster = { base: listOf(units.base), ours: [units.ours], theirs: [units.theirs], why: outcome.why };
  return blockOf(match, heading.lead, piecesOfCluster(cluster), isOursAlone);
}

function listOf(unit: Unit | null): Unit[] {
  return unit ? [unit] : [];
}

function conflictBlock(match: BlockMatch, cluster: Cluster, isOursAlone: boolean): ResultBlock {
  const lead = cluster.ours[0]?.lead ?? adapted(cluster.theirs[0]?.lead ?? []);
  return blockOf(match, lead, piecesOfCluster(cluster), isOursAlone);
}

function blockOf(match: BlockMatch, lead: readonly Row[], pieces: readonly Piece[], isOursAlone: boolean): ResultBlock {
  const block = { match, isOursAlone } as ResultBlock;
  block.head = { lead, pieces, match: null, isComment: false, isOursAlone: false, block, before: null, after: null };
  return block;
}

function conflictSlot(cluster: Cluster, first: Unit, block: ResultBlock, isOursAlone: boolean): Slot {
  const lead = cluster.ours[0] ? first.lead : adapted(first.lead);
  const pieces = piecesOfCluster(cluster);
  return { lead, pieces, match: null, isComment: false, isOursAlone, block, before: null, after: null };
}
