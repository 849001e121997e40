/** The distances of positions from the bounds of tests on their channel. */

import { walkCondition } from "../syntax/condition.ts";
import type { Names } from "./names.ts";
import type { ControlSpec, Margin, SwitchInput } from "./switchboard-types.ts";

/**
 * Positions within `withinUs` of a bound of an `in`, `above` or `below` test, in the order of the
 * conditions. Bounds at or beyond the link's end points do not count, since no pulse lies beyond
 * them, nor do positions that never arrive on a channel with two levels.
 */
export function findMargins(input: SwitchInput, names: Names, withinUs: number): readonly Margin[] {
  const margins: Margin[] = [];
  for (const { name, lines } of input.conditions) {
    for (const { condition, source } of lines) {
      for (const node of condition ? walkCondition(condition) : []) {
        if (node.kind !== "in" && node.kind !== "above" && node.kind !== "below") continue;
        const control = names.controls.get(names.variableOf(node.subject) ?? "");
        if (!control) continue;
        const bounds = node.kind === "in" ? [node.fromUs, node.toUs] : [node.boundUs];
        for (const boundUs of bounds.filter((bound) => insideEndpoints(input, bound))) {
          for (const near of positionsNear(control, boundUs, withinUs, input)) {
            margins.push({ control, ...near, boundUs, in: name, source, start: node.start, end: node.end });
          }
        }
      }
    }
  }
  return margins;
}

function insideEndpoints({ endpointsUs }: SwitchInput, boundUs: number): boolean {
  return endpointsUs.fromUs < boundUs && boundUs < endpointsUs.toUs;
}

function positionsNear(
  control: ControlSpec,
  boundUs: number,
  withinUs: number,
  { twoLevelChannels }: SwitchInput,
): readonly { readonly position: string; readonly pulseUs: number; readonly marginUs: number }[] {
  const pulses = control.positions.map(({ pulseUs }) => pulseUs);
  const arrives = (pulseUs: number): boolean =>
    !twoLevelChannels?.includes(control.channel) || [Math.min(...pulses), Math.max(...pulses)].includes(pulseUs);
  return control.positions.flatMap(({ name, pulseUs }) => {
    if (!arrives(pulseUs)) return [];
    const marginUs = Math.abs(pulseUs - boundUs);
    return marginUs <= withinUs ? [{ position: name, pulseUs, marginUs }] : [];
  });
}
