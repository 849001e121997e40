/** A propeller from above: blades whose leading edge is the thick one, and a mark on the rim for the way it turns. */
import type { MotorTurn } from "../protocol/motors.ts";
import type { Spot } from "./motors-layout.ts";
import { node, path, rounded, type SceneNode } from "./scene.ts";

/** Whether a motor's own line says the way it turns, or it follows from what is said of the whole set. */
export type Saying = "said" | "follows";

/** From the direction of the arm to a blade. */
const BLADE_TURN = (70 * Math.PI) / 180;
/** The arc of the mark, on the side away from the body. */
const MARK_DEG = 96;

/**
 * Two blades between the hub and the rim. A propeller that turns clockwise is filled, one that turns the other way is
 * open, so that the two are told apart at a glance.
 */
export function blades(
  at: Spot,
  { from, to }: { readonly from: number; readonly to: number },
  outward: number,
  turn: MotorTurn,
  saying: Saying,
): SceneNode[] {
  const length = to - from;
  return [0, Math.PI].flatMap((half) => {
    const angle = outward + BLADE_TURN + half;
    const along = { x: Math.cos(angle), y: -Math.sin(angle) };
    // Where the blade goes next, on a screen whose y runs down.
    const ahead = turn === "clockwise" ? { x: -along.y, y: along.x } : { x: along.y, y: -along.x };
    const spot = (far: number, forward: number) => {
      const [u, v] = [from - 2 + far * (length + 2), forward * length];
      return `${rounded(at.x + along.x * u + ahead.x * v)} ${rounded(at.y + along.y * u + ahead.y * v)}`;
    };
    const leading = `M${spot(0, 0.14)}C${spot(0.16, 0.5)} ${spot(0.66, 0.46)} ${spot(1, 0.14)}`;
    const outline = `${leading}Q${spot(1.06, 0.02)} ${spot(0.97, -0.07)}C${spot(0.66, -0.16)} ${spot(0.3, -0.26)} ${spot(0, -0.14)}Z`;
    const classes = ["motor-blade", turn === "clockwise" ? "filled" : "open", saying].join(" ");
    return [path(classes, outline), path(`motor-edge ${saying}`, leading)];
  });
}

/** A mark along the rim that grows towards its head, which is where the blades go; open where it only follows. */
export function turningMark(at: Spot, radius: number, outward: number, turn: MotorTurn, saying: Saying): SceneNode {
  const sense = turn === "clockwise" ? -1 : 1;
  const rad = (deg: number) => outward + (sense * deg * Math.PI) / 180;
  const spot = (deg: number, far: number) =>
    `${rounded(at.x + far * Math.cos(rad(deg)))} ${rounded(at.y - far * Math.sin(rad(deg)))}`;
  const [begin, neck, head] = [-MARK_DEG / 2, MARK_DEG / 2 - 16, MARK_DEG / 2 + 4];
  const wide = Math.max(1.6, 0.05 * radius);
  const sweep = turn === "clockwise" ? 1 : 0;
  const arc = (far: number, towards: number, to: string) => `A${rounded(far)} ${rounded(far)} 0 0 ${towards} ${to}`;
  const d = [
    `M${spot(begin, radius)}`,
    arc(radius + wide / 2, sweep, spot(neck, radius + wide)),
    `L${spot(neck, radius + 2.6 * wide)}`,
    `L${spot(head, radius)}`,
    `L${spot(neck, radius - 2.6 * wide)}`,
    `L${spot(neck, radius - wide)}`,
    arc(radius - wide / 2, 1 - sweep, spot(begin, radius)),
    "Z",
  ].join("");
  return node("path", { class: `motor-turn ${saying}`, d, "data-turn": turn });
}
