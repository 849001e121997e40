/** Holds the result of a merge to what the sides say: no name says in it what neither of them does. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import { addGroup, addName, type Clashes } from "./clashes.ts";
import { dropGroup, entryGroup, type Match, type Matching, type Side, USES } from "./match.ts";
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
  for (const [group, order] of orderedGroups(result, said)) {
    if (isSaidOrder(order)) continue;
    found = true;
    addGroup(clashes, group, "in which order these stand is said by neither side");
  }
  return found;
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

/** The statements whose order counts, as they come in the result: layers, and the lines of each list. */
function orderedGroups({ order }: Placed, said: Said): Map<string, Match[]> {
  const groups = new Map<string, Match[]>();
  for (const match of order) {
    const [section = "", kind, name = ""] = match.group.split("\0");
    if (match.group !== USES && !(kind === "entry" && said.isList(section, name))) continue;
    const list = groups.get(match.group);
    if (list) list.push(match);
    else groups.set(match.group, [match]);
  }
  return groups;
}

/** So many in one order are held to it pair by pair; of more, both sides may not have changed the order. */
const MOST_PAIRED = 120;

/** Whether each of two stands before the other because a side says so: itself, or by one that stands between them. */
function isSaidOrder(order: readonly Match[]): boolean {
  const isAsOurs = order.every(({ ours }) => ours) && isRising(order.map(({ ours }) => ours!.order));
  if (isAsOurs || (order.every(({ theirs }) => theirs) && isRising(order.map(({ theirs }) => theirs!.order))))
    return true;
  if (order.length > MOST_PAIRED) return false;
  return order.every((second, j) =>
    order.slice(0, j).every((first, i) => {
      const isBefore = isSaidBefore(first, second);
      if (isBefore !== null) return isBefore;
      return order.slice(i + 1, j).some((each) => isSaidBefore(first, each) && isSaidBefore(each, second));
    }),
  );
}

/** Whether the sides have one before the other, by the side that changed it; null where none has both. */
function isSaidBefore(first: Match, second: Match): boolean | null {
  const inSide = (side: Side) => (first[side] && second[side] ? first[side].order < second[side].order : null);
  const [base, ours, theirs] = [inSide("base"), inSide("ours"), inSide("theirs")];
  if (ours === null || theirs === null) return ours ?? theirs;
  if (ours === theirs) return ours;
  // Without a base they contradict each other, and neither order will do.
  if (base === null) return false;
  return ours === base ? theirs : ours;
}

function isRising(numbers: readonly number[]): boolean {
  return numbers.every((number, i) => i === 0 || numbers[i - 1]! < number);
}
