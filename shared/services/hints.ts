/** Small figures beside the script's own: pulses, pack volts, cells. */
import type { Craft } from "../model/craft.ts";
import type { Entry, Script } from "../model/script.ts";
import type { Workspace } from "../model/workspace.ts";
import { gridOf, resolveAxis, sizeOf } from "../osd/layout.ts";
import type { Position, Range } from "../syntax/span.ts";
import type { Quantity, Value } from "../syntax/value.ts";
import { craftFor } from "./standing.ts";

export interface InlayHint {
  /** The figure stands behind this place. */
  readonly at: Position;
  readonly label: string;
  readonly tooltip: string;
}

/** The hints of the lines of a range, as the effective craft has it. */
export function hintsOf(workspace: Workspace, file: string, range: Range): InlayHint[] {
  const script = workspace.script(file);
  const craft = script && craftFor(workspace, file);
  if (!script || !craft) return [];
  return script.entries
    .filter((entry) => entry.line >= range.start.line && entry.line <= range.end.line)
    .flatMap((entry) => hintsOfEntry(workspace, craft, script, entry));
}

function hintsOfEntry(workspace: Workspace, craft: Craft, script: Script, entry: Entry): InlayHint[] {
  const hint = (character: number, label: string, tooltip: string): InlayHint => ({
    at: { line: entry.line, character },
    label,
    tooltip,
  });
  const { value } = entry;
  if (entry.kind === "mode" || entry.kind === "output") {
    const { text } = script.tree.lines[entry.line]!;
    return entry.pieces.flatMap((piece) => {
      if (piece.kind !== "position" || piece.of === undefined) return [];
      const control = craft.controls.get(piece.of)?.value;
      const position = control?.positions.find((each) => each.name === text.slice(piece.start, piece.end));
      return position && control
        ? [
            hint(
              piece.end,
              `${position.pulseUs} us`,
              `${piece.of} at “${position.name}” sends this pulse on ch${control.channel}`,
            ),
          ]
        : [];
    });
  }
  if (entry.kind === "element" && value?.kind === "cell") {
    const grid = gridOf(craft);
    const element = workspace.catalogue.element(entry.name);
    if (!grid || !element || (value.column.anchor === null && value.row.anchor === null)) return [];
    const size = sizeOf(element, craft);
    const column = resolveAxis(value.column, grid.columns, size.width);
    const row = resolveAxis(value.row, grid.rows, size.height);
    return [
      hint(
        value.end,
        `= ${column}, ${row}`,
        `Column and row of its first cell on this grid of ${grid.columns} x ${grid.rows}, counted from 0`,
      ),
    ];
  }
  const cells = entry.kind === "setting" && value ? cellsOf(craft, entry.section) : null;
  if (cells === null || !value) return [];
  return perCell(value).map(({ number, end }) =>
    hint(
      end,
      `= ${Number((number * cells).toFixed(2))} V`,
      `The whole pack, with ${cells} ${cells === 1 ? "cell" : "cells"} in series`,
    ),
  );
}

/** The cell count of the pack that a section speaks of; null where it is not said as a number. */
function cellsOf(craft: Craft, section: string): number | null {
  const own = craft.settings.get(section)?.get("cells") ?? craft.settings.get("pack")?.get("cells");
  return own?.value?.kind === "integer" ? own.value.number : null;
}

function perCell(value: Value): Quantity[] {
  if (value.kind === "quantity") return value.unit === "V/cell" ? [value] : [];
  if (value.kind === "range") return [value.from, value.to].filter((each) => each.unit === "V/cell");
  return [];
}
