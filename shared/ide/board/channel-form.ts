/** A condition on one control as a board has it: its channel, and the pulses of the positions. */
import type { Craft } from "../../model/craft.ts";
import type { Condition } from "../../syntax/condition.ts";

/** The scale of a link that says nothing else. */
const USUAL_ENDS = { fromUs: 1000, toUs: 2000 };

/**
 * `when TL is down` as `when ch5 in 1500 us to 2000 us`, bounds half-way between neighbouring positions: a pilot writes
 * those of the board's line in their place. Null for any other condition.
 */
export function channelForm(craft: Craft, condition: Condition | null): string | null {
  if (condition?.kind !== "is" || condition.negated) return null;
  const value = craft.controls.get(condition.control)?.value;
  if (value?.kind !== "control") return null;
  const pulses = value.positions.map(({ pulseUs }) => pulseUs).sort((a, b) => a - b);
  const pulse = value.positions.find(({ name }) => name === condition.position)?.pulseUs;
  if (pulse === undefined) return null;
  const ends = craft.settings.get("link")?.get("endpoints")?.value;
  const { fromUs, toUs } = ends?.kind === "range" ? { fromUs: ends.from.number, toUs: ends.to.number } : USUAL_ENDS;
  const [below, above] = [pulses.findLast((each) => each < pulse), pulses.find((each) => each > pulse)];
  const from = below === undefined ? Math.min(fromUs, pulse) : Math.ceil((below + pulse) / 2);
  const to = above === undefined ? Math.max(toUs, pulse) : Math.floor((above + pulse) / 2);
  return `when ch${value.channel} in ${from} us to ${to} us`;
}

/** Why a condition is none that a board can have, in a sentence; null where it is one. */
export function whyNoBoardCondition(condition: Condition, craftWords: string): string | null {
  const found = firstControl(condition);
  return found === null
    ? null
    : `A board knows channels and no controls such as ${found}: write ${craftWords} with its channel, as in “when ch5 in 1700 us to 2100 us”.`;
}

function firstControl(condition: Condition): string | null {
  switch (condition.kind) {
    case "is":
      return condition.control;
    case "in":
    case "above":
    case "below":
      return condition.subject.kind === "control" ? condition.subject.name : null;
    case "and":
    case "or":
      return condition.parts.map(firstControl).find((each) => each !== null) ?? null;
    case "not":
      return firstControl(condition.part);
    default:
      return null;
  }
}
