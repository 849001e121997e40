/** The messages between the tab of a change of several craft and its host in the editor. */
import type { Told } from "./compare-messages.ts";
import type { LinePlace } from "./findings.ts";
import type { AlikeQuery, FleetChangeResult, HabitQuery } from "./fleet-change.ts";

/** What is changed: it says what the tab is, and is kept with it over a reload of the editor. */
export type FleetChangeAbout = ({ readonly kind: "habit" } & HabitQuery) | ({ readonly kind: "alike" } & AlikeQuery);

export type ToFleetChange =
  | { readonly kind: "about"; readonly about: FleetChangeAbout }
  | { readonly kind: "result"; readonly result: FleetChangeResult }
  | { readonly kind: "failed" }
  | { readonly kind: "told"; readonly told: Told | null }
  /** Asks whether the page has keyboard focus. */
  | { readonly kind: "keyboard" };

export type FromFleetChange =
  /** `leftOut`: what the page had left out when it was closed; null where nobody has looked yet. */
  | { readonly kind: "ready"; readonly leftOut: readonly string[] | null }
  | { readonly kind: "keyboard"; readonly has: boolean }
  | { readonly kind: "choose"; readonly leftOut: readonly string[] }
  | { readonly kind: "apply"; readonly leftOut: readonly string[] }
  | { readonly kind: "open"; readonly at: LinePlace }
  | { readonly kind: "undo" }
  | { readonly kind: "run"; readonly action: "restart-server" | "show-log" };
