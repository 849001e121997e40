/** The tab of the fleet: the panel's view of all craft, with more room. */
import { commands } from "vscode";
import {
  FLEET_REQUEST,
  type FleetAbout,
  type FleetParams,
  type FleetResult,
  type FromFleetTab,
  type PackedFleet,
} from "../../shared/protocol/fleet-messages.ts";
import type { FromTab } from "../../shared/protocol/tab-messages.ts";
import { type AnswerTab, answerTabs, TAB_REPAIRS, type TabParts } from "./answer-tabs.ts";
import { FLEET_COMMANDS } from "./fleet-commands.ts";
import type { LiveTabs } from "./live-tabs.ts";

type Tab = AnswerTab<FleetAbout, PackedFleet>;
type Own = Exclude<FromFleetTab, FromTab>;

/** There is one fleet, and one tab of it. */
export const WHOLE_FLEET: FleetAbout = { of: "workspace" };

const TYPE = "fettle.fleet";

const COMMANDS = { ...FLEET_COMMANDS, ...TAB_REPAIRS } as const;

export function fleetTab(parts: TabParts): LiveTabs<FleetAbout> {
  /** What the page of a tab has; one that begins anew has nothing, also where the page before it is still answered. */
  const pages = new WeakMap<Tab, { known: string | null }>();
  return answerTabs<FleetAbout, PackedFleet, Own>(parts, {
    type: TYPE,
    place: "fleet",
    title: "Fleet",
    inWords: "the fleet",
    async answer(tab) {
      const page = pages.get(tab) ?? { known: null };
      const params: FleetParams = { known: page.known };
      // A page that was told of a failure is told all anew, also where nothing has changed since.
      page.known = null;
      const result = await parts.ask<FleetResult>(FLEET_REQUEST, params);
      if (!result) throw new Error("the server could not work it out");
      page.known = result.id;
      return result.fleet ?? undefined;
    },
    titleOf: () => undefined,
    receive(message, tab) {
      switch (message.kind) {
        case "ready":
          pages.set(tab, { known: null });
          return tab.refresh();
        case "run":
          return void commands.executeCommand(COMMANDS[message.action]);
      }
    },
  });
}
