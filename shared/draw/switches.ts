/** The handset's controls, each with its positions and what each turns on. */
import type { ControlAgainst, SwitchesAgainst } from "../protocol/against.ts";
import type { PanelControl, SwitchesPicture } from "../protocol/panel.ts";
import { statesInWords } from "./against-words.ts";
import type { Card, CardPlace } from "./card.ts";
import { drawBesides } from "./changes.ts";
import { dialNeeds, drawDial } from "./dial.ts";
import { drawRocker, rockerNeeds } from "./rocker.ts";
import { node, rect, type SceneNode } from "./scene.ts";
import { GAP, layOutCards, type PlacedCard } from "./switches-layout.ts";
import { stateInWords } from "./words.ts";
import { lineHeight, text, textLines, textWidth, wrappedBold } from "./writing.ts";

export interface SwitchesOptions {
  /** The width available, in the drawing's own units; controls wrap within it. */
  readonly width?: number;
  /** `none` if the state's words are shown elsewhere. */
  readonly words?: "above" | "none";
  /** Marks every position that can turn on this mode. */
  readonly mode?: string | null;
  /** `left out` for a handset by itself, of which no craft says anything. */
  readonly uses?: "left out";
  /** What differs on the other side of a comparison: it is marked, and controls that are only there are drawn too. */
  readonly against?: SwitchesAgainst | null | undefined;
}

const NARROWEST_CARD = 124;
const WIDEST_CARD = 210;
const PADDING = 10;
const HEAD_HEIGHT = 40;

/** All controls as one SVG, laid out as the hands find them, in as many columns as the width allows. */
export function drawSwitches(picture: SwitchesPicture, options: SwitchesOptions = {}): SceneNode {
  const { against = null } = options;
  const onlyThere = against?.controls.flatMap(({ has, there }) => (has === "only there" && there ? [there] : [])) ?? [];
  const controls = [...picture.controls, ...onlyThere];
  const needs = controls.map((one) => {
    const other = againstOf(one, against);
    return Math.max(
      headNeeds(one),
      one.kind === "dial" ? dialNeeds(one, picture.state, other) : rockerNeeds(one, other),
    );
  });
  const narrowest = Math.max(NARROWEST_CARD, Math.ceil(Math.max(0, ...needs)) + 2 * PADDING + 2);
  const width = Math.max(narrowest, options.width ?? 640);
  const words = against ? statesInWords(picture.state, against.state).join(" ") : stateInWords(picture.state);
  const stateLines = options.words === "none" ? [] : wrappedBold(words, width, 15);
  const above = textLines("state-words", 0, 15, 15, stateLines);
  const top = stateLines.length > 0 ? 32 + (stateLines.length - 1) * lineHeight(15) : 1;
  const room = { top, width, narrowest, widest: WIDEST_CARD };
  const { bottom, nodes } = layOutCards(controls, room, (row) => drawRow(row, picture, options));
  const height = Math.max(1, bottom + 1);
  return node("svg", { viewBox: `0 0 ${Math.round(width)} ${Math.ceil(height)}`, class: "switches" }, [
    ...above,
    ...nodes,
  ]);
}

function drawRow(row: readonly PlacedCard[], { state }: SwitchesPicture, options: SwitchesOptions): Card {
  const { mode = null, uses = "said", against = null } = options;
  const drawn = row.map(({ control, x, y, width }) => {
    const other = againstOf(control, against);
    const own = against && other?.has === "only there" ? against.state : state;
    const place: CardPlace = { x, y, width, state: own, mode, uses, against: other };
    return { control, place, ...drawControl(control, place) };
  });
  const height = Math.max(...drawn.map((card) => card.height));
  const nodes = drawn.map(({ control, place: { x, y, width, against: other }, nodes }) => {
    const frame = rect("card", { x, y, width, height }, 6);
    const onlyThere = other?.has === "only there";
    const className = onlyThere ? "control elsewhere" : "control";
    return node("g", { class: className, "data-control": onlyThere ? null : control.name }, [frame, ...nodes]);
  });
  return { height, nodes };
}

/** The width that a control's name and the text right of it need. */
function headNeeds(control: PanelControl): number {
  return textWidth(control.name, 15) + GAP + textWidth(kindInWords(control), 11);
}

function kindInWords({ kind, channel }: PanelControl): string {
  return `${kind}, ch${channel}`;
}

function drawControl(control: PanelControl, place: CardPlace): Card {
  const head = node("g", { class: "head", "data-line": control.at.line, "data-head": control.name }, [
    rect("plate", { x: place.x + 3, y: place.y + 3, width: place.width - 6, height: HEAD_HEIGHT - 8 }, 4),
    text("control-name", place.x + PADDING, place.y + 21, 15, control.name),
    text("small", place.x + place.width - PADDING, place.y + 20, 11, kindInWords(control), "end"),
  ]);
  const inner = { ...place, x: place.x + PADDING, y: place.y + HEAD_HEIGHT, width: place.width - 2 * PADDING };
  const { height, nodes } = control.kind === "dial" ? drawDial(control, inner) : drawRocker(control, inner);
  const besides = drawBesides(place.against, inner.x, inner.y + height + 4, inner.width);
  return {
    height: HEAD_HEIGHT + height + besides.height + PADDING,
    nodes: [head, node("g", { class: "ways", "data-ways": control.name }, nodes), ...besides.nodes],
  };
}

function againstOf({ name }: PanelControl, against: SwitchesAgainst | null): ControlAgainst | null {
  return against?.controls.find((each) => each.name === name) ?? null;
}
