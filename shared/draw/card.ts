/** The card on which a control is drawn: where it may be, and what came of it. */
import type { ControlsAt } from "../protocol/panel.ts";
import type { SceneNode } from "./scene.ts";

/** What a control is drawn with: where it begins, how wide it may be, where it stands. */
export interface CardPlace {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly positions: ControlsAt;
}

export interface Card {
  readonly height: number;
  readonly nodes: readonly SceneNode[];
}
