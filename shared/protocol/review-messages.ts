/** The messages between the tab of a review and its host in the editor. */
import type { Uri } from "./addresses.ts";
import type { OtherSide } from "./compare.ts";
import type { Told } from "./compare-messages.ts";
import type { LinePlace } from "./findings.ts";
import type { ReviewParams, ReviewResult } from "./review.ts";

/** What is reviewed: it says what the tab is, and is kept with it over a reload of the editor. */
export interface Reviewed {
  readonly mine: Uri;
  readonly offer: OtherSide;
  readonly purpose: ReviewParams["purpose"];
}

/** What the pilot chose on the page. */
export type ReviewChoice = Pick<ReviewParams, "chosen" | "mapping" | "into" | "dialect">;

export type ToReview =
  /** Kept by the page, so that a restored one can say what it reviews. */
  | { readonly kind: "about"; readonly about: Reviewed }
  | { readonly kind: "result"; readonly result: ReviewResult }
  /** The server does not run, or failed: what is shown is out of date. */
  | { readonly kind: "failed" }
  | { readonly kind: "told"; readonly told: Told | null }
  /** These were written: whatever else was chosen stays so. */
  | { readonly kind: "adopted"; readonly whats: readonly string[] }
  /** Asks whether the page has keyboard focus. */
  | { readonly kind: "keyboard" };

export type ReviewAction = "clipboard" | "restart-server" | "show-log";

export type FromReview =
  | { readonly kind: "ready"; readonly choice: ReviewChoice }
  | { readonly kind: "keyboard"; readonly has: boolean }
  /** The pilot chose something else: the result of it is to be shown. */
  | { readonly kind: "choose"; readonly choice: ReviewChoice }
  /** Writes these, which the result shown now contains. */
  | { readonly kind: "adopt"; readonly choice: ReviewChoice; readonly whats: readonly string[] }
  | { readonly kind: "open"; readonly at: LinePlace }
  /** Shows the page of a name. */
  | { readonly kind: "explain"; readonly of: string }
  | { readonly kind: "undo" }
  | { readonly kind: "run"; readonly action: ReviewAction };
