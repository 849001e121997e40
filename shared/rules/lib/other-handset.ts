/** Finds scripts that were written for another handset than the craft's, and proposes how to rename its controls. */
import { type MappedControl, mapControls, mappingInWords, type PlacedControl } from "../../logic/handset-mapping.ts";
import { controlsUsed, renameEdits } from "../../logic/rename-controls.ts";
import type { ControlSpec } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import { useTarget } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Fix } from "../../syntax/span.ts";
import type { ControlValue } from "../../syntax/value.ts";

/** A script of a craft most of whose controls its handset does not have. */
export interface Foreign {
  readonly script: Script;
  /** The controls that the handset lacks, in the order of the text. */
  readonly unknown: readonly string[];
  readonly mapping: readonly MappedControl[];
  /** Renames all that has a counterpart; null if nothing has. */
  readonly fix: Fix | null;
}

/** Fewer unknown controls than this are slips, or a handset with one switch less. */
const FEWEST_UNKNOWN = 3;

/** The scripts of a craft that were written for another handset. `controls` are those of the craft. */
export function foreignScripts(craft: Craft, controls: readonly ControlSpec[], workspace: Workspace): Foreign[] {
  if (!craft.handset) return [];
  return craft.scripts.flatMap((script) => {
    const used = controlsUsed(script);
    const known = used.filter(({ name }) => craft.controls.has(name)).map(({ name }) => name);
    const unknown = used.filter(({ name }) => !craft.controls.has(name));
    if (unknown.length < FEWEST_UNKNOWN || unknown.length <= known.length) return [];
    const others = otherHandsets(craft, workspace);
    const specs = unknown.map((each) => ({ ...each, spec: others.get(each.name) }));
    const mapping = mapControls(specs, controls, new Set(known));
    const title = `Write for this handset: ${mappingInWords(mapping)}`;
    const fix = mapping.length === 0 ? null : { title, edits: renameEdits(script, mapping) };
    return [{ script, unknown: unknown.map(({ name }) => name), mapping, fix }];
  });
}

/** The controls of handsets that a craft or its layers use, and that another handset replaced. */
export function otherHandsets(craft: Craft, workspace: Workspace): ReadonlyMap<string, PlacedControl> {
  const found = new Map<string, PlacedControl>();
  for (const script of craft.scripts) {
    for (const use of script.uses) {
      const target = useTarget(workspace, script.file, use);
      if (target.kind !== "script" || target.script.tree.kind !== "handset") continue;
      for (const { kind, name, value } of target.script.entries)
        if (kind === "control" && value?.kind === "control" && !found.has(name)) found.set(name, specOf(name, value));
    }
  }
  return found;
}

/** A control as the mapping of handsets takes it. */
export function specOf(name: string, value: ControlValue): PlacedControl {
  const { control: kind, channel, positions, rest, fromUs, toUs, lies } = value;
  return { name, kind, channel, positions, rest, fromUs, toUs, lies };
}
