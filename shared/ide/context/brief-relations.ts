/** How a setting stands to others, short enough for a hover: its page has all of it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { joinWithAnd } from "../../text/list.ts";
import { comparisonsSeenFrom, type SeenComparison } from "./relation-lines.ts";

/** What a hover has room for: some ten of its lines, in characters. */
const ROOM = 850;

/** Relations that differ in nothing but the names at their other end. */
type Alike = readonly [SeenComparison, ...SeenComparison[]];

/**
 * How a setting must stand to others, seen from it, as lines of a list. Relations that read alike share a line;
 * where they are still many, reasons are cut to the first sentence of each, then the limits that the setting is but
 * one of the figures of are named in one line.
 */
export function briefComparisonLines(catalogue: Catalogue, path: string): string[] {
  const groups = groupAlike(comparisonsSeenFrom(catalogue, path));
  const direct = groups.filter((group) => !isInput(group));
  const drafts = [
    linesOf(groups, reasonOf),
    linesOf(groups, firstSentence),
    [...linesOf(direct, firstSentence), limitsSetBy(groups.filter(isInput))],
  ];
  return (drafts.find((lines) => lines.join("").length <= ROOM) ?? drafts.at(-1)!).filter((line) => line !== "");
}

/** Each with its reason, which is told once where several have it. */
function linesOf(groups: readonly Alike[], reasonIn: (group: Alike) => string): string[] {
  const told = new Set<string>();
  return groups.map((group) => {
    const reason = reasonIn(group);
    if (told.has(reason)) return lineOf(group, "the same");
    told.add(reason);
    return lineOf(group, reason);
  });
}

function limitsSetBy(groups: readonly Alike[]): string {
  const names = [...new Set(groups.flatMap((group) => group.map(({ other }) => other)))];
  return names.length === 0 ? "" : `Sets limits to ${joinWithAnd(names)}`;
}

function groupAlike(all: readonly SeenComparison[]): Alike[] {
  const groups = new Map<string, [SeenComparison, ...SeenComparison[]]>();
  for (const each of all) {
    const isSentence = each.before === "";
    const key = `${isSentence ? each.other : each.before}\n${each.after}\n${each.comparison.reason}`;
    const group = groups.get(key);
    if (group) group.push(each);
    else groups.set(key, [each]);
  }
  return [...groups.values()];
}

function lineOf(group: Alike, reason: string): string {
  const [{ before, after }] = group;
  return `${before}${joinWithAnd(group.map(({ other }) => other))}${after}${reason === "" ? "" : `: ${reason}`}`;
}

/** Whether the setting is but a figure that the other end's limit is computed from. */
function isInput([{ before }]: Alike): boolean {
  return before === "";
}

function reasonOf([{ comparison }]: Alike): string {
  return comparison.reason;
}

function firstSentence([{ comparison }]: Alike): string {
  return /^.*?[.](?= [A-Z]|$)/.exec(comparison.reason)?.[0] ?? comparison.reason;
}
