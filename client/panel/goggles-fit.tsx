/** The layout on another grid: requested, previewed, and only then written. */
import { useEffect, useState } from "preact/hooks";
import { type Grid, LARGEST_GRID, sameGrid, USUAL_GRIDS } from "../../shared/protocol/osd.ts";
import type { OsdGesture } from "../../shared/protocol/osd-edit.ts";
import type { FitPreview, GogglesPicture } from "../../shared/protocol/panel.ts";
import { joinWithAnd } from "../../shared/text/list.ts";
import { postToHost } from "./host.ts";

interface Props {
  readonly picture: GogglesPicture;
  readonly apply: (gesture: OsdGesture) => void;
}

/** The preview of the layout on the requested grid, and the form that requests one. */
export function FitTool({ picture, apply }: Props) {
  const { preview } = picture;
  return (
    <>
      {preview && <Preview preview={preview} apply={apply} />}
      <details open={preview !== null}>
        <summary>Fit to another grid…</summary>
        <GridForm columns={picture.columns} rows={picture.rows} viewerGrid={picture.viewerGrid} />
      </details>
    </>
  );
}

function Preview({ preview, apply }: { readonly preview: FitPreview; readonly apply: Props["apply"] }) {
  const { columns, rows, unplaced } = preview;
  return (
    <div class="preview">
      <p role="status">
        Preview on {columns} by {rows} cells.{" "}
        {unplaced.length === 0 ? "Every element has a place." : `There is no room for ${joinWithAnd(unplaced)}.`}
      </p>
      <div class="tools">
        <button type="button" class="first" onClick={() => apply({ kind: "fit", columns, rows })}>
          Apply
        </button>
        <button type="button" onClick={() => postToHost({ kind: "preview", grid: null })}>
          Back
        </button>
      </div>
    </div>
  );
}

interface GridFormProps extends Grid {
  readonly viewerGrid: Grid | null;
}

/** The form starts with the current grid, and is reset to it when another craft is drawn. */
function GridForm({ viewerGrid, ...now }: GridFormProps) {
  const [columns, setColumns] = useState(now.columns);
  const [rows, setRows] = useState(now.rows);
  useEffect(() => {
    setColumns(now.columns);
    setRows(now.rows);
  }, [now.columns, now.rows]);
  const show = (grid: Grid) => {
    setColumns(grid.columns);
    setRows(grid.rows);
    postToHost({ kind: "preview", grid });
  };
  const onSubmit = (event: Event) => {
    event.preventDefault();
    show({ columns, rows });
  };
  return (
    <>
      {viewerGrid && !sameGrid(viewerGrid, now) && (
        <p class="tools">
          <button type="button" class="first" onClick={() => show(viewerGrid)}>
            The viewer's own, {viewerGrid.columns} × {viewerGrid.rows}
          </button>
        </p>
      )}
      <form class="tools fit" aria-label="Another size" onSubmit={onSubmit}>
        <Count name="Columns" most={LARGEST_GRID.columns} value={columns} take={setColumns} />
        <Count name="Rows" most={LARGEST_GRID.rows} value={rows} take={setRows} />
        <button type="submit">Preview</button>
      </form>
      <fieldset class="tools" aria-label="Sizes in use">
        {USUAL_GRIDS.map((grid) => (
          <button type="button" key={`${grid.columns} ${grid.rows}`} onClick={() => show(grid)}>
            {grid.columns} × {grid.rows}
          </button>
        ))}
      </fieldset>
    </>
  );
}

interface CountProps {
  readonly name: string;
  readonly most: number;
  readonly value: number;
  readonly take: (value: number) => void;
}

function Count({ name, most, value, take }: CountProps) {
  return (
    <label>
      {name}{" "}
      <input
        type="number"
        required
        min={1}
        max={most}
        value={value}
        onInput={({ currentTarget }) => take(currentTarget.valueAsNumber)}
      />
    </label>
  );
}
