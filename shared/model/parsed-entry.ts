/** What a line of a section is read as. */
import type { SettingSpec } from "../catalogue/specs.ts";
import type { Piece } from "../syntax/piece.ts";
import type { Fault } from "../syntax/read-context.ts";
import type { Value } from "../syntax/value.ts";
import type { LimitIssue } from "./limits.ts";
import type { EntryKind } from "./script.ts";

/** A parsed entry without its line number: equal text in the same section gives an equal result. */
export interface ParsedEntry {
  readonly kind: EntryKind;
  readonly value: Value | null;
  readonly pieces: readonly Piece[];
  readonly fault: Fault | null;
  readonly beyond: readonly LimitIssue[];
  /** The setting that the entry sets, if it sets one. */
  readonly setting: SettingSpec | null;
}
