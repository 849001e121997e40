/** The tab of a comparison: asked for again with every change, and written from. */
import { commands, type Uri } from "vscode";
import {
  COMPARE_REQUEST,
  type CompareParams,
  type CompareResult,
  type OtherSide,
  TAKE_REQUEST,
  type TakeParams,
  type TakeResult,
} from "../../shared/protocol/compare.ts";
import type { Compared, ComparisonAction, FromComparison } from "../../shared/protocol/compare-messages.ts";
import type { FromTab } from "../../shared/protocol/tab-messages.ts";
import { addressOf } from "./addresses.ts";
import { type AnswerTab, answerTabs, TAB_REPAIRS, type TabParts } from "./answer-tabs.ts";
import type { LiveTabs } from "./live-tabs.ts";

export interface Comparisons extends Pick<LiveTabs<Compared>, "changed" | "disposables"> {
  /** Opens the report that compares a craft with another side. */
  open(mine: Uri, other: OtherSide): void;
}

type Tab = AnswerTab<Compared, CompareResult>;
type Own = Exclude<FromComparison, FromTab>;

const TYPE = "fettle.comparison";

/** `showNativeDiff` shows both texts beside each other. */
export function comparisonTabs(parts: TabParts, showNativeDiff: (compared: Compared) => Promise<unknown>): Comparisons {
  const { ask } = parts;
  const paramsOf = ({ about: { mine, other } }: Tab): CompareParams => ({ uri: mine, other });
  const take = async (tab: Tab, whats: readonly string[]) => {
    const params: TakeParams = { ...paramsOf(tab), whats };
    let left: readonly { readonly message: string }[] = [];
    const edits = async () => {
      const result = await ask<TakeResult>(TAKE_REQUEST, params);
      left = result.kind === "edits" ? result.left : [];
      return result;
    };
    if (await tabs.write(tab, edits, () => takenInWords(whats, left))) tab.refresh();
  };
  const act = (action: ComparisonAction, { about }: Tab): Thenable<unknown> | undefined => {
    const { mine, other } = about;
    switch (action) {
      case "native-diff":
        return showNativeDiff(about);
      case "overlay":
        return commands.executeCommand("fettle.overlay", { mine, other });
      case "swap":
        if (other.kind === "file") tabs.open({ mine: other.uri, other: { kind: "file", uri: mine } });
        return undefined;
      case "compare-other":
        return commands.executeCommand("fettle.compareWith", mine);
      case "restart-server":
      case "show-log":
        return commands.executeCommand(TAB_REPAIRS[action]);
    }
  };
  const tabs = answerTabs<Compared, CompareResult, Own>(parts, {
    type: TYPE,
    place: "comparison",
    title: "Comparison",
    inWords: "a comparison",
    answer: (tab) => ask<CompareResult>(COMPARE_REQUEST, paramsOf(tab)),
    titleOf: (result) => (result.kind === "differences" ? `${result.mine.name} | ${result.theirs.name}` : undefined),
    receive(message, tab) {
      switch (message.kind) {
        case "ready":
          return tab.refresh();
        case "take":
          return take(tab, message.whats);
        case "run":
          return void act(message.action, tab);
      }
    },
  });
  return { ...tabs, open: (mine, other) => tabs.open({ mine: addressOf(mine), other }) };
}

/** What was taken; where some of it is other than there all the same, why the first of that is. */
function takenInWords(whats: readonly string[], left: readonly { readonly message: string }[]): string {
  const [first] = left;
  const taken = `Taken from there: ${whats.length === 1 ? whats[0] : `${whats.length} differences`}`;
  if (!first) return `${taken}.`;
  return `${taken}; ${whats.length === 1 ? "it still differs" : `${left.length} of them still differ`}. ${first.message}`;
}
