/** What a pilot does on the drawing of the motors, and the request that makes edits of it. */
import type { Uri } from "./addresses.ts";
import type { MotorTurn } from "./motors.ts";
import type { OsdEditResult, WriteWhere } from "./osd-edit.ts";

/** A gesture on the drawing; `motor` is a number from 1. */
export type MotorGesture =
  /** To a corner, by the catalogue's word; a motor that stands there changes places with it. */
  | { readonly kind: "place"; readonly motor: number; readonly place: string }
  | { readonly kind: "turn"; readonly motor: number; readonly direction: MotorTurn };

/** `fettle/motorEdit`: the edits of the scripts for a gesture; answered as those on the OSD are. */
export const MOTOR_EDIT_REQUEST = "fettle/motorEdit";
export interface MotorEditParams {
  readonly uri: Uri;
  readonly craft?: Uri;
  readonly gesture: MotorGesture;
  /** Null: not chosen yet. Then the result is `choose` if a line stands in a layer. */
  readonly where: WriteWhere | null;
}
export type MotorEditResult = OsdEditResult;
