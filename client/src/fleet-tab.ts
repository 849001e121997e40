/** The tab of the fleet: the panel's view of all craft, with more room. */
import { commands } from "vscode";
import {
  FLEET_REQUEST,
  type FleetAbout,
  type FleetParams,
  type FleetResult,
  type FromFleetTab,
  type ToFleetTab,
} from "../../shared/protocol/fleet-messages.ts";
import { TAB_REPAIRS, type TabParts } from "./answer-tabs.ts";
import { FLEET_COMMANDS } from "./fleet-commands.ts";
import { type LiveTab, type LiveTabs, liveTabs } from "./live-tabs.ts";

type Tab = LiveTab<FleetAbout, ToFleetTab>;

/** There is one fleet, and one tab of it. */
export const WHOLE_FLEET: FleetAbout = { of: "workspace" };

const TYPE = "fettle.fleet";

const COMMANDS = { ...FLEET_COMMANDS, ...TAB_REPAIRS } as const;

export function fleetTab({ extension, ask, log, openPlace }: TabParts): LiveTabs<FleetAbout> {
  /** What the page of a tab has; a page that begins anew has nothing. */
  const known = new WeakMap<Tab, number>();
  return liveTabs<FleetAbout, ToFleetTab, FromFleetTab>({
    type: TYPE,
    place: "fleet",
    title: "Fleet",
    extension,
    async show(tab) {
      try {
        const params: FleetParams = { known: known.get(tab) ?? null };
        const result = await ask<FleetResult>(FLEET_REQUEST, params);
        if (!result) return tab.post({ kind: "failed" });
        known.set(tab, result.id);
        if (result.fleet) tab.post({ kind: "fleet", fleet: result.fleet });
      } catch (error) {
        log(`The fleet could not be shown: ${error}`);
        tab.post({ kind: "failed" });
      }
    },
    receive(message, tab) {
      switch (message.kind) {
        case "ready":
          known.delete(tab);
          return tab.refresh();
        case "select":
          return void openPlace(message.at);
        case "run":
          return void commands.executeCommand(COMMANDS[message.action]);
      }
    },
  });
}
