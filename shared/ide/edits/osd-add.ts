/** Edits that add an element to the OSD. */
import type { CellBox } from "../../draw/moving.ts";
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { OsdPage } from "../../protocol/panel.ts";
import { anchoredPlace } from "./osd-place.ts";
import { type OsdEdit, type OsdEditScope, refusal } from "./osd-write.ts";
import { appendEntries, lineForEntry, whyNotWritable } from "./script-edits.ts";

/**
 * The line is written in the craft's own file, where it affects no other craft. Where the picture was drawn for a
 * layer that lays out the page, the line is written in that layer, after a question if the element would
 * then appear on other craft too.
 */
export function addElement(scope: OsdEditScope, name: string, box: CellBox): OsdEdit {
  const { workspace, craft, grid, page, where } = scope;
  const layer = layerOf(scope, name);
  if (layer && where === null) {
    const sharedWith = workspace
      .craftsWith(layer.file)
      .filter((other) => other.file !== craft.file && wouldShow(other, layer, page, name))
      .map((other) => other.name);
    if (sharedWith.length > 0) return { kind: "choose", layer: layer.name, sharedWith };
  }
  const script = layer && where !== "override" ? layer : craft.script;
  const why = whyNotWritable(workspace, script, lineForEntry(script, page));
  if (why !== null) return refusal(why);
  const entry = { name, rest: `at ${anchoredPlace(box, grid)}` };
  return {
    kind: "edits",
    files: [{ file: script.file, edits: appendEntries(script, new Map([[page, [entry]]])) }],
  };
}

/** The layer that the picture was drawn for, if it lays out the page and its line would be effective on this craft. */
function layerOf({ craft, file, page }: OsdEditScope, name: string): Script | null {
  const layer = craft.scripts.find((script) => script.file === file && script.kind === "layer");
  const laysOut = layer?.entries.some((entry) => entry.section === page);
  return layer && laysOut && wouldShow(craft, layer, page, name) ? layer : null;
}

/** Whether a layer's line for an element would be effective: no later file of the craft places or drops the element. */
function wouldShow(craft: Craft, layer: Script, page: OsdPage, name: string): boolean {
  const index = craft.scripts.findIndex((script) => script.file === layer.file);
  return craft.scripts
    .slice(index + 1)
    .every(
      ({ entries, drops }) =>
        !entries.some((entry) => entry.section === page && entry.name === name) &&
        !drops.some((drop) => drop.section === page && (drop.all || drop.names.some(({ text }) => text === name))),
    );
}
