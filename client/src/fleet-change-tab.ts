/** The tab of a change of several craft: what becomes of each, asked for again with every choice and change, and written as one step. */
import { commands } from "vscode";
import {
  CHANGE_HABIT_REQUEST,
  type ChangeHabitParams,
  type FleetChangeResult,
  MAKE_ALIKE_REQUEST,
  type MakeAlikeParams,
} from "../../shared/protocol/fleet-change.ts";
import type { FleetChangeAbout, FromFleetChange, ToFleetChange } from "../../shared/protocol/fleet-change-messages.ts";
import type { Ask } from "./ask.ts";
import type { TabParts } from "./comparison-tab.ts";
import { type LiveTab, type LiveTabs, liveTabs } from "./live-tabs.ts";
import { type LastMade, lastMade } from "./undo-made.ts";
import { makeEdits } from "./versioned-edits.ts";

type Tab = LiveTab<FleetChangeAbout, ToFleetChange>;
type LeftOut = readonly string[] | null;

/** By tab what its page has left out, and what was written from it. */
interface Kept {
  leftOut: LeftOut;
  readonly last: LastMade;
}

const TYPE = "fettle.fleetChange";

const COMMANDS = { "restart-server": "fettle.restartServer", "show-log": "fettle.showLog" } as const;

export function fleetChangeTabs({ extension, ask, log, openPlace }: TabParts): LiveTabs<FleetChangeAbout> {
  const kept = new WeakMap<Tab, Kept>();
  const keptOf = (tab: Tab): Kept => {
    const known = kept.get(tab) ?? { leftOut: null, last: lastMade() };
    kept.set(tab, known);
    return known;
  };
  const show = async (tab: Tab) => {
    try {
      const result = await askChange(ask, tab.about, keptOf(tab).leftOut);
      if (result.kind === "change") tab.name(result.title);
      tab.post({ kind: "result", result });
    } catch (error) {
      log(`A change of several craft could not be worked out: ${error}`);
      tab.post({ kind: "failed" });
    }
  };
  const apply = async (tab: Tab, leftOut: readonly string[]) => {
    let changed: readonly string[] = [];
    const done = await makeEdits(async () => {
      const result = await askChange(ask, tab.about, leftOut);
      if (result.kind === "refused") return result;
      changed = result.craft.flatMap(({ chosen, name }) => (chosen ? [name] : []));
      return result.edits;
    });
    if (done.kind === "refused") return tab.post({ kind: "told", told: { message: done.message, undo: false } });
    tab.post({ kind: "told", told: keptOf(tab).last.told(done, `Changed on ${namesOf(changed)}.`) });
    tab.refresh();
  };
  const receive = async (message: FromFleetChange, tab: Tab) => {
    switch (message.kind) {
      case "ready":
      case "choose":
        keptOf(tab).leftOut = message.leftOut;
        return tab.refresh();
      case "apply":
        return apply(tab, message.leftOut);
      case "open":
        return void openPlace(message.at);
      case "undo":
        return tab.post({ kind: "told", told: await keptOf(tab).last.undo(tab.keyboard) });
      case "run":
        return void commands.executeCommand(COMMANDS[message.action]);
    }
  };
  return liveTabs<FleetChangeAbout, ToFleetChange, FromFleetChange>({
    type: TYPE,
    place: "fleet-change",
    title: "Change of several craft",
    extension,
    show,
    receive: (message, tab) =>
      receive(message, tab).catch((error) => {
        log(`“${message.kind}” could not be done in a change of several craft: ${error}`);
        tab.post({ kind: "failed" });
      }),
  });
}

function askChange(ask: Ask, about: FleetChangeAbout, leftOut: LeftOut): Promise<FleetChangeResult> {
  if (about.kind === "habit") {
    const { kind: _, ...query } = about;
    const params: ChangeHabitParams = { ...query, leftOut };
    return ask<FleetChangeResult>(CHANGE_HABIT_REQUEST, params);
  }
  const { kind: _, ...query } = about;
  const params: MakeAlikeParams = { ...query, leftOut };
  return ask<FleetChangeResult>(MAKE_ALIKE_REQUEST, params);
}

const MOST_NAMED = 3;

function namesOf(names: readonly string[]): string {
  if (names.length > MOST_NAMED) return `${names.length} craft`;
  return names.map((name) => `“${name}”`).join(", ");
}
