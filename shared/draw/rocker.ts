/** A switch, selector or button: a vertical rocker with its positions one below the other. */
import type { PanelControl } from "../protocol/panel.ts";
import { type Card, type CardPlace, wayClass } from "./card.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { markedName } from "./words.ts";
import { lineHeight, text, textLines, textWidth, wrapped } from "./writing.ts";

const ROCKER_WIDTH = 26;
const TEXT_GAP = 10;
const NAME_SIZE = 13;
const MODES_SIZE = 12;

/** The width that a rocker and the longest text beside it need, so that no name leaves its card. */
export function rockerNeeds({ positions, rest }: PanelControl): number {
  const names = positions.map(({ name }) => textWidth(labelOf(name, rest), NAME_SIZE));
  const modes = positions.flatMap((position) =>
    position.modes.map((mode) => textWidth(`${markedName(mode)},`, MODES_SIZE)),
  );
  return ROCKER_WIDTH + TEXT_GAP + Math.max(0, ...names, ...modes);
}

function labelOf(name: string, rest: string | null): string {
  return name === rest && name !== "rest" ? `${name} · rest` : name;
}

/** The positions from top to bottom in the script's order; the current one is filled. */
export function drawRocker(control: PanelControl, place: CardPlace): Card {
  const { x, y, width, positions, mode } = place;
  const textWidth = width - ROCKER_WIDTH - TEXT_GAP;
  let top = y + 3;
  const nodes: SceneNode[] = [];
  for (const { name, modes } of control.positions) {
    const names = wrapped(modes.length > 0 ? modes.map(markedName) : ["–"], textWidth, MODES_SIZE);
    const height = Math.max(36, 22 + names.length * lineHeight(MODES_SIZE));
    const set = positions[control.name] === name;
    const plate = { x, y: top, width: ROCKER_WIDTH, height: height - 2 };
    nodes.push(
      node(
        "g",
        { class: wayClass(set ? "set" : "free", modes, mode), "data-control": control.name, "data-set": name },
        [
          rect("reach", { x: x - 5, y: top - 1, width: width + 10, height }, 4),
          rect("key", plate, 5),
          ...(set ? [path("grip", grip(x, top + plate.height / 2))] : []),
          text("way-name", x + ROCKER_WIDTH + TEXT_GAP, top + 14, NAME_SIZE, labelOf(name, control.rest)),
          ...textLines(
            modes.length > 0 ? "modes" : "modes none",
            x + ROCKER_WIDTH + TEXT_GAP,
            top + 14 + lineHeight(MODES_SIZE),
            MODES_SIZE,
            names,
          ),
        ],
      ),
    );
    top += height;
  }
  const body = rect("rocker", { x: x - 3, y: y, width: ROCKER_WIDTH + 6, height: top - y + 1 }, 8);
  return { height: top - y + 1, nodes: [body, ...nodes] };
}

/** Three ridges across the key. */
function grip(x: number, middleY: number): string {
  const ridge = (y: number) => `M${rounded(x + 7)} ${rounded(y)}h${ROCKER_WIDTH - 14}`;
  return [-5, 0, 5].map((offset) => ridge(middleY + offset)).join("");
}
