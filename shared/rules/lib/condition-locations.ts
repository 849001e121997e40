/** Where findings about conditions stand. */
import { type Craft, modeNamed } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Report } from "../engine/rule.ts";
import { valueLocation } from "./locations.ts";

/** Where a finding about the condition of a mode or output stands: its last line; notes of all its lines count. */
export function conditionLocation(craft: Craft, workspace: Workspace, name: string): Pick<Report, "at" | "alsoOf"> {
  const lines = modeNamed(craft, name)?.lines ?? [];
  const last = lines.at(-1)?.source ?? { file: craft.file, line: 0 };
  return { at: valueLocation(workspace, last), alsoOf: lines.map(({ source }) => source) };
}

/** Where a finding about two modes stands: at the condition of `name`, that of `other` beside it; notes of both count. */
export function conditionLocations(
  craft: Craft,
  workspace: Workspace,
  name: string,
  other: string,
): Pick<Report, "at" | "related" | "alsoOf"> {
  const [own, beside] = [conditionLocation(craft, workspace, name), conditionLocation(craft, workspace, other)];
  return {
    at: own.at,
    related: [{ message: `${other} is set up here`, at: beside.at }],
    alsoOf: [...(own.alsoOf ?? []), ...(beside.alsoOf ?? [])],
  };
}
