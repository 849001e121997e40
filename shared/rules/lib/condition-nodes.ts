/** The parts of the conditions of a craft, and the controls that they name. */
import { type Craft, modeNamed, type Source } from "../../model/craft.ts";
import { type Condition, walkCondition } from "../../syntax/condition.ts";

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

/** The controls that a craft uses: by name or channel in a condition, or as a dial that a setting follows. */
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

/** True if one of the lines of a mode's condition is just `always`. */
export function saysAlways(craft: Craft, name: string): boolean {
  return modeNamed(craft, name)?.lines.some(({ condition }) => condition?.kind === "always") ?? false;
}
