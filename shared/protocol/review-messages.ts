/** The messages between the tab of a review and its host in the editor. */
import type { Uri } from "./addresses.ts";
import type { OtherSide } from "./compare.ts";
import type { ReviewParams, ReviewResult } from "./review.ts";
import type { FromTab, TabRepair, ToTab } from "./tab-messages.ts";

/** What is reviewed: it says what the tab is, and is kept with it over a reload of the editor. */
export interface Reviewed {
  readonly mine: Uri;
  readonly offer: OtherSide;
  readonly purpose: ReviewParams["purpose"];
}

/** What the pilot chose on the page. */
export type ReviewChoice = Pick<ReviewParams, "chosen" | "mapping" | "into" | "dialect">;

export type ToReview =
  | ToTab<Reviewed, ReviewResult>
  /** These were written: whatever else was chosen stays so. */
  | { readonly kind: "adopted"; readonly whats: readonly string[] };

export type ReviewAction = "clipboard" | TabRepair;

export type FromReview =
  | FromTab
  | { readonly kind: "ready"; readonly choice: ReviewChoice }
  /** The pilot chose something else: the result of it is to be shown. */
  | { readonly kind: "choose"; readonly choice: ReviewChoice }
  /** Writes these, which the result shown now contains. */
  | { readonly kind: "adopt"; readonly choice: ReviewChoice; readonly whats: readonly string[] }
  | { readonly kind: "run"; readonly action: ReviewAction };
