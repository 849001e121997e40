/** Reports on the dials that settings follow. */
import type { Craft } from "../../model/craft.ts";
import { similarNames } from "../../model/similar-names.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Report } from "../engine/rule.ts";
import { foreignIn } from "./condition-problems.ts";
import { locationAt } from "./locations.ts";

/** Settings that follow a control which the handset does not have. */
export function unknownDials(craft: Craft, workspace: Workspace): Report[] {
  if (!craft.handset) return [];
  const foreign = foreignIn(craft, workspace).map(({ script }) => script.file);
  return [...craft.adjust.values()].flatMap(({ value, source }) => {
    if (value?.kind !== "follows" || craft.controls.has(value.dial) || foreign.includes(source.file)) return [];
    const offered = similarNames(value.dial, [...craft.controls.keys()]);
    const question = offered.length > 0 ? ` Did you mean ${offered.join(" or ")}?` : "";
    return [{ at: locationAt(source, value.dialAt), message: `The handset has no control ${value.dial}.${question}` }];
  });
}

/** Settings that follow a control that is not a dial: it has positions, and no values between them. */
export function notDials(craft: Craft): Report[] {
  return [...craft.adjust.values()].flatMap(({ value, source }) => {
    if (value?.kind !== "follows") return [];
    const control = craft.controls.get(value.dial)?.value;
    if (!control || control.control === "dial") return [];
    const message = `${value.dial} is a ${control.control} and has positions only: a setting follows a dial.`;
    return [{ at: locationAt(source, value.dialAt), message }];
  });
}
