/** Conditions that name the controls of another handset, written for the craft's own or for one that is chosen. */
import type { PlacedControl, UsedControl } from "../../logic/handset-mapping.ts";
import { controlsUsed, renameEdits } from "../../logic/rename-controls.ts";
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { MappingRow } from "../../protocol/map-controls.ts";
import { otherHandsets } from "../../rules/lib/other-handset.ts";
import { pickedCraft } from "../context/picked-craft.ts";
import { useEdits } from "./handset-use.ts";
import { type ChosenControls, mappingRow, proposal, specsOf } from "./mapping-rows.ts";
import type { FileEdits } from "./osd-write.ts";
import { newerEdition, whyNotWritable } from "./script-edits.ts";

export interface MapQuery {
  /** Of several craft that use the file, the one that is meant. */
  readonly craft?: string | undefined;
  /** The file of a handset that is to take the place of the craft's own. */
  readonly handset?: string | undefined;
  /** What the pilot chose for a control; null leaves it as it is. */
  readonly chosen: ChosenControls;
  /** The files of layers whose conditions are changed too. */
  readonly layers: readonly string[];
}

export type MapControls =
  | {
      readonly kind: "mapping";
      readonly craft: string;
      readonly handset: string;
      readonly rows: readonly MappingRow[];
      /** Layers that name a control for which there is a row, or would be one; `lines` of theirs name it. */
      readonly layers: readonly {
        readonly file: string;
        readonly name: string;
        readonly lines: number;
        readonly alsoIn: readonly string[];
      }[];
      readonly files: readonly FileEdits[];
    }
  | { readonly kind: "refused"; readonly message: string };

/**
 * The proposal for each control that the craft's conditions name and its handset lacks; with another handset, for each
 * that they name at all. Its edits are those of the craft's own file and of the layers asked for.
 */
export function mapControlsOf(workspace: Workspace, file: string, query: MapQuery): MapControls {
  const before = pickedCraft(workspace, file, query.craft);
  if (!before) return refused("No craft of this workspace is meant here, so there is nothing to map.");
  if (before.script.tree.newer) return refused(newerEdition(before.script));
  if (query.handset !== undefined && workspace.script(query.handset)?.kind !== "handset")
    return refused(`There is no handset in ${query.handset}.`);
  const craft = query.handset === undefined ? before : workspace.craft(before.file, query.handset)!;
  const ours = specsOf(craft);
  if (!craft.handset || ours.length === 0)
    return refused(
      `“${craft.name}” uses no handset that has controls, so there is nothing to map to: name one, or make one.`,
    );

  const scripts = [craft.script, ...craft.scripts.filter((each) => query.layers.includes(each.file))];
  const theirs = controlsBefore(before, query.handset !== undefined, workspace);
  const isOpen = (name: string) =>
    !craft.controls.has(name) || (query.handset !== undefined && craft.controls.get(name)!.fromHandset);
  const used = usedBy(scripts).map((each) => ({ ...each, spec: theirs.get(each.name) }));
  const open = used.filter(({ name }) => isOpen(name));
  const known = used.filter(({ name }) => !isOpen(name)).map(({ name }) => name);
  const mapping = proposal(open, ours, known, query.chosen);

  const files: FileEdits[] = [];
  if (query.handset !== undefined) {
    const edits = useEdits(before, query.handset, workspace);
    if (typeof edits === "string") return refused(edits);
    files.push({ file: before.file, edits });
  }
  for (const script of scripts) {
    const edits = renameEdits(script, mapping);
    for (const { range } of edits) {
      const why = whyNotWritable(workspace, script, range.start.line);
      if (why) return refused(why);
    }
    const own = files.find((each) => each.file === script.file);
    if (own) files[files.indexOf(own)] = { ...own, edits: [...own.edits, ...edits] };
    else files.push({ file: script.file, edits });
  }
  return {
    kind: "mapping",
    craft: craft.name,
    handset: craft.handset.name,
    rows: open.map((from) => mappingRow(from, mapping, ours, craft.handset!.name, query.chosen)),
    layers: layersNaming(before, craft, isOpen, workspace),
    files: files.filter(({ edits }) => edits.length > 0),
  };
}

/** The controls for which conditions may have been written: of the handset that is replaced, and of any other in use. */
function controlsBefore(craft: Craft, isReplaced: boolean, workspace: Workspace): ReadonlyMap<string, PlacedControl> {
  const others = otherHandsets(craft, workspace);
  return isReplaced ? new Map([...others, ...specsOf(craft).map((each) => [each.name, each] as const)]) : others;
}

/** The controls that scripts name, in the order of the text. */
function usedBy(scripts: readonly Script[]): UsedControl[] {
  const used = new Map<string, UsedControl>();
  for (const each of scripts.flatMap(controlsUsed)) {
    const known = used.get(each.name);
    const positions = [...new Set([...(known?.positions ?? []), ...each.positions])];
    used.set(each.name, { name: each.name, positions, isPulsed: each.isPulsed || known?.isPulsed === true });
  }
  return [...used.values()];
}

/** The layers of a craft that name an open control. */
function layersNaming(
  before: Craft,
  craft: Craft,
  isOpen: (name: string) => boolean,
  workspace: Workspace,
): Extract<MapControls, { kind: "mapping" }>["layers"] {
  return craft.scripts.flatMap((script) => {
    if (script.file === craft.file || script.kind !== "layer") return [];
    const names = new Set(controlsUsed(script).flatMap(({ name }) => (isOpen(name) ? [name] : [])));
    if (names.size === 0) return [];
    const everything = [...names].map((name) => ({
      by: "left" as const,
      from: name,
      to: `${name}X`,
      positions: new Map(),
    }));
    const lines = new Set(renameEdits(script, everything).map(({ range }) => range.start.line)).size;
    const alsoIn = workspace
      .craftFilesWith(script.file)
      .filter((file) => file !== before.file)
      .map((file) => workspace.script(file)!.name);
    return [{ file: script.file, name: script.name, lines, alsoIn }];
  });
}

function refused(message: string): MapControls {
  return { kind: "refused", message };
}
