/** The places of a result: blocks with their headings, and in them chains of statements. */
import { type Cluster, piecesOfCluster } from "./clusters.ts";
import type { Unit } from "./document.ts";
import type { BlockMatch, Match } from "./match.ts";
import { outcomeOf, type SameCore } from "./outcome.ts";
import { adapted, type Marks, type Piece, type Row, rowsPiece } from "./rows.ts";

/** A place in the result; those of a block are chained, and its heading is the first. */
export interface Slot {
  lead: readonly Row[];
  pieces: readonly Piece[];
  match: Match | null;
  isComment: boolean;
  /** Ours added or moved it here, so that what theirs adds in the same place comes after it. */
  readonly isOursAlone: boolean;
  block: ResultBlock;
  before: Slot | null;
  after: Slot | null;
}

export interface ResultBlock {
  readonly match: BlockMatch;
  readonly isOursAlone: boolean;
  /** One side removed its heading, so that it stands only as long as something is left in it. */
  readonly isGoing: boolean;
  head: Slot;
}

/** What it takes to merge a heading. */
interface Heading {
  readonly isSame: SameCore;
  readonly style: Marks["style"];
}

export function lastOf({ head }: ResultBlock): Slot {
  let last = head;
  while (last.after) last = last.after;
  return last;
}

export function append(at: Slot, slot: Slot): void {
  slot.before = at;
  slot.after = at.after;
  if (at.after) at.after.before = slot;
  at.after = slot;
}

export function unchain(slot: Slot): void {
  if (slot.before) slot.before.after = slot.after;
  if (slot.after) slot.after.before = slot.before;
}

/** The last of what ours alone put behind a place. */
export function pastOurs(at: Slot): Slot {
  let last = at;
  while (last.after?.isOursAlone) last = last.after;
  return last;
}

export function newBlock(match: BlockMatch, { isSame, style }: Heading, isOursAlone: boolean): ResultBlock {
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
    return blockOf(match, heading.lead, [rowsPiece(rows)], isOursAlone, outcome.kind === "goes");
  const cluster = { base: listOf(units.base), ours: [units.ours], theirs: [units.theirs], why: outcome.why };
  return blockOf(match, heading.lead, piecesOfCluster(cluster), isOursAlone);
}

function listOf(unit: Unit | null): Unit[] {
  return unit ? [unit] : [];
}

export function conflictBlock(match: BlockMatch, cluster: Cluster, isOursAlone: boolean): ResultBlock {
  const lead = cluster.ours[0]?.lead ?? adapted(cluster.theirs[0]?.lead ?? []);
  return blockOf(match, lead, piecesOfCluster(cluster), isOursAlone);
}

function blockOf(
  match: BlockMatch,
  lead: readonly Row[],
  pieces: readonly Piece[],
  isOursAlone: boolean,
  isGoing = false,
): ResultBlock {
  const block = { match, isOursAlone, isGoing } as ResultBlock;
  block.head = { lead, pieces, match: null, isComment: false, isOursAlone: false, block, before: null, after: null };
  return block;
}

export function conflictSlot(cluster: Cluster, first: Unit, block: ResultBlock, isOursAlone: boolean): Slot {
  const lead = cluster.ours[0] ? first.lead : adapted(first.lead);
  const pieces = piecesOfCluster(cluster);
  return { lead, pieces, match: null, isComment: false, isOursAlone, block, before: null, after: null };
}
