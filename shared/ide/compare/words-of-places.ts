/** Places on the OSD in words: how far an element moves, in cells. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft, Placed } from "../../model/craft.ts";
import { layoutOf, placedOn } from "../../osd/layout.ts";
import type { Page, PlacedElement } from "../../osd/placed.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatCount } from "../context/format.ts";
import { faultWords, writtenWithFault } from "./words-of-faults.ts";

/** An element that stands elsewhere, or that one of them lacks. Without one grid for both, places are told as written. */
export function placeWords(page: Page, name: string, before: Craft, after: Craft, catalogue: Catalogue): string {
  const subject = page === "osd" ? name : `${name} of the second page`;
  const [a, b] = [before, after].map((craft) => placedOn(craft, page).get(name));
  if (!a || !b) return b ? `${subject} is new, ${atText(b)}` : `${subject} is gone: it was ${a ? atText(a) : ""}`;
  if (!a.value || !b.value) return `${subject} ${faultWords(a.text, b.text)}`;
  const [from, to] = [before, after].map((craft) => layoutOf(craft, catalogue, page));
  const isOneGrid = from && to && from.grid.columns === to.grid.columns && from.grid.rows === to.grid.rows;
  const [old, now] = [from, to].map((layout) => layout?.elements.find((each) => each.name === name));
  const parts = isOneGrid && old && now ? cellsThatDiffer(old, now) : [];
  return parts.length > 0 ? `${subject} ${joinWithAnd(parts)}` : `${subject} is at ${b.text} in place of ${a.text}`;
}

function atText({ value, text }: Placed): string {
  return value ? `at ${text}` : writtenWithFault(text);
}

function cellsThatDiffer(a: PlacedElement, b: PlacedElement): string[] {
  const moves = [...step(b.column - a.column, "column", "right", "left"), ...step(b.row - a.row, "row", "down", "up")];
  const width = b.width - a.width;
  const wider = width === 0 ? [] : [`is ${formatCount(Math.abs(width), "column")} ${width > 0 ? "wider" : "narrower"}`];
  return [...(moves.length > 0 ? [`moves ${moves.join(", ")}`] : []), ...wider];
}

function step(cells: number, one: string, ahead: string, back: string): string[] {
  return cells === 0 ? [] : [`${formatCount(Math.abs(cells), one)} ${cells > 0 ? ahead : back}`];
}
