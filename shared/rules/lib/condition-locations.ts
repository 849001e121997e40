/** Locations of findings about conditions. */
import { type Craft, modeNamed } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Report } from "../engine/rule.ts";
import { valueLocation } from "./locations.ts";

/** The location for the condition of a mode or output: its last line; notes of all its lines count. */
export function conditionLocation(craft: Craft, workspace: Workspace, name: string): Pick<Report, "at" | "alsoOf"> {
  const lines = modeNamed(craft, name)?.lines ?? [];
  const last = lines.at(-1)?.source ?? { file: craft.file, line: 0 };
  return { at: valueLocation(workspace, last), alsoOf: lines.map(({ source }) => source) };
}

/** The location for two modes: the condition of `name`, with that of `other` as related; notes of both count. */
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
