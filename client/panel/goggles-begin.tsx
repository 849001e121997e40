/** Begins a page that shows nothing yet: with the usual elements, a layer of the workspace, or the page of another craft. */
import { type Grid, NAMED_GRIDS, sameGrid } from "../../shared/protocol/osd.ts";
import type { OsdBeginnings, OsdGesture, OsdModel, OsdSource } from "../../shared/protocol/osd-edit.ts";
import { postToHost } from "./host.ts";

interface Props {
  readonly begin: OsdBeginnings;
  /** The file of the model. */
  readonly file: string;
}

/** So many layers and craft have a button of their own; the others are in a list of the editor. */
const MOST_LISTED = 3;

/** The buttons; nothing is asked where the viewer's grid is known. */
export function BeginOsd({ begin, file }: Props) {
  const { page, lacks, grids, layers, crafts } = begin;
  const start = (from: OsdSource) => {
    const gesture: OsdGesture = { kind: "begin", from };
    postToHost({ kind: "osd", file, page, gesture });
  };
  const use = (kind: "layer" | "craft") => (model: OsdModel) => ({
    words: kind === "layer" ? `Use the layer “${model.name}”` : `Copy that of ${model.name}`,
    grid: model,
    key: model.file,
    act: () => start({ kind, file: model.file }),
  });
  const others = [...layers.map(use("layer")), ...crafts.map(use("craft"))];
  return (
    <>
      <Grids grids={grids} lacks={lacks} start={(grid) => start({ kind: "usual", ...grid })} />
      {others.length > 0 && (
        <p class="tools">
          {others.slice(0, MOST_LISTED).map(({ words, grid, key, act }) => (
            <button type="button" key={key} onClick={act}>
              {words}, <Size grid={grid} />
            </button>
          ))}
          {others.length > MOST_LISTED && (
            <button type="button" onClick={() => postToHost({ kind: "run", action: { name: "begin-osd", page } })}>
              {others.length - MOST_LISTED} more…
            </button>
          )}
        </p>
      )}
    </>
  );
}

interface GridsProps extends Pick<OsdBeginnings, "grids" | "lacks"> {
  readonly start: (grid: Grid) => void;
}

function Grids({ grids, lacks, start }: GridsProps) {
  const [only] = grids;
  if (only && grids.length === 1) {
    return (
      <p class="tools">
        <button type="button" class="first" onClick={() => start(sizeOf(only))}>
          {lacks === "grid" ? "Say the grid" : "Begin an OSD"}, <Size grid={only} />
        </button>
      </p>
    );
  }
  return (
    <fieldset class="tools">
      <legend>{lacks === "grid" ? "Which grid does the viewer draw?" : "Begin an OSD for a viewer that draws"}</legend>
      {grids.map((grid) => (
        <button type="button" key={`${grid.columns} ${grid.rows}`} onClick={() => start(sizeOf(grid))}>
          <Size grid={grid} />
          {nameOf(grid)}
        </button>
      ))}
    </fieldset>
  );
}

function sizeOf({ columns, rows }: Grid): Grid {
  return { columns, rows };
}

/** A size that no line break divides. */
function Size({ grid: { columns, rows } }: { readonly grid: Grid }) {
  return (
    <span class="whole">
      {columns} × {rows}
    </span>
  );
}

function nameOf(grid: Grid): string {
  const named = Object.entries(NAMED_GRIDS).find(([, each]) => sameGrid(each, grid));
  return named ? `, ${named[0]}` : "";
}
