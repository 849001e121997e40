/** What the status bar says of the craft behind the active script. */
import type { Uri } from "./addresses.ts";
import type { FindingCounts, ScriptKind } from "./workspace-tree.ts";

/** Whether a craft can be armed, starting with every control at rest. */
export interface ArmingSummary {
  /**
   * `armed`: it is, at rest · `ready`: moves of its controls arm it · `depends`: they may · `not-ready`: nothing
   * does, as the script stands · `unknown`: that cannot be told.
   */
  readonly state: "armed" | "ready" | "depends" | "not-ready" | "unknown";
  /** Why, or by which moves, in a sentence. */
  readonly words: string;
  /** What keeps it from arming at rest, the first of it; null where nothing does. */
  readonly obstacle: string | null;
  /** What must be met besides, once the controls are moved. */
  readonly besides: readonly string[];
}

export interface CraftStatus {
  /** What the active script is. */
  readonly kind: ScriptKind;
  readonly name: string;
  /** What keeps the active script from being read whole; null where nothing does. */
  readonly fault: string | null;
  /** The craft that it is, or is a part of; null where no craft uses it, or where it cannot be read. */
  readonly craft: { readonly file: string; readonly name: string } | null;
  readonly arming: ArmingSummary | null;
  /** Those of the craft; of the script by itself where there is none. */
  readonly findings: FindingCounts;
}

/** `fettle/status`: the craft behind a document. `craft` picks one where the file is part of several. */
export const STATUS_REQUEST = "fettle/status";
export interface StatusParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
}
