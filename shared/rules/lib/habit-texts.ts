/** The conditions of a craft as texts that decide where the hand finds each mode: equal texts, equal places. */
import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Condition } from "../../syntax/condition.ts";

/**
 * By mode; a mode that is not set up, or whose condition leads to nothing that is known, is not here. What a text names
 * is written out: modes by their conditions, controls by their lines.
 */
export function habitTexts(craft: Craft): ReadonlyMap<string, string> {
  const texts = new Map<string, string>();
  const link = LINK.map((name) => settingOf(craft, name)?.text ?? "").join("; ");
  const arm = written("arm", craft);
  const handset = [...craft.controls.values()].some(({ fromHandset }) => !fromHandset) ? handsetText(craft) : "";
  for (const name of craft.modes.keys()) {
    const own = written(name, craft);
    if (own) texts.set(name, [own, arm ?? "no arm", link, handset].join("\n"));
  }
  return texts;
}

/** A control that is said anew is held against the one that the handset says. */
function handsetText({ scripts }: Craft): string {
  const lines = scripts.flatMap(({ kind, tree }) => (kind === "handset" ? tree.lines : []));
  return lines.map(({ text }) => text.trim()).join("; ");
}

/** What decides which pulses arrive. */
const LINK = ["link.endpoints", "link.two-level"];

/** The condition of a mode with the lines of its controls; null where it is not known. */
function written(mode: string, craft: Craft): string | null {
  const condition = craft.modes.get(mode)?.condition;
  if (!condition) return null;
  const controls = new Set<string>();
  const text = textOf(condition, craft, [mode], controls);
  if (text === null) return null;
  return [text, ...[...controls].sort().map((name) => `${name} ${craft.controls.get(name)!.text}`)].join("; ");
}

function textOf(condition: Condition, craft: Craft, within: readonly string[], controls: Set<string>): string | null {
  switch (condition.kind) {
    case "or":
    case "and": {
      const parts = condition.parts.map((part) => textOf(part, craft, within, controls));
      return parts.includes(null) ? null : `(${parts.join(` ${condition.kind} `)})`;
    }
    case "not": {
      const part = textOf(condition.part, craft, within, controls);
      return part && `not ${part}`;
    }
    case "always":
      return "always";
    case "mode": {
      const mode = craft.modes.get(condition.name);
      if (!mode) return "never";
      if (!mode.condition || within.includes(condition.name)) return null;
      return textOf(mode.condition, craft, [...within, condition.name], controls);
    }
    case "is":
      if (!has(craft, condition.control, controls)) return null;
      return `${condition.control} is ${condition.negated ? "not " : ""}${condition.position}`;
    case "in":
    case "above":
    case "below": {
      const subject = subjectOf(condition.subject, craft, controls);
      if (subject === null) return null;
      return condition.kind === "in"
        ? `${subject} in ${condition.fromUs} to ${condition.toUs}`
        : `${subject} ${condition.kind} ${condition.boundUs}`;
    }
  }
}

function subjectOf(subject: Extract<Condition, { kind: "in" }>["subject"], craft: Craft, controls: Set<string>) {
  if (subject.kind !== "channel") return has(craft, subject.name, controls) ? subject.name : null;
  for (const [name, { value }] of craft.controls) if (value?.channel === subject.channel) controls.add(name);
  return `ch${subject.channel}`;
}

/** Whether a control is there and its line is understood; then it counts among those that are named. */
function has(craft: Craft, name: string, controls: Set<string>): boolean {
  if (!craft.controls.get(name)?.value) return false;
  controls.add(name);
  return true;
}
