/** The controls that a file may name. */
import type { Workspace } from "../../model/workspace.ts";
import type { ControlValue } from "../../syntax/value.ts";
import { craftFor } from "./cursor-context.ts";

/**
 * The controls of the effective craft; for a layer that no craft uses, and for a handset, those of
 * the file itself and of every handset of the workspace.
 */
export function knownControls(workspace: Workspace, file: string): ReadonlyMap<string, ControlValue> {
  const known = new Map<string, ControlValue>();
  const craft = craftFor(workspace, file);
  for (const { name, value } of craft?.controls.values() ?? []) if (value) known.set(name, value);
  if (known.size > 0) return known;
  const own = workspace.script(file);
  const handsets = workspace.view.list().flatMap((each) => {
    const script = workspace.script(each);
    return script?.kind === "handset" ? [script] : [];
  });
  for (const script of own ? [own, ...(own.kind === "handset" ? [] : handsets)] : handsets) {
    for (const { kind, name, value } of script.entries) {
      if (kind === "control" && value?.kind === "control" && !known.has(name)) known.set(name, value);
    }
  }
  return known;
}

/** A control in a few words: its kind, its channel, and its positions or range. */
export function describeControl({
  control,
  channel,
  positions,
  fromUs,
  toUs,
}: Pick<ControlValue, "control" | "channel" | "fromUs" | "toUs"> & {
  readonly positions: readonly { readonly name: string }[];
}): string {
  const places = control === "dial" ? `${fromUs} us to ${toUs} us` : positions.map((each) => each.name).join(", ");
  return `${control} on ch${channel}: ${places}`;
}
