/** The messages between the tab of a comparison and its host in the editor. */
import type { Uri } from "./addresses.ts";
import type { CompareResult, OtherSide } from "./compare.ts";
import type { FromTab, TabRepair, ToTab } from "./tab-messages.ts";

/** What is compared: it says what the tab is, and is kept with it over a reload of the editor. */
export interface Compared {
  readonly mine: Uri;
  readonly other: OtherSide;
}

export type ToComparison = ToTab<Compared, CompareResult>;

/** What the buttons above a comparison do. */
export type ComparisonAction = "native-diff" | "overlay" | "swap" | "compare-other" | TabRepair;

export type FromComparison =
  | FromTab
  | { readonly kind: "ready" }
  | { readonly kind: "take"; readonly whats: readonly string[] }
  | { readonly kind: "run"; readonly action: ComparisonAction };
