/** The conflicts of a merge: which statements, or whole sections, stand between one pair of marks. */
import type { Clashes } from "./clashes.ts";
import type { Block, Document, Unit } from "./document.ts";
import { trimmed } from "./line-merge.ts";
import { type Match, type Matching, SIDES, type Side } from "./match.ts";
import { adapted, type Piece, type Row } from "./rows.ts";

export interface Cluster {
  readonly base: readonly Unit[];
  readonly ours: readonly Unit[];
  readonly theirs: readonly Unit[];
  readonly why: string;
}

export interface Conflicts {
  readonly of: ReadonlyMap<Match, Cluster>;
  readonly sections: ReadonlyMap<string, Cluster>;
}

export function conflictsOf(
  { groups, ofBlock }: Matching,
  documents: Readonly<Record<Side, Document>>,
  clashes: Clashes,
): Conflicts {
  const of = new Map<Match, Cluster>();
  for (const [match, why] of clashes.matches) of.set(match, clusterOf([match], `${nameOf(match)}: ${why}`));
  const members = new Map<string, Match[]>();
  for (const [group, key] of clashes.groups)
    members.set(key, [...(members.get(key) ?? []), ...(groups.get(group) ?? [])]);
  for (const [key, all] of members) {
    const why = clashes.why.get(key) ?? "";
    const cluster = clusterOf(all, all[0] ? `${nameOf(all[0])}: ${why}` : why);
    for (const match of all) of.set(match, cluster);
  }
  const sections = new Map<string, Cluster>();
  for (const [section, why] of clashes.sections) {
    const units = (side: Side) =>
      documents[side].blocks
        .filter((block) => ofBlock[side].get(block)!.section === section)
        .flatMap((block) => unitsOf(block));
    sections.set(section, {
      base: units("base"),
      ours: units("ours"),
      theirs: units("theirs"),
      why: `${section}: ${why}`,
    });
  }
  return { of, sections };
}

/** What a statement is about, as messages call it. */
function nameOf({ base, ours, theirs }: Match): string {
  const { unit, block } = (base ?? ours ?? theirs)!;
  switch (unit.kind) {
    case "entry":
      return `${block.section}.${unit.name}`;
    case "use":
      return `use "${unit.name}"`;
    case "drop":
      return `drop in ${block.section}`;
    case "header":
      return "the header";
    case "comment":
      return "a comment";
    default:
      return block.section === "" ? "a line" : block.section;
  }
}

function clusterOf(matches: readonly Match[], why: string): Cluster {
  const units = { base: [] as Unit[], ours: [] as Unit[], theirs: [] as Unit[] };
  for (const side of SIDES) {
    const places = matches.flatMap((match) => match[side] ?? []);
    places.sort((a, b) => a.order - b.order);
    units[side].push(...places.map(({ unit }) => unit));
  }
  return { ...units, why };
}

function unitsOf({ heading, units }: Block): readonly Unit[] {
  return heading ? [heading, ...units] : units;
}

/** The lines of both sides between marks; those that both have alike at the ends, such as a note, stand outside. */
export function piecesOfCluster({ base, ours, theirs, why }: Cluster): Piece[] {
  return trimmed(adapted(rowsOfUnits(base)), rowsOfUnits(ours), adapted(rowsOfUnits(theirs)), why);
}

/** All lines of several units, without the blank ones above the first. */
function rowsOfUnits(units: readonly Unit[]): Row[] {
  return units.flatMap(({ lead, note, rows }, i) => [...(i > 0 ? lead : []), ...note, ...rows]);
}
