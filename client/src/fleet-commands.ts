/** What the buttons of the fleet start, in the panel as in its tab. */
import type { FleetAction } from "../../shared/protocol/fleet-messages.ts";

export const FLEET_COMMANDS: Readonly<Record<FleetAction, string>> = {
  "open-wide": "fettle.showFleet",
  "change-habit": "fettle.changeHabit",
  "make-alike": "fettle.makeAlike",
};
