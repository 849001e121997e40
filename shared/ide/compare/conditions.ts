/** Which modes and outputs of two craft are on in other states. */
import { pairBoards } from "../../logic/compare.ts";
import { switchboardOf } from "../../logic/from-craft.ts";
import type { PairedBoards, Switchboard, SwitchInput } from "../../logic/switchboard-types.ts";
import type { Craft, Mode } from "../../model/craft.ts";
import { perCore } from "../../model/memo.ts";
import type { Condition } from "../../syntax/condition.ts";
import { printCondition } from "../../syntax/print-value.ts";

/**
 * The conditions of both over one set of states; null where the handsets' controls differ, or the line of one has a
 * fault. Where what the link carries differs, all that either may carry counts: what is equal then is equal on each.
 */
export function pairedConditions(before: Craft, after: Craft): PairedBoards | null {
  const boards = [switchboardOf(before), switchboardOf(after)] as const;
  const recent = recentPairs(after);
  const known = recent.find((each) => each.before === boards[0] && each.after === boards[1]);
  if (known) return known.pair;
  const [a, b] = [boards[0].input, boards[1].input];
  const pair = pairBoards(a, b) ?? pairBoards(widened(a, b), widened(b, a));
  recent.unshift({ before: boards[0], after: boards[1], pair });
  recent.splice(MOST_RECENT);
  return pair;
}

/** Those used last first: most edits of a script do not concern switches, and what differs and its words both ask. */
const recentPairs = perCore((): Paired[] => []);
const MOST_RECENT = 4;

interface Paired {
  readonly before: Switchboard;
  readonly after: Switchboard;
  readonly pair: PairedBoards | null;
}

function widened(input: SwitchInput, other: SwitchInput): SwitchInput {
  return {
    ...input,
    endpointsUs: {
      fromUs: Math.min(input.endpointsUs.fromUs, other.endpointsUs.fromUs),
      toUs: Math.max(input.endpointsUs.toUs, other.endpointsUs.toUs),
    },
    measuredUs: new Map(),
    twoLevelChannels: [],
  };
}

/**
 * Whether a mode, or an output as `outputs.NAME`, is on in the same states on both. Where that cannot be followed,
 * or the boards cannot be paired, it is the same if it is written alike, but for the order of its parts and brackets.
 */
export function isSameCondition(name: string, before: Mode, after: Mode, pair: PairedBoards | null): boolean {
  return pair?.same(name) ?? (before.text === after.text || isWrittenAlike(before, after));
}

function isWrittenAlike(before: Mode, after: Mode): boolean {
  const [a, b] = [before, after].map(({ lines }) => lines.map(({ condition }) => condition));
  const isWhole = (all: typeof a): all is Condition[] => all!.every((each) => each !== null);
  return isWhole(a) && isWhole(b) && joined("or", a) === joined("or", b);
}

/** A condition as a text that is equal for any order of its parts, and whether a test or the brackets around it are denied. */
function inOrder(condition: Condition): string {
  switch (condition.kind) {
    case "and":
    case "or":
      return joined(condition.kind, condition.parts);
    case "not":
      return denied(inOrder(condition.part));
    case "is":
      return condition.negated ? denied(printCondition({ ...condition, negated: false })) : printCondition(condition);
    default:
      return printCondition(condition);
  }
}

const NOT = "not ";

function denied(text: string): string {
  return text.startsWith(NOT) ? text.slice(NOT.length) : NOT + text;
}

/** Parts of one kind, also those that stand in brackets among themselves, each once. */
function joined(kind: "and" | "or", parts: readonly Condition[]): string {
  const flat = (part: Condition): Condition[] => (part.kind === kind ? part.parts.flatMap(flat) : [part]);
  const texts = [...new Set(parts.flatMap(flat).map(inOrder))].sort();
  return texts.length === 1 ? texts[0]! : `(${texts.join(` ${kind} `)})`;
}

/** True where the conditions of both are written alike and their controls do the same: then there is nothing to pair. */
export function areWrittenAlike(before: Craft, after: Craft): boolean {
  return alike(before.modes, after.modes) && alike(before.outputs, after.outputs);
}

function alike(before: ReadonlyMap<string, Mode>, after: ReadonlyMap<string, Mode>): boolean {
  return before.size === after.size && [...before].every(([name, { text }]) => after.get(name)?.text === text);
}
