/** What the host and the page of a tab say to each other, whatever the answer that the tab shows is about. */
import type { LinePlace } from "./findings.ts";

/** What a tab tells after something was written, or was not. */
export interface Told {
  readonly message: string;
  /** Whether what was written can be undone from here. */
  readonly undo: boolean;
}

export type ToTab<About, Result> =
  /** Kept by the page, so that a restored one can say what it is about. */
  | { readonly kind: "about"; readonly about: About }
  | { readonly kind: "result"; readonly result: Result }
  /** The server does not run, or failed: what is shown is out of date. */
  | { readonly kind: "failed" }
  | { readonly kind: "told"; readonly told: Told | null }
  /** Asks whether the page has keyboard focus. */
  | { readonly kind: "keyboard" };

export type FromTab =
  | { readonly kind: "keyboard"; readonly has: boolean }
  | { readonly kind: "open"; readonly at: LinePlace }
  /** Shows the page of a name. */
  | { readonly kind: "explain"; readonly of: string }
  /** Takes back what was written last. */
  | { readonly kind: "undo" };

/** What any of them can have done where the server does not answer. */
export type TabRepair = "restart-server" | "show-log";
