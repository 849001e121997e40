/** What the commands of the OSD ask before they do anything. */

import type { QuickPickItem } from "vscode";
import { ThemeIcon } from "vscode";
import { type Grid, LARGEST_GRID, sameGrid, USUAL_GRIDS } from "../../shared/protocol/osd.ts";
import type { OsdBeginnings, OsdModel, OsdSource } from "../../shared/protocol/osd-edit.ts";
import type { AddableElement, GogglesPicture } from "../../shared/protocol/panel.ts";
import { joinWithAnd } from "../../shared/text/list.ts";
import { askText, pickOne } from "./shown-window.ts";

/** Asks for a grid: the viewer's own, one in use, or any size that is typed. Undefined where it was dismissed. */
export async function askGrid(picture: GogglesPicture): Promise<Grid | undefined> {
  const { viewerGrid } = picture;
  const viewer: GridItem[] =
    viewerGrid && !sameGrid(viewerGrid, picture)
      ? [{ label: "The viewer's own", description: sizeText(viewerGrid), grid: viewerGrid }]
      : [];
  const others = USUAL_GRIDS.filter((grid) => !sameGrid(grid, picture)).map(
    (grid): GridItem => ({ label: sizeText(grid), grid }),
  );
  const chosen = await pickOne([...viewer, ...others, { label: "Another size…", grid: null }], {
    title: "Fit the OSD layout to another grid",
    placeHolder: `Now ${sizeText(picture)}. The panel shows first what becomes of it.`,
  });
  if (!chosen?.grid) return chosen && typedGrid();
  return chosen.grid;
}

type GridItem = QuickPickItem & { readonly grid: Grid | null };

function sizeText({ columns, rows }: Grid): string {
  return `${columns} x ${rows}`;
}

async function typedGrid(): Promise<Grid | undefined> {
  const typed = await askText({
    title: "Fit the OSD layout to another grid",
    prompt: "Columns and rows, as in 53 x 20",
    validateInput: (text) =>
      gridIn(text)
        ? undefined
        : `Type columns and rows, as in 53 x 20: up to ${LARGEST_GRID.columns} x ${LARGEST_GRID.rows}.`,
  });
  return typed === undefined ? undefined : (gridIn(typed) ?? undefined);
}

/** The grid that a text names; null if it names none, or one that is too large. */
function gridIn(text: string): Grid | null {
  const found = /^\s*(\d{1,2})\s*[x×*, ]\s*(\d{1,2})\s*$/i.exec(text);
  const grid = found && { columns: Number(found[1]), rows: Number(found[2]) };
  if (!grid || grid.columns < 1 || grid.rows < 1) return null;
  return grid.columns > LARGEST_GRID.columns || grid.rows > LARGEST_GRID.rows ? null : grid;
}

/** Asks from what a page is to begin. Undefined where it was dismissed. */
export async function askBeginning(begin: OsdBeginnings): Promise<OsdSource | undefined> {
  const { page, lacks, grids, layers, crafts } = begin;
  const which = page === "osd" ? "an OSD" : "the second page of the OSD";
  const usual = grids.map(({ columns, rows }, index): SourceItem => {
    const size = sizeText({ columns, rows });
    const isKnown = grids.length === 1;
    return {
      label: lacks === "grid" ? size : `The usual elements, on ${size}`,
      description: isKnown ? "as the viewer draws it" : "",
      detail: index === 0 && lacks === "page" ? "Pack, link, alerts and time along the edges, the middle free." : "",
      from: { kind: "usual", columns, rows },
    };
  });
  const model = (kind: "layer" | "craft") => (each: OsdModel) => ({
    label: kind === "layer" ? `The layer “${each.name}”` : `As on ${each.name}`,
    description: sizeText(each),
    detail: kind === "layer" ? "The craft uses it from then on." : "Copied into this craft's own file.",
    from: { kind, file: each.file },
  });
  const items: SourceItem[] = [...usual, ...layers.map(model("layer")), ...crafts.map(model("craft"))];
  const title = lacks === "grid" ? "Say the grid of the OSD" : `Begin ${which}`;
  const placeHolder = lacks === "grid" ? "Which grid does the viewer draw?" : "What is it to begin with?";
  return (await pickOne(items, { title, placeHolder, matchOnDescription: true }))?.from;
}

type SourceItem = QuickPickItem & { readonly from: OsdSource };

/** Asks for an element that the page does not show yet. Undefined where it was dismissed. */
export async function askElement({ addable, page }: GogglesPicture): Promise<AddableElement | undefined> {
  const items = addable.map((element) => ({
    label: element.name,
    description: needs(element),
    ...(element.lacks.length > 0 && { iconPath: new ThemeIcon("warning") }),
    detail: element.what,
    element,
  }));
  const title = page === "osd" ? "Add an OSD element" : "Add an element to the second page of the OSD";
  const chosen = await pickOne(items, { title, placeHolder: "Name or purpose", matchOnDetail: true });
  return chosen?.element;
}

/** What an element needs that the craft does not have for certain; empty if there is nothing. */
function needs({ lacks, asks }: AddableElement): string {
  if (lacks.length > 0) return `needs ${joinWithAnd(lacks)}, which this craft does not have`;
  return asks.length > 0 ? `needs ${joinWithAnd(asks)}` : "";
}
