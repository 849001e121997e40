/** The card of a control: its place, and the drawing that results. */
import type { ControlAgainst } from "../protocol/against.ts";
import type { SwitchesState } from "../protocol/panel.ts";
import type { SceneNode } from "./scene.ts";

/** The input of a control's drawing: its corner, its width and the state of the craft. */
export interface CardPlace {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly state: SwitchesState;
  /** The mode whose positions are marked; null for none. */
  readonly mode: string | null;
  /** Whether it is said what depends on the control. */
  readonly uses: "said" | "left out";
  /** What differs of the control on the other side of a comparison; null where nothing does. */
  readonly against: ControlAgainst | null;
}

export interface Card {
  readonly height: number;
  readonly nodes: readonly SceneNode[];
}

/** The classes of a position or a dial's range: `set` if the control is there, `gives` if it can turn on the marked mode. */
export function wayClass(stands: "here" | "elsewhere", modes: readonly string[], marked: string | null): string {
  const names = ["way", ...(stands === "here" ? ["set"] : []), ...(marked && modes.includes(marked) ? ["gives"] : [])];
  return names.join(" ");
}
