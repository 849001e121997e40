/** The layout on another grid: asked for, looked at, and only then written. */
import { useEffect, useState } from "preact/hooks";
import { listed } from "../../shared/draw/words.ts";
import type { GogglesPicture, OsdGesture } from "../../shared/protocol/panel.ts";
import { tell } from "./host.ts";

/** The first two are those of the overlay chip (MAX7456 datasheet, p. 10), the others common practice. */
const usualGrids = [
  { columns: 30, rows: 16, called: "pal" },
  { columns: 30, rows: 13, called: "ntsc" },
  { columns: 50, rows: 18, called: null },
  { columns: 53, rows: 20, called: null },
  { columns: 60, rows: 22, called: null },
] as const;
const mostColumns = 64;
const mostRows = 32;

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
  const show = (grid: { readonly columns: number; readonly rows: number }) => {
    setColumns(grid.columns);
    setRows(grid.rows);
    tell({ kind: "preview", grid: { columns: grid.columns, rows: grid.rows } });
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
              max={mostColumns}
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
              max={mostRows}
              value={rows}
              onInput={({ currentTarget }) => setRows(currentTarget.valueAsNumber)}
            />
          </label>
          <button type="submit">Preview</button>
        </form>
        <fieldset class="tools" aria-label="Usual grids">
          {usualGrids.map((grid) => (
            <button type="button" key={`${grid.columns} ${grid.rows}`} onClick={() => show(grid)}>
              {grid.columns} × {grid.rows}
              {grid.called && ` ${grid.called}`}
            </button>
          ))}
        </fieldset>
      </details>
    </>
  );
}
