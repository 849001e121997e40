/** Whether the conditions of a craft treat two positions of a control as different. */
import type { ControlSpec } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { Condition } from "../../syntax/condition.ts";
import { conditionNodes } from "./condition-nodes.ts";

/** Makes a function that is true for two positions of which some test of a condition holds in one alone. */
export function tellingApart(craft: Craft): (control: ControlSpec, a: string, b: string) => boolean {
  const nodes = conditionNodes(craft).map(({ node }) => node);
  return (control, a, b) => {
    const [pulseA, pulseB] = [a, b].map((name) => control.positions.find((each) => each.name === name)?.pulseUs ?? 0);
    return nodes.some((node) => isAbout(node, control) && holds(node, a, pulseA!) !== holds(node, b, pulseB!));
  };
}

function isAbout(node: Condition, { name, channel }: ControlSpec): boolean {
  if (node.kind === "is") return node.control === name;
  if (!("subject" in node)) return false;
  return node.subject.kind === "control" ? node.subject.name === name : node.subject.channel === channel;
}

/** Whether a test holds at a position. */
function holds(node: Condition, position: string, pulseUs: number): boolean {
  if (node.kind === "is") return node.position === position;
  if (node.kind === "in") return node.fromUs <= pulseUs && pulseUs <= node.toUs;
  if (node.kind === "above") return pulseUs > node.boundUs;
  return node.kind === "below" && pulseUs < node.boundUs;
}
