/** Holds the result of a merge to what the sides say: no name says in it what neither of them does. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import { addGroup, addName, type Clashes } from "./clashes.ts";
import { dropGroup, entryGroup, type Match, type Matching, type Side, USES } from "./match.ts";
import { isSaidOrder } from "./order.ts";
import type { Placed } from "./place.ts";
import { ALL, KEPT, saidIn } from "./said.ts";
import type { Said } from "./sides.ts";

/**
 * Makes a conflict of what the result says otherwise than it has to, wider where that is one already. True where
 * something was found.
 */
export function faultsIn(
  result: Placed,
  script: Script,
  matching: Matching,
  said: Said,
  catalogue: Catalogue,
  clashes: Clashes,
): boolean {
  let found = false;
  const says = saidIn(script, catalogue, said.sectionOf);
  for (const [key, expected] of said.expected) {
    if ((says.get(key) ?? null) === expected || isInConflict(key, said, matching, clashes)) continue;
    found = true;
    addName(clashes, matching, said, key, "put together, it would say what neither side does");
  }
  for (const key of says.keys()) {
    if (said.expected.has(key) || isMerged(key, said) || isInConflict(key, said, matching, clashes)) continue;
    found = true;
    addName(clashes, matching, said, key, "put together, it would say what neither side does");
  }
  for (const [group, order] of orderedGroups(result)) {
    if (isSaidOrder(order)) continue;
    found = true;
    addGroup(clashes, group, "in which order these stand is said by neither side");
  }
  if (!clashes.groups.has(USES) && firstOnlyHere(result, matching)) {
    found = true;
    addGroup(clashes, USES, "one side names a file twice, and the other leaves out the line that counts");
  }
  return found;
}

/** Whether a `use` line comes to count that counts on neither side, since there the file is named before it. */
function firstOnlyHere({ order }: Placed, { groups }: Matching): boolean {
  const uses = order.filter(({ group }) => group === USES);
  const counts = (match: Match) =>
    (["ours", "theirs"] as const).some((side) => match[side] && firstOf(groups.get(USES)!, match, side) === match);
  return uses.some((match, i) => {
    const name = nameOf(match);
    return uses.findIndex((each) => nameOf(each) === name) === i && !counts(match);
  });
}

/** Of the `use` lines of a side that name a file, the one that counts. */
function firstOf(uses: readonly Match[], like: Match, side: Side): Match | null {
  const alike = uses.filter((each) => each[side]?.unit.name === like[side]!.unit.name);
  return alike.reduce<Match | null>(
    (first, each) => (first && first[side]!.order < each[side]!.order ? first : each),
    null,
  );
}

/** The name that it has in the result: that of the side that changed it. */
function nameOf({ ours, base, theirs }: Match): string {
  const isOurs = ours && !(theirs && ours.unit.name === base?.unit.name);
  return (isOurs ? ours : (theirs ?? base))!.unit.name;
}

/** Whether a merge by lines says of no name what neither side does; lists and board text may be put together. */
export function isHeld(result: Script, said: Said, catalogue: Catalogue): boolean {
  const says = saidIn(result, catalogue, said.sectionOf);
  for (const [key, expected] of said.expected) if ((says.get(key) ?? null) !== expected) return false;
  return said.clashing.size === 0;
}

/** Whether a name is merged line by line: the lines of a list, and board text. */
function isMerged(key: string, said: Said): boolean {
  const [section = "", name = ""] = key.split("\0");
  return name === KEPT || said.isList(section, name);
}

function isInConflict(key: string, said: Said, { groups }: Matching, clashes: Clashes): boolean {
  const [section = "", name = ""] = key.split("\0");
  const entries = entryGroup(section, name);
  if (clashes.sections.has(section) || clashes.groups.has(entries)) return true;
  if (clashes.groups.has(dropGroup(section)) && (name === ALL || said.isDroppedAnywhere(section, name))) return true;
  return groups.get(entries)?.some((match) => clashes.matches.has(match)) ?? false;
}

/** Whether it counts where a statement stands among those of its group. */
export function isOrdered({ group }: Match): boolean {
  const [, kind] = group.split("\0");
  return group === USES || kind === "entry";
}

/** The statements whose order counts, as they come in the result: layers, and the lines of each list. */
function orderedGroups({ order }: Placed): Map<string, Match[]> {
  const groups = new Map<string, Match[]>();
  for (const match of order) {
    if (!isOrdered(match)) continue;
    const list = groups.get(match.group);
    if (list) list.push(match);
    else groups.set(match.group, [match]);
  }
  return groups;
}
