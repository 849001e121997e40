/** A condition by channels and pulses, so that other names for the same controls and positions make no difference. */
import type { Craft } from "../../model/craft.ts";
import type { Condition } from "../../syntax/condition.ts";

/**
 * Equal for conditions that are written alike but for the names of controls and positions, the order of their parts, and
 * the modes that they name. Null where a name in it leads to nothing, or in a circle.
 */
export function conditionMeaning(condition: Condition, craft: Craft, within: readonly string[] = []): string | null {
  const partsOf = (parts: readonly Condition[]): string | null => {
    const texts = parts.map((part) => conditionMeaning(part, craft, within));
    return texts.includes(null) ? null : [...new Set(texts)].sort().join(condition.kind === "or" ? " or " : " and ");
  };
  switch (condition.kind) {
    case "or":
    case "and": {
      const parts = partsOf(condition.parts);
      return parts && `(${parts})`;
    }
    case "not": {
      const part = conditionMeaning(condition.part, craft, within);
      return part && `not ${part}`;
    }
    case "always":
      return "always";
    case "mode": {
      const mode = craft.modes.get(condition.name);
      if (!mode) return "off";
      if (!mode.condition || within.includes(condition.name)) return null;
      return conditionMeaning(mode.condition, craft, [...within, condition.name]);
    }
    case "is": {
      const control = craft.controls.get(condition.control)?.value;
      const position = control?.positions.find(({ name }) => name === condition.position);
      return control && position
        ? `ch${control.channel} is ${condition.negated ? "not " : ""}${position.pulseUs}`
        : null;
    }
    case "in": {
      const channel = channelOf(condition.subject, craft);
      return channel && `${channel} in ${condition.fromUs} to ${condition.toUs}`;
    }
    case "above":
    case "below": {
      const channel = channelOf(condition.subject, craft);
      return channel && `${channel} ${condition.kind} ${condition.boundUs}`;
    }
  }
}

function channelOf(subject: Extract<Condition, { kind: "in" }>["subject"], craft: Craft): string | null {
  if (subject.kind === "channel") return `ch${subject.channel}`;
  const control = craft.controls.get(subject.name)?.value;
  return control ? `ch${control.channel}` : null;
}
