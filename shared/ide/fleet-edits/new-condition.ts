/** A condition that a pilot typed for a mode of many craft. */
import { type Craft, isOutput } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import { type Condition, walkCondition } from "../../syntax/condition.ts";
import { nameOf, sectionOf } from "../compare/compare.ts";
import { withFile } from "../context/trial.ts";

/** The path under which it is read; no file has it. */
const TYPED = "fettle-habit:/typed.fettle";

/** A layer that says the mode so, and nothing else; or what is wrong with the condition, in a sentence. */
export function readCondition(
  workspace: Workspace,
  what: string,
  text: string,
): { script: Script; condition: Condition } | string {
  if (text.trim() === "") return "Write when it is to be on, such as: TR is down.";
  if (/[\n\r]/.test(text)) return "A condition stands on one line.";
  const line = `layer "Typed"\n\n${sectionOf(what)}\n  ${nameOf(what)}  when ${text.trim().replace(/^when\s+/, "")}\n`;
  const tried = withFile(workspace, TYPED, line);
  const fault = findingsOf(tried, TYPED).find(({ severity }) => severity === "error");
  if (fault) return fault.message;
  const script = tried.script(TYPED)!;
  const [entry] = script.entries;
  const condition = entry && "value" in entry ? conditionOf(entry.value) : null;
  return condition ? { script, condition } : "This is no condition: write it as in a script, such as: TR is down.";
}

function conditionOf(value: Script["entries"][number]["value"]): Condition | null {
  return value && value.kind === "condition" ? value.condition : null;
}

/** Why a condition means nothing on a craft, in a sentence; null where all that it names is there. */
export function whyNotOn(craft: Craft, condition: Condition): string | null {
  for (const part of walkCondition(condition)) {
    const name =
      part.kind === "is"
        ? part.control
        : "subject" in part && part.subject.kind === "control"
          ? part.subject.name
          : null;
    if (name === null) continue;
    const control = craft.controls.get(name);
    if (!control) return `“${craft.name}” has no control “${name}”.`;
    if (control.value === null) return `The line of “${name}” has a fault, so its positions are not known.`;
    if (part.kind !== "is") continue;
    if (control.value.kind !== "control" || control.value.positions.length === 0)
      return `“${name}” is a dial: say between which pulses, such as: ${name} above 1500 us.`;
    if (!control.value.positions.some((each) => each.name === part.position))
      return `“${name}” has no position “${part.position}” on “${craft.name}”.`;
  }
  return null;
}

/** What is wrong with a condition for a mode, whatever craft are meant; null where nothing is. */
export function faultOfCondition(workspace: Workspace, mode: string, text: string): string | null {
  const read = readCondition(workspace, isOutput(mode) ? mode : `modes.${mode}`, text);
  return typeof read === "string" ? read : null;
}
