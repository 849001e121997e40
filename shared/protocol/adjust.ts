/** Settings that follow a control in flight, with the controls in their current positions: plain data. */
import type { LinePlace } from "./findings.ts";

/** A setting that a dial moves. */
export interface PanelAdjust {
  readonly control: string;
  readonly setting: string;
  /** At the dial's first stop: the value with its unit, and the pulse that the dial sends there. */
  readonly from: PanelAdjustEnd;
  /** At its second stop. */
  readonly to: PanelAdjustEnd;
  /** The value here, with its unit; null where nobody has set the dial. */
  readonly now: string | null;
  /** A second set that has the setting itself, such as `gains-second`; null where none has. */
  readonly ownIn: string | null;
  readonly at: LinePlace;
}

export interface PanelAdjustEnd {
  readonly text: string;
  readonly pulseUs: number;
}

/** What the lines of `adjust` do. */
export interface AdjustPicture {
  readonly moving: readonly PanelAdjust[];
  /** Settings that are to follow a control which is no dial: they do not move. */
  readonly idle: readonly {
    readonly control: string;
    readonly kind: string;
    readonly setting: string;
    readonly at: LinePlace;
  }[];
  /** Settings whose line has a fault: which control moves them is not known. */
  readonly faulty: readonly string[];
}
