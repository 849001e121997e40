/** Conditions as rules point at them, and positions in words. */
import type { Positions } from "../logic/types.ts";
import type { Craft, Mode } from "../model/craft.ts";
import type { Workspace } from "../model/workspace.ts";
import { valueSpot } from "./spots.ts";
import type { Report } from "./types.ts";

/** Where a finding about the condition of a mode or output stands: its last line; notes of all its lines count. */
export function conditionOf(craft: Craft, workspace: Workspace, name: string): Pick<Report, "at" | "alsoOf"> {
  const lines = modeOf(craft, name)?.lines ?? [];
  const last = lines.at(-1)?.source ?? { file: craft.file, line: 0 };
  return { at: valueSpot(workspace, last), alsoOf: lines.map(({ source }) => source) };
}

/** Whether a mode's condition is, or has as one of its lines, the word `always` alone. */
export function saysAlways(craft: Craft, name: string): boolean {
  return modeOf(craft, name)?.lines.some(({ condition }) => condition?.kind === "always") ?? false;
}

/** Positions as a pilot would say them: “TL down, KN at 1500 us”. */
export function wordPositions(positions: Positions): string {
  const words = Object.entries(positions).map(([name, at]) =>
    typeof at === "number" ? `${name} at ${at} us` : `${name} ${at}`,
  );
  return words.length === 0 ? "any position of the controls" : words.join(", ");
}

function modeOf(craft: Craft, name: string): Mode | undefined {
  return name.startsWith("outputs.") ? craft.outputs.get(name.slice("outputs.".length)) : craft.modes.get(name);
}
