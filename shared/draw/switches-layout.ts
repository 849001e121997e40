/**
 * Where the cards of the controls stand: as the controls lie in the hands, the left hand's at the left and the right
 * hand's at the right, shoulders above faces. Controls of which nothing is said follow below, in the script's order.
 */
import type { PanelControl } from "../protocol/panel.ts";
import { node, path, rounded, type SceneNode } from "./scene.ts";
import { capital, whereInScript } from "./words.ts";
import { text, textWidth } from "./writing.ts";

/** The room for the cards, in the drawing's units. */
export interface CardRoom {
  readonly top: number;
  readonly width: number;
  /** The least width of a card, so that no name leaves it, and the most. */
  readonly narrowest: number;
  readonly widest: number;
}

/** Draws the cards of one row, all as tall as the tallest; gives the row's height. */
export type DrawRow = (row: readonly PlacedCard[]) => { readonly height: number; readonly nodes: readonly SceneNode[] };

export interface PlacedCard {
  readonly control: PanelControl;
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

/** Between two cards, and between those of two hands where there is room for it. */
export const GAP = 10;
const HANDS_GAP = 26;
const CAPTION_HEIGHT = 20;
const CAPTION_SIZE = 12;

type Side = NonNullable<PanelControl["lies"]>["side"];
type Face = NonNullable<PanelControl["lies"]>["face"];
/** Both in the order in which they are drawn and read. */
const SIDES: readonly Side[] = ["left", "middle", "right"];
const FACES: readonly Face[] = ["shoulder", null, "face", "back"];

/** Controls of one place, in the script's order; `place` is null for those of which nothing is said. */
interface Group {
  readonly place: NonNullable<PanelControl["lies"]> | null;
  readonly controls: readonly PanelControl[];
}

/** A stretch of columns of cards side by side. */
interface Zone {
  readonly x: number;
  readonly columns: number;
}

/** All cards, with a name above those of each place; without any place, the cards alone in the script's order. */
export function layOutCards(
  controls: readonly PanelControl[],
  room: CardRoom,
  drawRow: DrawRow,
): { readonly bottom: number; readonly nodes: readonly SceneNode[] } {
  const sides = SIDES.filter((side) => controls.some(({ lies }) => lies?.side === side));
  const split = columnsOfSides(controls, sides, room, HANDS_GAP) ?? columnsOfSides(controls, sides, room, GAP);
  const all = split ? [...split.columns.values()].reduce((sum, each) => sum + each, 0) : 0;
  const gaps = split ? split.handsGap - GAP : 0;
  // One place after the other: no more columns than the fullest place has cards, so that none stays half empty.
  const fullest = Math.max(1, ...placesOf(controls).map((members) => members.length));
  const flowColumns = Math.max(1, Math.min(fullest, Math.floor((room.width + GAP) / (room.narrowest + GAP))));
  const columns = split ? all : flowColumns;
  const between = GAP * (columns - 1) + gaps * (split ? split.columns.size - 1 : 0);
  const widest = columns === 1 ? room.width : Math.max(room.widest, room.narrowest);
  const cardWidth = Math.min(widest, (room.width - between) / columns);
  const whole: Zone = { x: 0, columns: Math.max(1, Math.floor((room.width + GAP + 0.5) / (cardWidth + GAP))) };

  const clusterWidth = columns * cardWidth + between;

  const nodes: SceneNode[] = [];
  /** Draws a group in a zone from `y` on; gives the y below it. */
  const drawGroup = ({ place, controls: members }: Group, zone: Zone, from: number): number => {
    if (members.length === 0) return from;
    const drawn: SceneNode[] = [];
    let y = from;
    if (sides.length > 0) {
      drawn.push(...caption(place, zone.x + 1, y, (zone === whole ? clusterWidth : zoneWidth(zone, cardWidth)) - 2));
      y += CAPTION_HEIGHT;
    }
    for (let first = 0; first < members.length; first += zone.columns) {
      const cards = members.slice(first, first + zone.columns);
      // What lies between the hands is drawn between them, also below.
      const isBetween = split !== null && zone === whole && place?.side === "middle";
      const left = isBetween
        ? Math.max(0, (clusterWidth - zoneWidth({ x: 0, columns: cards.length }, cardWidth)) / 2)
        : 0;
      const row = cards.map((control, index): PlacedCard => {
        return { control, x: zone.x + left + index * (cardWidth + GAP) + 1, y, width: cardWidth - 2 };
      });
      const { height, nodes: drawnRow } = drawRow(row);
      drawn.push(...drawnRow);
      y += height + GAP;
    }
    if (sides.length === 0) nodes.push(...drawn);
    else nodes.push(node("g", { class: "place", "data-place": nameOf(place) }, drawn));
    return y;
  };

  const groupsOf = (side: Side) => FACES.map((face) => groupAt(controls, side, face));
  let y = room.top;
  if (split) {
    const zones = zonesOf(split, cardWidth);
    for (const face of FACES) {
      const tops = [...zones].map(([side, zone]) => drawGroup(groupAt(controls, side, face), zone, y));
      y = Math.max(y, ...tops);
      for (const side of split.below) y = drawGroup(groupAt(controls, side, face), whole, y);
    }
  } else for (const group of sides.flatMap(groupsOf)) y = drawGroup(group, whole, y);
  y = drawGroup({ place: null, controls: controls.filter(({ lies }) => !lies) }, whole, y);
  return { bottom: y - GAP, nodes };
}

function groupAt(controls: readonly PanelControl[], side: Side, face: Face): Group {
  return {
    place: { side, face },
    controls: controls.filter(({ lies }) => lies?.side === side && lies.face === face),
  };
}

/** The controls place by place; those of which nothing is said are one place. */
function placesOf(controls: readonly PanelControl[]): readonly (readonly PanelControl[])[] {
  const placed = SIDES.flatMap((side) => FACES.map((face) => groupAt(controls, side, face).controls));
  return [...placed, controls.filter(({ lies }) => !lies)];
}

interface Split {
  /** The number of columns of each side that stands beside another. */
  readonly columns: ReadonlyMap<Side, number>;
  /** Sides that stand below them for lack of room. */
  readonly below: readonly Side[];
  /** Between two sides. */
  readonly handsGap: number;
}

/** How the width is divided among the sides; null where two of them cannot stand side by side. */
function columnsOfSides(
  controls: readonly PanelControl[],
  sides: readonly Side[],
  room: CardRoom,
  handsGap: number,
): Split | null {
  if (sides.length === 0) return null;
  const wanted = (side: Side) => Math.max(...FACES.map((face) => groupAt(controls, side, face).controls.length));
  const fits = (counts: ReadonlyMap<Side, number>) => {
    const columns = [...counts.values()].reduce((sum, each) => sum + each, 0);
    const gaps = GAP * (columns - 1) + (handsGap - GAP) * (counts.size - 1);
    return columns * room.narrowest + gaps <= room.width;
  };
  for (const beside of [sides, sides.filter((side) => side !== "middle")]) {
    if (beside.length < Math.min(2, sides.length)) continue;
    const counts = new Map(beside.map((side) => [side, wanted(side)]));
    for (;;) {
      if (fits(counts)) return { columns: counts, below: sides.filter((side) => !counts.has(side)), handsGap };
      // The widest gives way first; of two alike, the one that stands further to the right.
      const [side, columns] = [...counts].reduce((most, each) => (each[1] >= most[1] ? each : most));
      if (columns === 1) break;
      counts.set(side, columns - 1);
    }
  }
  return null;
}

function zonesOf({ columns, handsGap }: Split, cardWidth: number): ReadonlyMap<Side, Zone> {
  let x = 0;
  return new Map(
    [...columns].map(([side, count]) => {
      const zone = { x, columns: count };
      x += zoneWidth(zone, cardWidth) + handsGap;
      return [side, zone];
    }),
  );
}

function zoneWidth({ columns }: Zone, cardWidth: number): number {
  return columns * cardWidth + (columns - 1) * GAP;
}

function nameOf(place: Group["place"]): string {
  return place ? capital(whereInScript(place)) : "Place not said";
}

/** The name of a place, and a line from it to the end of its cards. */
function caption(place: Group["place"], x: number, y: number, width: number): SceneNode[] {
  const words = nameOf(place);
  const from = x + textWidth(words, CAPTION_SIZE) + 8;
  const middle = y + CAPTION_HEIGHT / 2 - 1;
  const line = path("place-line", `M${rounded(from)} ${rounded(middle)}H${rounded(x + width)}`);
  return [text("small place-name", x, middle + 4, CAPTION_SIZE, words), ...(from < x + width - 8 ? [line] : [])];
}
