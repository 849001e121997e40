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
import type {
  Compared,
  ComparisonAction,
  FromComparison,
  ToComparison,
} from "../../shared/protocol/compare-messages.ts";
import type { LinePlace } from "../../shared/protocol/findings.ts";
import { PAGE_COMMAND } from "../../shared/protocol/pages.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { type LiveTab, type LiveTabs, liveTabs } from "./live-tabs.ts";
import { type LastMade, lastMade } from "./undo-made.ts";
import { makeEdits } from "./versioned-edits.ts";

/** What a tab asks of other parts of the extension. */
export interface TabParts {
  readonly extension: Uri;
  readonly ask: Ask;
  /** Takes failures that need no message. */
  readonly log: (message: string) => void;
  /** Shows a line of a script, also of one that lies nowhere. */
  readonly openPlace: (at: LinePlace) => Promise<unknown>;
}

export interface Comparisons extends Pick<LiveTabs<Compared>, "changed" | "disposables"> {
  /** Opens the report that compares a craft with another side. */
  open(mine: Uri, other: OtherSide): void;
}

type Tab = LiveTab<Compared, ToComparison>;

const TYPE = "fettle.comparison";

/** `showNativeDiff` shows both texts beside each other. */
export function comparisonTabs(
  { extension, ask, log, openPlace }: TabParts,
  showNativeDiff: (compared: Compared) => Promise<unknown>,
): Comparisons {
  const made = new WeakMap<Tab, LastMade>();
  const paramsOf = ({ about: { mine, other } }: Tab): CompareParams => ({ uri: mine, other });

  const show = async (tab: Tab) => {
    try {
      const result = await ask<CompareResult>(COMPARE_REQUEST, paramsOf(tab));
      if (result.kind === "differences") tab.name(`${result.mine.name} | ${result.theirs.name}`);
      tab.post({ kind: "result", result });
    } catch (error) {
      log(`${tab.about.mine} could not be compared: ${error}`);
      tab.post({ kind: "failed" });
    }
  };
  const take = async (tab: Tab, whats: readonly string[]) => {
    const params: TakeParams = { ...paramsOf(tab), whats };
    let left: readonly { readonly message: string }[] = [];
    const done = await makeEdits(async () => {
      const result = await ask<TakeResult>(TAKE_REQUEST, params);
      left = result.kind === "edits" ? result.left : [];
      return result;
    });
    if (done.kind === "refused") return tab.post({ kind: "told", told: { message: done.message, undo: false } });
    const last = made.get(tab) ?? lastMade();
    made.set(tab, last);
    tab.post({ kind: "told", told: last.told(done, takenInWords(whats, left)) });
    tab.refresh();
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
        return commands.executeCommand("fettle.restartServer");
      case "show-log":
        return commands.executeCommand("fettle.showLog");
    }
  };
  const receive = async (message: FromComparison, tab: Tab) => {
    switch (message.kind) {
      case "ready":
        return tab.refresh();
      case "take":
        return take(tab, message.whats);
      case "open":
        return void openPlace(message.at);
      case "explain":
        return void commands.executeCommand(PAGE_COMMAND, message.of);
      case "undo":
        return tab.post({ kind: "told", told: (await made.get(tab)?.undo(tab.keyboard)) ?? null });
      case "run":
        return void act(message.action, tab);
    }
  };
  const tabs = liveTabs<Compared, ToComparison, FromComparison>({
    type: TYPE,
    place: "comparison",
    title: "Comparison",
    extension,
    show,
    receive: (message, tab) =>
      receive(message, tab).catch((error) => {
        log(`“${message.kind}” could not be done in a comparison: ${error}`);
        tab.post({ kind: "failed" });
      }),
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
