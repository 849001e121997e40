/** The tab of a change of several craft: what becomes of each, asked for again with every choice and change, and written as one step. */
import { commands } from "vscode";
import {
  CHANGE_HABIT_REQUEST,
  type ChangeHabitParams,
  type FleetChangeResult,
  MAKE_ALIKE_REQUEST,
  type MakeAlikeParams,
} from "../../shared/protocol/fleet-change.ts";
import type { FleetChangeAbout, FromFleetChange } from "../../shared/protocol/fleet-change-messages.ts";
import type { FromTab } from "../../shared/protocol/tab-messages.ts";
import { type AnswerTab, answerTabs, TAB_REPAIRS, type TabParts } from "./answer-tabs.ts";
import type { Ask } from "./ask.ts";
import type { LiveTabs } from "./live-tabs.ts";

type Tab = AnswerTab<FleetChangeAbout, FleetChangeResult>;
type Own = Exclude<FromFleetChange, FromTab>;
type LeftOut = readonly string[] | null;

const TYPE = "fettle.fleetChange";

export function fleetChangeTabs(parts: TabParts): LiveTabs<FleetChangeAbout> {
  const { ask } = parts;
  /** By tab what its page has left out. */
  const leftOuts = new WeakMap<Tab, LeftOut>();
  const apply = async (tab: Tab, leftOut: readonly string[]) => {
    let changed: readonly string[] = [];
    const edits = async () => {
      const result = await askChange(ask, tab.about, leftOut);
      if (result.kind === "refused") return result;
      changed = result.craft.flatMap(({ chosen, name }) => (chosen ? [name] : []));
      return result.edits;
    };
    if (await tabs.write(tab, edits, () => `Changed on ${namesOf(changed)}.`)) tab.refresh();
  };
  const tabs = answerTabs<FleetChangeAbout, FleetChangeResult, Own>(parts, {
    type: TYPE,
    place: "fleet-change",
    title: "Change of several craft",
    inWords: "a change of several craft",
    answer: (tab) => askChange(ask, tab.about, leftOuts.get(tab) ?? null),
    titleOf: (result) => (result.kind === "change" ? result.title : undefined),
    receive(message, tab) {
      switch (message.kind) {
        case "ready":
        case "choose":
          leftOuts.set(tab, message.leftOut);
          return tab.refresh();
        case "apply":
          return apply(tab, message.leftOut);
        case "run":
          return void commands.executeCommand(TAB_REPAIRS[message.action]);
      }
    },
  });
  return tabs;
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
