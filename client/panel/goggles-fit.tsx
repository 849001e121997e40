/** The layout on another grid: asked for, looked at, and only then written. */
import { useEffect, useState } from "preact/hooks";
import { listed } from "../../shared/draw/words.ts";
import { type Grid, LARGEST_GRID, USUAL_GRIDS } from "../../shared/protocol/osd.ts";
import type { GogglesPicture, OsdGesture } from "../../shared/protocol/panel.ts";
import { tell } from "./host.ts";

interface Props {
  readonly picture: GogglesPicture;
  readonly apply: (gesture: OsdGesture) => void;
}

export function FitTool({ picture, apply }: Props) {
  const { preview } = picture;
  const [columns, setColumns] = useState(picture.columns);
  const [rows, setRows] = useState(picture.rows);
  // What stands there to begin with is the grid that there is, also of the next craft.
  useEffect(() => {
    setColumns(picture.columns);
    setRows(picture.rows);
  }, [picture.columns, picture.rows]);
  const show = (grid: Grid) => {
    setColumns(grid.columns);
    setRows(grid.rows);
    tell({ kind: "preview", grid });
  };
  return (
    <>
      {preview && (
        <div class="preview">
          <p role="status">
            Preview on {preview.columns} by {preview.rows} cells.{" "}
            {preview.unplaced.length === 0
              ? "Every element has a place."
              : `There is no room for ${listed(preview.unplaced)}.`}
          </p>
          <div class="tools">
            <button
              type="button"
              class="first"
              onClick={() => apply({ kind: "fit", columns: preview.columns, rows: preview.rows })}
            >
              Apply
            </button>
            <button type="button" onClick={() => tell({ kind: "preview", grid: null })}>
              Back
            </button>
          </div>
        </div>
      )}
      <details open={preview !== null}>
        <summary>Fit to another grid…</summary>
        <form
          class="tools fit"
          onSubmit={(event) => {
            event.preventDefault();
            show({ columns, rows });
          }}
        >
          <label>
            Columns{" "}
            <input
              type="number"
              required
              min={1}
              max={LARGEST_GRID.columns}
              value={columns}
              onInput={({ currentTarget }) => setColumns(currentTarget.valueAsNumber)}
            />
          </label>
          <label>
            Rows{" "}
            <input
              type="number"
              required
              min={1}
              max={LARGEST_GRID.rows}
              value={rows}
              onInput={({ currentTarget }) => setRows(currentTarget.valueAsNumber)}
            />
          </label>
          <button type="submit">Preview</button>
        </form>
        <fieldset class="tools" aria-label="Usual grids">
          {USUAL_GRIDS.map(({ name, grid }) => (
            <button type="button" key={`${grid.columns} ${grid.rows}`} onClick={() => show(grid)}>
              {grid.columns} × {grid.rows}
              {name && ` ${name}`}
            </button>
          ))}
        </fieldset>
      </details>
    </>
  );
}
