/** A handset as the answers have it so far. */
import type { ControlKind, ControlPlace } from "../../syntax/value.ts";
import type { FoundFile } from "../new-craft/questions.ts";
import type { Position } from "./parts.ts";

export interface HandsetControl {
  readonly name: string;
  readonly kind: ControlKind;
  readonly channel: number;
  readonly positions: readonly Position[];
  readonly rest: string | null;
  readonly fromUs: number | null;
  readonly toUs: number | null;
  readonly lies: ControlPlace | null;
  readonly note: string | null;
}

export interface HandsetDraft {
  readonly name: string;
  /** The handset that this one begins with: its controls are copied, or it is used as it is. */
  readonly other: { readonly found: FoundFile; readonly how: "copy" | "use" } | null;
  /** Values as the script writes them; null for what is not known. */
  readonly band: string | null;
  readonly power: string | null;
  readonly stickMode: string | null;
  readonly travel: string | null;
  readonly order: string | null;
  /** Those that the file itself is to hold. */
  readonly controls: readonly HandsetControl[];
  /** Those that come with a handset in use. */
  readonly used: readonly HandsetControl[];
}
