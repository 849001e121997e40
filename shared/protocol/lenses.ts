/** What the words above a line lead to, where the client has a command for it. */
import type { Uri } from "./addresses.ts";
import type { ControlsAt, ViewName } from "./panel.ts";

export type LensAction =
  /** Shows the switches, with the controls in these positions. */
  | { readonly kind: "positions"; readonly positions: ControlsAt }
  | { readonly kind: "view"; readonly view: ViewName }
  /** Lists the craft that use the file. */
  | { readonly kind: "users" }
  | { readonly kind: "effective" }
  /** Holds a script that somebody shared against a craft of one's own. */
  | { readonly kind: "review" };

/** A client that has this command names it as `lensCommand` when it starts the server; lenses can then be clicked. */
export const LENS_COMMAND = "fettle.followLens";
/** The argument of the command. */
export interface FollowLens {
  readonly uri: Uri;
  readonly action: LensAction;
}
