/** The card on which a control is drawn: where it may be, and what came of it. */
import type { ControlsAt } from "../protocol/panel.ts";
import type { SceneNode } from "./scene.ts";

/** What a control is drawn with: where it begins, how wide it may be, where it stands. */
export interface CardPlace {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly positions: ControlsAt;
  /** The mode whose places are marked; null for none. */
  readonly mode: string | null;
}

export interface Card {
  readonly height: number;
  readonly nodes: readonly SceneNode[];
}

/** The class of a position or a stretch: `set` where the control stands there, `gives` where that can turn on the marked mode. */
export function wayClass(stands: "set" | "free", modes: readonly string[], marked: string | null): string {
  const names = ["way", ...(stands === "set" ? ["set"] : []), ...(marked && modes.includes(marked) ? ["gives"] : [])];
  return names.join(" ");
}
