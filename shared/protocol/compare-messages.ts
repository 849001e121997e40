/** The messages between the tab of a comparison and its host in the editor. */
import type { Uri } from "./addresses.ts";
import type { CompareResult, OtherSide } from "./compare.ts";
import type { LinePlace } from "./findings.ts";

/** What is compared: it says what the tab is, and is kept with it over a reload of the editor. */
export interface Compared {
  readonly mine: Uri;
  readonly other: OtherSide;
}

/** What a tab tells after something was written, or was not. */
export interface Told {
  readonly message: string;
  /** Whether what was written can be undone from here. */
  readonly undo: boolean;
}

export type ToComparison =
  /** Kept by the page, so that a restored one can say what it compares. */
  | { readonly kind: "about"; readonly about: Compared }
  | { readonly kind: "result"; readonly result: CompareResult }
  /** The server does not run, or failed: what is shown is out of date. */
  | { readonly kind: "failed" }
  | { readonly kind: "told"; readonly told: Told | null }
  /** Asks whether the page has keyboard focus. */
  | { readonly kind: "keyboard" };

/** What the buttons above a comparison do. */
export type ComparisonAction = "native-diff" | "overlay" | "swap" | "compare-other" | "restart-server" | "show-log";

export type FromComparison =
  | { readonly kind: "ready" }
  | { readonly kind: "keyboard"; readonly has: boolean }
  | { readonly kind: "take"; readonly whats: readonly string[] }
  | { readonly kind: "open"; readonly at: LinePlace }
  /** Shows the page of a name. */
  | { readonly kind: "explain"; readonly of: string }
  | { readonly kind: "undo" }
  | { readonly kind: "run"; readonly action: ComparisonAction };
