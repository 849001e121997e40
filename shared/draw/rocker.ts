/** A switch, selector or button: a vertical rocker with its positions one below the other. */
import type { ControlAgainst } from "../protocol/against.ts";
import type { PanelControl } from "../protocol/panel.ts";
import { type Card, type CardPlace, wayClass } from "./card.ts";
import { changesNeed, drawChange } from "./changes.ts";
import { modesHere, notesOfControl, standsAt, useOf } from "./control-words.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { drawModes, drawNotes, modesNeed } from "./way-modes.ts";
import { lineHeight, text, textWidth } from "./writing.ts";

const ROCKER_WIDTH = 26;
const TEXT_GAP = 10;
const NAME_SIZE = 13;
/** The least height of a position; less where nothing depends on the control. */
const HEIGHT = 38;
const UNUSED_HEIGHT = 24;

/** The width that a rocker and the longest text beside it need, so that no name leaves its card. */
export function rockerNeeds({ positions, rest }: PanelControl, against: ControlAgainst | null): number {
  const names = positions.map(({ name }) => textWidth(labelOf(name, rest), NAME_SIZE));
  const modes = positions.map((position) => modesNeed(position.modes));
  return ROCKER_WIDTH + TEXT_GAP + Math.max(changesNeed(against), ...names, ...modes);
}

function labelOf(name: string, rest: string | null): string {
  return name === rest && name !== "rest" ? `${name} · rest` : name;
}

/** The positions from top to bottom in the script's order; the current one is filled. */
export function drawRocker(control: PanelControl, place: CardPlace): Card {
  const { x, y, width, state, mode, uses, against } = place;
  const isUsed = useOf(control, state) === "used";
  const textLeft = x + ROCKER_WIDTH + TEXT_GAP;
  let top = y + 3;
  const nodes: SceneNode[] = [];
  for (const position of control.positions) {
    const { name, modes } = position;
    const stands = standsAt(control, position, state.positions);
    const namesTop = top + 6 + lineHeight(NAME_SIZE);
    const shown = isUsed
      ? drawModes(modesHere(modes, stands, state), textLeft, namesTop, width - ROCKER_WIDTH - TEXT_GAP)
      : { height: 0, nodes: [] };
    const change = against?.positions.find((each) => each.name === name);
    const changed = change ? drawChange(change, textLeft, namesTop + shown.height + 1) : { height: 0, nodes: [] };
    const height = Math.max(isUsed ? HEIGHT : UNUSED_HEIGHT, namesTop + shown.height + changed.height - top);
    const plate = { x, y: top, width: ROCKER_WIDTH, height: height - 2 };
    nodes.push(
      node("g", { class: wayClass(stands, modes, mode), "data-control": control.name, "data-set": name }, [
        rect("reach", { x: x - 5, y: top - 1, width: width + 10, height }, 4),
        rect("key", plate, 5),
        ...(stands === "here" ? [path("grip", grip(x, top + plate.height / 2))] : []),
        text("way-name", textLeft, top + 15, NAME_SIZE, labelOf(name, control.rest)),
        ...shown.nodes,
        ...changed.nodes,
      ]),
    );
    top += height;
  }
  const body = rect("rocker", { x: x - 3, y: y, width: ROCKER_WIDTH + 6, height: top - y + 1 }, 8);
  const said = uses === "said" ? notesOfControl(control, state).after : [];
  const notes = drawNotes(said, x - 3, top + 1, width + 3);
  return { height: top - y + 1 + notes.height, nodes: [body, ...nodes, ...notes.nodes] };
}

/** Three ridges across the key. */
function grip(x: number, middleY: number): string {
  const ridge = (y: number) => `M${rounded(x + 7)} ${rounded(y)}h${ROCKER_WIDTH - 14}`;
  return [-5, 0, 5].map((offset) => ridge(middleY + offset)).join("");
}
