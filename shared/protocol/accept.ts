/** How an editor helps to accept a finding: the note is written, and the cursor put where its reason is to stand. */
import type { Uri } from "./addresses.ts";
import type { Place, PlaceRange } from "./findings.ts";

/** A client that has this command names it as `acceptCommand` when it starts the server. */
export const ACCEPT_COMMAND = "fettle.acceptFinding";

/** Where the reason is to be written. */
export interface ReasonPlace {
  readonly uri: Uri;
  readonly position: Place;
}

/** A layer, or one to be begun, that can accept a finding: as one chooses it, and what is then written. */
export interface AcceptChoice {
  readonly label: string;
  readonly description: string;
  /** The file that has to be made before, empty; null where all are there. */
  readonly creates: Uri | null;
  readonly edits: readonly { readonly uri: Uri; readonly range: PlaceRange; readonly text: string }[];
  readonly reasonAt: ReasonPlace;
}

/** The argument of the command: of a note that is written already the place; else the layers to choose from. */
export type AcceptArgument =
  | { readonly kind: "written"; readonly reasonAt: ReasonPlace }
  | { readonly kind: "choose"; readonly title: string; readonly choices: readonly AcceptChoice[] };
