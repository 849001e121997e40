/** The messages between the tab of a change of several craft and its host in the editor. */
import type { AlikeQuery, FleetChangeResult, HabitQuery } from "./fleet-change.ts";
import type { FromTab, TabRepair, ToTab } from "./tab-messages.ts";

/** What is changed: it says what the tab is, and is kept with it over a reload of the editor. */
export type FleetChangeAbout = ({ readonly kind: "habit" } & HabitQuery) | ({ readonly kind: "alike" } & AlikeQuery);

export type ToFleetChange = ToTab<FleetChangeAbout, FleetChangeResult>;

export type FromFleetChange =
  | FromTab
  /** `leftOut`: what the page had left out when it was closed; null where nobody has looked yet. */
  | { readonly kind: "ready"; readonly leftOut: readonly string[] | null }
  | { readonly kind: "choose"; readonly leftOut: readonly string[] }
  | { readonly kind: "apply"; readonly leftOut: readonly string[] }
  | { readonly kind: "run"; readonly action: TabRepair };
