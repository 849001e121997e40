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

/** What a condition names. */
interface Named {
  readonly controls: Set<string>;
  /** By name, in the order in which they are met: modes may name modes over and over, and each is written once. */
  readonly modes: Map<string, string | null>;
}

/** The condition of a mode with the modes and the lines of the controls that decide it; null where it is not known. */
function written(mode: string, craft: Craft): string | null {
  const condition = craft.modes.get(mode)?.condition;
  if (!condition) return null;
  const named: Named = { controls: new Set(), modes: new Map() };
  const text = textOf(condition, craft, [mode], named);
  if (text === null) return null;
  const modes = [...named.modes].map(([name, own]) => `${name} when ${own}`);
  const controls = [...named.controls].sort().map((name) => `${name} ${craft.controls.get(name)!.text}`);
  return [text, ...modes, ...controls].join("; ");
}

function textOf(condition: Condition, craft: Craft, within: readonly string[], named: Named): string | null {
  switch (condition.kind) {
    case "or":
    case "and": {
      const parts = condition.parts.map((part) => textOf(part, craft, within, named));
      return parts.includes(null) ? null : `(${parts.join(` ${condition.kind} `)})`;
    }
    case "not": {
      const part = textOf(condition.part, craft, within, named);
      return part && `not ${part}`;
    }
    case "always":
      return "always";
    case "mode":
      return modeText(condition.name, craft, within, named);
    case "is":
      if (!has(craft, condition.control, named.controls)) return null;
      return `${condition.control} is ${condition.negated ? "not " : ""}${condition.position}`;
    case "in":
    case "above":
    case "below": {
      const subject = subjectOf(condition.subject, craft, named.controls);
      if (subject === null) return null;
      return condition.kind === "in"
        ? `${subject} in ${condition.fromUs} to ${condition.toUs}`
        : `${subject} ${condition.kind} ${condition.boundUs}`;
    }
  }
}

/** The name of a mode, whose condition is then among what is named. */
function modeText(name: string, craft: Craft, within: readonly string[], named: Named): string | null {
  const mode = craft.modes.get(name);
  if (!mode) return "never";
  if (!mode.condition || within.includes(name)) return null;
  if (!named.modes.has(name)) named.modes.set(name, textOf(mode.condition, craft, [...within, name], named));
  return named.modes.get(name) === null ? null : name;
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
