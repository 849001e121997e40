/** Gestures on the picture of the OSD, as edits of the scripts. */
import type { CellBox } from "../../draw/moving.ts";
import type { Placed } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { gridOf, sizeOf } from "../../osd/layout.ts";
import type { OsdGesture, WriteWhere } from "../../protocol/osd-edit.ts";
import type { OsdPage } from "../../protocol/panel.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { pickedCraft } from "../context/picked-craft.ts";
import { addElement } from "./osd-add.ts";
import { beginPage } from "./osd-begin.ts";
import { fitToGrid } from "./osd-fit-edit.ts";
import { MOST_CELLS_A_SIDE, movedPlace } from "./osd-place.ts";
import { type OsdEdit, type OsdEditScope, refusal, scriptOfSource, sharedLineQuestion, writeAll } from "./osd-write.ts";
import { deleteLines, lineForDrop, linesOfNote, newerEdition, whyNotWritable, writeDrop } from "./script-edits.ts";

export type { FileEdits, OsdEdit } from "./osd-write.ts";

export interface OsdEditQuery {
  /** Of several craft that use the file, the one that was drawn. */
  readonly craft?: string | undefined;
  readonly page: OsdPage;
  readonly gesture: OsdGesture;
  /** Null: not chosen yet. For lines that other craft use too the result is then a question. */
  readonly where: WriteWhere | null;
}

/**
 * The edits for a gesture. A line in the craft's own file is changed there. For a line of a layer `where`
 * decides: `there` changes the layer, `override` writes into the craft; without it the result is a question.
 * The result has all edits, or the reason why there are none. A move to the element's current cell
 * gives no edits.
 */
export function osdEditOf(workspace: Workspace, file: string, query: OsdEditQuery): OsdEdit {
  const craft = pickedCraft(workspace, file, query.craft);
  if (!craft) return refusal("No craft of this workspace has this layout, so there is nothing to change.");
  if (craft.script.tree.newer) return refusal(newerEdition(craft.script));
  const { gesture } = query;
  if (gesture.kind === "begin")
    return beginPage({ workspace, craft, file, page: query.page, where: query.where }, gesture.from);
  const grid = gridOf(craft);
  if (!grid)
    return refusal(
      "The OSD has no grid, so no cell is known: say how many columns and rows there are, as in “grid 53 x 20”.",
    );
  const placed = query.page === "osd" ? craft.osd : craft.osdSecond;
  const scope: OsdEditScope = { workspace, craft, file, grid, page: query.page, placed, where: query.where };
  if (gesture.kind === "fit") return fitToGrid(scope, gesture);
  const element = workspace.catalogue.element(gesture.element);
  if (!element) return refusal(`There is no element “${gesture.element}”: the display cannot show it.`);
  const there = placed.get(gesture.element);
  if (gesture.kind === "remove") return there ? removeElement(scope, there) : notPlaced(gesture.element);
  if (![gesture.column, gesture.row].every((cell) => Number.isInteger(cell) && Math.abs(cell) <= MOST_CELLS_A_SIDE))
    return refusal(
      `${gesture.element} can only stand in whole cells, and no grid has more than ${MOST_CELLS_A_SIDE} a side.`,
    );
  const box: CellBox = { column: gesture.column, row: gesture.row, ...sizeOf(element, craft) };
  if (gesture.kind === "move") return there ? moveElement(scope, there, box) : notPlaced(gesture.element);
  return there
    ? refusal(
        `${gesture.element} stands on this page already, by line ${there.source.line + 1} of “${scriptOfSource(scope, there.source).name}”.`,
      )
    : addElement(scope, gesture.element, box);
}

function notPlaced(element: string): OsdEdit {
  return refusal(`${element} does not stand on this page (any more): the script says nothing of it.`);
}

function moveElement(scope: OsdEditScope, { name, source, value }: Placed, to: CellBox): OsdEdit {
  const script = scriptOfSource(scope, source);
  if (value?.kind !== "cell")
    return refusal(`Line ${source.line + 1} of “${script.name}” cannot be read: mend it, then move ${name}.`);
  const line = { number: source.line, text: script.tree.lines[source.line]!.text };
  const edits = movedPlace(line, value, to, scope.grid);
  if ("why" in edits) return refusal(`${name} cannot be moved there: ${edits.why}.`);
  return writeAll(scope, [{ source, section: scope.page, edits }]);
}

/**
 * Removes an element from the page: its lines are deleted, with their notes, from the file that places it last.
 * Where an earlier file would then place it, the last line is replaced with a `drop`.
 */
function removeElement(scope: OsdEditScope, { name, source }: Placed): OsdEdit {
  const { workspace, craft, page, where } = scope;
  const question = sharedLineQuestion(scope, [source]);
  if (question) return question;
  const script = where === "override" ? craft.script : scriptOfSource(scope, source);
  const lines = script.entries.filter((each) => each.section === page && each.name === name).map(({ line }) => line);
  const why = [...lines, ...(lines.length === 0 ? [lineForDrop(script, page)] : [])]
    .map((line) => whyNotWritable(workspace, script, line))
    .find((each) => each !== null);
  if (why) return refusal(why);
  if (lines.length === 0) return editsIn(script, [writeDrop(script, page, name)]);
  const notes = lines.flatMap((line) => linesOfNote(script, line));
  const last = lines.at(-1)!;
  if (!showsThrough(scope, script, name)) return editsIn(script, deleteLines(script, [...lines, ...notes]));
  const { text } = script.tree.lines[last]!;
  const start = { line: last, character: text.length - text.trimStart().length };
  const dropped = { range: { start, end: { line: last, character: text.length } }, text: `drop ${name}` };
  return editsIn(script, [...deleteLines(script, [...lines.slice(0, -1), ...notes]), dropped]);
}

/** Whether files before this one place an element that neither they nor this one drop again. */
function showsThrough({ craft, page }: OsdEditScope, script: Script, name: string): boolean {
  const drops = (each: Script) =>
    each.drops.some(({ section, all, names }) => section === page && (all || names.some(({ text }) => text === name)));
  let isPlaced = false;
  for (const each of craft.scripts) {
    if (drops(each)) isPlaced = false;
    if (each.file === script.file) break;
    if (each.entries.some((entry) => entry.section === page && entry.name === name)) isPlaced = true;
  }
  return isPlaced;
}

function editsIn({ file }: Script, edits: readonly TextEdit[]): OsdEdit {
  return { kind: "edits", files: [{ file, edits }] };
}
