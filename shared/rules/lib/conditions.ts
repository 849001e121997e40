/** Conditions as rules point at them, and positions in words. */
import { boardOf } from "../../logic/from-craft.ts";
import type { ControlSpec, Positions, Switchboard } from "../../logic/types.ts";
import { type Craft, modeNamed, type Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Condition, walkCondition } from "../../syntax/condition.ts";
import type { Report } from "../engine/rule.ts";
import { valueLocation } from "./locations.ts";

/** Where a finding about the condition of a mode or output stands: its last line; notes of all its lines count. */
export function conditionOf(craft: Craft, workspace: Workspace, name: string): Pick<Report, "at" | "alsoOf"> {
  const lines = modeNamed(craft, name)?.lines ?? [];
  const last = lines.at(-1)?.source ?? { file: craft.file, line: 0 };
  return { at: valueLocation(workspace, last), alsoOf: lines.map(({ source }) => source) };
}

/** Where a finding about two modes stands: at the condition of `name`, that of `other` beside it; notes of both count. */
export function conditionsOf(
  craft: Craft,
  workspace: Workspace,
  name: string,
  other: string,
): Pick<Report, "at" | "related" | "alsoOf"> {
  const [own, beside] = [conditionOf(craft, workspace, name), conditionOf(craft, workspace, other)];
  return {
    at: own.at,
    related: [{ message: `${other} is set up here`, at: beside.at }],
    alsoOf: [...(own.alsoOf ?? []), ...(beside.alsoOf ?? [])],
  };
}

/** A finding for each control of a kind on which arming hangs; `word` is told whether by `arm`, or by `arm-permit` alone. */
export function armingReports(
  craft: Craft,
  workspace: Workspace,
  kind: ControlSpec["kind"],
  word: (control: string, by: "arm" | "permit") => string,
): Report[] {
  const board = boardOf(craft, workspace);
  if (board.armed === null) return [];
  const names = new Set(board.sets.dependsOn(board.armed));
  return board.variables
    .filter(({ name, control }) => names.has(name) && control?.kind === kind)
    .map(({ name }) => {
      const { by, where } = armingOn(craft, workspace, board, name);
      return { ...where, message: word(name, by) };
    });
}

/** At `arm`, or at `arm-permit` where only that asks for the control. */
function armingOn(craft: Craft, workspace: Workspace, board: Switchboard, control: string) {
  const arm = board.selected("arm");
  const permits = arm !== null && !board.sets.dependsOn(arm).includes(control);
  const [one, other] = permits ? ["arm-permit", "arm"] : ["arm", "arm-permit"];
  const { at, alsoOf = [] } = conditionOf(craft, workspace, one!);
  const others = conditionOf(craft, workspace, other!).alsoOf ?? [];
  return { by: permits ? ("permit" as const) : ("arm" as const), where: { at, alsoOf: [...alsoOf, ...others] } };
}

/** Whether a mode's condition is, or has as one of its lines, the word `always` alone. */
export function saysAlways(craft: Craft, name: string): boolean {
  return modeNamed(craft, name)?.lines.some(({ condition }) => condition?.kind === "always") ?? false;
}

/** Positions as a pilot would say them: “TL down, KN at 1500 us”. */
export function wordPositions(positions: Positions): string {
  const words = Object.entries(positions).map(([name, at]) =>
    typeof at === "number" ? `${name} at ${at} us` : `${name} ${at}`,
  );
  return words.length === 0 ? "any position of the controls" : words.join(", ");
}

/** A part of a condition, and its line. */
export interface ConditionNode {
  readonly node: Condition;
  readonly source: Source;
}

/** Every part of every condition of a craft, with its line. */
export function conditionNodes(craft: Craft): ConditionNode[] {
  const lines = [...craft.modes.values(), ...craft.outputs.values()].flatMap((mode) => mode.lines);
  return lines.flatMap(({ condition, source }) =>
    (condition ? [...walkCondition(condition)] : []).map((node) => ({ node, source })),
  );
}

/** The controls of which a craft makes use: by name or channel in a condition, or as a dial that something follows. */
export function usedControls(craft: Craft, nodes: readonly ConditionNode[]): ReadonlySet<string> {
  const used = new Set<string>();
  const channels = new Set<number>();
  for (const { node } of nodes) {
    if (node.kind === "is") used.add(node.control);
    if (!("subject" in node)) continue;
    if (node.subject.kind === "control") used.add(node.subject.name);
    else channels.add(node.subject.channel);
  }
  for (const { value } of craft.adjust.values()) if (value?.kind === "follows") used.add(value.dial);
  for (const { name, value } of craft.controls.values()) if (value && channels.has(value.channel)) used.add(name);
  return used;
}
