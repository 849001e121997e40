/** The messages that the hosts of the pages understand: a kind or an action more, and the types ask for it here. */
import type { FromComparison } from "../../../shared/protocol/compare-messages.ts";
import type { FromFleetChange } from "../../../shared/protocol/fleet-change-messages.ts";
import type { FromFleetTab } from "../../../shared/protocol/fleet-messages.ts";
import type { FromPanel } from "../../../shared/protocol/panel-messages.ts";
import type { FromReview } from "../../../shared/protocol/review-messages.ts";
import type { PanelAction } from "../../../shared/protocol/ways.ts";

type From = FromPanel | FromComparison | FromReview | FromFleetTab | FromFleetChange;

const KINDS: Readonly<Record<From["kind"], true>> = {
  ready: true,
  keyboard: true,
  remembered: true,
  view: true,
  run: true,
  select: true,
  dropped: true,
  positions: true,
  craft: true,
  osd: true,
  motor: true,
  bench: true,
  "bench-try": true,
  "bench-looks": true,
  look: true,
  signal: true,
  "signal-step": true,
  preview: true,
  "end-against": true,
  undo: true,
  redo: true,
  open: true,
  explain: true,
  take: true,
  choose: true,
  adopt: true,
  apply: true,
};

const ACTIONS: Readonly<Record<PanelAction["name"], true>> = {
  "new-craft": true,
  "new-handset": true,
  "map-controls": true,
  "begin-osd": true,
  "use-handset": true,
  "use-in-craft": true,
  "fill-in": true,
  go: true,
  repair: true,
  explain: true,
  enlarge: true,
  "open-wide": true,
  "save-bench": true,
  "change-habit": true,
  "make-alike": true,
  "find-update": true,
  "restart-server": true,
  "show-log": true,
};

/** Whether the host of a page understands a message: its kind and, of the panel, the action that it names. */
export function isKnown(message: { readonly kind: string; readonly action?: unknown }): boolean {
  if (!Object.hasOwn(KINDS, message.kind)) return false;
  const { action } = message;
  if (typeof action !== "object" || action === null) return true;
  return Object.hasOwn(ACTIONS, (action as { readonly name: string }).name);
}
