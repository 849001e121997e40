/** What becomes a conflict: statements and whole sections that both sides changed in different ways. */

import type { Unit } from "./document.ts";
import { dropGroup, entryGroup, type Match, type Matching, SIDES, type Side } from "./match.ts";
import { isUnchanged, type Outcome, type SameCore } from "./outcome.ts";
import { ALL, KEPT } from "./said.ts";
import type { Said } from "./sides.ts";

export interface Clashes {
  /** Of a group of statements the conflict that it is part of, by the key of that. */
  readonly groups: Map<string, string>;
  /** Statements of lists that clash by themselves. */
  readonly matches: Map<Match, string>;
  /** Whole sections. */
  readonly sections: Map<string, string>;
  /** Why, by the key of the conflict. */
  readonly why: Map<string, string>;
}

export function noClashes(): Clashes {
  return { groups: new Map(), matches: new Map(), sections: new Map(), why: new Map() };
}

/** Finds what clashes before anything is put together. */
export function clashesIn(
  matching: Matching,
  outcomes: ReadonlyMap<Match, Outcome>,
  said: Said,
  isSame: SameCore,
  clashes: Clashes,
): void {
  for (const [match, outcome] of outcomes) {
    if (outcome.kind !== "clash") continue;
    if (isByItself(match, said)) clashes.matches.set(match, outcome.why);
    else addGroup(clashes, match.group, outcome.why);
  }
  for (const section of goneSections(matching, isSame)) {
    const who = section.gone === "ours" ? "removed by ours, changed by theirs" : "changed by ours, removed by theirs";
    clashes.sections.set(section.name, who);
  }
  for (const section of said.joined)
    clashes.sections.set(section, "one side renamed a section to what the other calls another one");
  for (const [key, why] of said.clashing) addName(clashes, matching, said, key, why);
}

/** Of a list, of comments and of lines that are not understood each clashes alone; the rest of a name goes together. */
function isByItself({ group, base, ours, theirs }: Match, said: Said): boolean {
  const { kind } = (base ?? ours ?? theirs)!.unit;
  if (kind === "entry") {
    const [section = "", , name = ""] = group.split("\0");
    return said.isList(section, name);
  }
  return kind === "comment" || kind === "stray" || kind === "use";
}

export function addGroup(clashes: Clashes, group: string, why: string): void {
  if (clashes.groups.has(group)) return;
  clashes.groups.set(group, group);
  clashes.why.set(group, why);
}

/** Makes a conflict of all that says a name, or of its section where no statement of its own does. */
export function addName(clashes: Clashes, matching: Matching, said: Said, key: string, why: string): void {
  const [section = "", name = ""] = key.split("\0");
  const entries = entryGroup(section, name);
  const drops = dropGroup(section);
  const isDropped = name === ALL || said.isDroppedAnywhere(section, name);
  if (name === KEPT || (!matching.groups.has(entries) && !isDropped)) {
    clashes.sections.set(section, why);
    return;
  }
  // A name that one side takes back and the other says stands in one conflict with the lines that take back.
  if (isDropped && matching.groups.has(drops)) {
    addGroup(clashes, drops, why);
    if (matching.groups.has(entries)) clashes.groups.set(entries, drops);
  } else addGroup(clashes, entries, why);
}

/** Sections that one side has no more and in which the other changed or added something. */
function goneSections({ blocks, matches }: Matching, isSame: SameCore) {
  const has = { base: new Set<string>(), ours: new Set<string>(), theirs: new Set<string>() };
  const changed = { ours: new Set<string>(), theirs: new Set<string>() };
  const compare = (section: string, before: Unit | null, now: Unit | null, side: "ours" | "theirs") => {
    if (now && !(before && isUnchanged(before, now, isSame))) changed[side].add(section);
  };
  for (const match of blocks) {
    for (const side of SIDES) if (match[side]?.heading) has[side].add(match.section);
    for (const side of ["ours", "theirs"] as const)
      compare(match.section, match.base?.heading ?? null, match[side]?.heading ?? null, side);
  }
  for (const match of matches)
    for (const side of ["ours", "theirs"] as const)
      compare(match[side]?.block.section ?? "", match.base?.unit ?? null, match[side]?.unit ?? null, side);
  const found: { name: string; gone: Side }[] = [];
  for (const name of has.base) {
    for (const [gone, other] of [
      ["ours", "theirs"],
      ["theirs", "ours"],
    ] as const)
      if (!has[gone].has(name) && has[other].has(name) && changed[other].has(name)) found.push({ name, gone });
  }
  return found;
}
