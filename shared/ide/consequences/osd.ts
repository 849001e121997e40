/** Consequences for the OSD: the cells of an element, and the safe area of a grid. */
import { gridOf, resolveAxis, sizeOf } from "../../osd/layout.ts";
import { contains, isAnalogue, pictureOf, SAFE_SHARE, safeCellsOf } from "../../osd/safe-area.ts";
import { type ConsequenceProvider, type ConsequenceProviders, consequence } from "./provider.ts";

/** The cells that an element takes on the effective grid. */
export const placeProvider: ConsequenceProvider = ({ craft, catalogue, section, name, value }) => {
  const grid = gridOf(craft);
  const element = catalogue.element(name);
  if (value.kind !== "cell" || !grid || !element) return [];
  const { width, height } = sizeOf(element, craft);
  const left = resolveAxis(value.column, grid.columns, width);
  const top = resolveAxis(value.row, grid.rows, height);
  const area = { left, top, right: left + width - 1, bottom: top + height - 1 };
  const from = [`${section}.${name}`, "osd.grid"];
  const cells = `${cellRange("column", left, area.right)}, ${cellRange("row", top, area.bottom)} of ${grid.columns} x ${grid.rows}, counted from 0`;
  const anchored = value.column.anchor !== null || value.row.anchor !== null;
  const sentences = consequence(`Its widest text takes ${cells}`, from, anchored ? `= ${left}, ${top}` : undefined);
  if (!isAnalogue(craft)) return sentences;
  const safe = contains(safeCellsOf(craft, grid), area);
  return [
    ...sentences,
    ...consequence(
      `That lies ${safe ? "within" : "outside"} the ${SAFE_SHARE[pictureOf(craft)] * 100} % of a ${pictureOf(craft)} picture that every screen shows`,
      [...from, "osd.picture", "video.signal"],
    ),
  ];
};

function cellRange(what: string, first: number, last: number): string {
  return first === last ? `${what} ${first}` : `${what}s ${first} to ${last}`;
}

const grid: ConsequenceProvider = (subject) => {
  const found = gridOf(subject.craft);
  if (!found) return [];
  const { columns, rows } = found;
  return [
    ...consequence(`${columns * rows} cells: columns 0 to ${columns - 1}, rows 0 to ${rows - 1}`, ["osd.grid"]),
    ...safe(subject),
  ];
};

/** The safe area; only an analogue picture may lose its edges. */
const safe: ConsequenceProvider = ({ craft }) => {
  const found = gridOf(craft);
  if (!found || !isAnalogue(craft)) return [];
  const { left, right, top, bottom } = safeCellsOf(craft, found);
  const picture = pictureOf(craft);
  return consequence(
    `Every screen shows columns ${left} to ${right} and rows ${top} to ${bottom}: the middle ${SAFE_SHARE[picture] * 100} % of a ${picture} picture`,
    ["osd.grid", "osd.picture", "video.signal"],
  );
};

export const osdProviders: ConsequenceProviders = { grid, picture: safe };
