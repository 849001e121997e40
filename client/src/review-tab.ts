/** The tab of a review: asked for again with every change of the scripts and of what is chosen, and adopted from. */
import { commands } from "vscode";
import { PAGE_COMMAND } from "../../shared/protocol/pages.ts";
import { REVIEW_REQUEST, type ReviewParams, type ReviewResult } from "../../shared/protocol/review.ts";
import type { FromReview, ReviewChoice, Reviewed, ToReview } from "../../shared/protocol/review-messages.ts";
import type { TabParts } from "./comparison-tab.ts";
import { type LiveTab, type LiveTabs, liveTabs } from "./live-tabs.ts";
import { type LastMade, lastMade } from "./undo-made.ts";
import { makeEdits } from "./versioned-edits.ts";

type Tab = LiveTab<Reviewed, ToReview>;

/** By tab what the page last chose, and what was adopted from it. */
interface Kept {
  choice: ReviewChoice;
  readonly last: LastMade;
}

const TYPE = "fettle.review";
/** The walkthrough ticks its step by it. */
export const ADOPTED_CONTEXT = "fettle.adopted";

const COMMANDS = {
  clipboard: "fettle.reviewClipboard",
  "restart-server": "fettle.restartServer",
  "show-log": "fettle.showLog",
} as const;

/** The tabs of reviews. */
export function reviewTabs({ extension, ask, log, openPlace }: TabParts): LiveTabs<Reviewed> {
  const kept = new WeakMap<Tab, Kept>();
  const request = ({ about: { mine, offer, purpose } }: Tab, choice: ReviewChoice) => {
    const params: ReviewParams = { uri: mine, offer, purpose, ...choice };
    return ask<ReviewResult>(REVIEW_REQUEST, params);
  };

  const show = async (tab: Tab) => {
    const choice = kept.get(tab)?.choice;
    if (!choice) return;
    try {
      const result = await request(tab, choice);
      if (result.kind === "review") {
        const { mine, theirs } = result;
        tab.name(tab.about.purpose === "carry" ? `${theirs.name} to ${mine.name}` : `Review: ${mine.name}`);
      }
      tab.post({ kind: "result", result });
    } catch (error) {
      log(`A text could not be reviewed for ${tab.about.mine}: ${error}`);
      tab.post({ kind: "failed" });
    }
  };
  const adopt = async (tab: Tab, choice: ReviewChoice, whats: readonly string[]) => {
    let into = "";
    const done = await makeEdits(async () => {
      const result = await request(tab, choice);
      if (result.kind === "refused") return result;
      if (result.kind === "no-script") return { kind: "refused", message: result.looksLike };
      into = result.targets.find(({ uri }) => uri === result.into)?.name ?? result.mine.name;
      return result.adopt;
    });
    if (done.kind === "refused") return tab.post({ kind: "told", told: { message: done.message, undo: false } });
    const message = `Adopted into ${into}: ${whats.length === 1 ? whats[0] : `${whats.length} lines`}.`;
    tab.post({ kind: "told", told: kept.get(tab)!.last.told(done, message) });
    tab.post({ kind: "adopted", whats });
    void commands.executeCommand("setContext", ADOPTED_CONTEXT, true);
  };
  const receive = async (message: FromReview, tab: Tab) => {
    switch (message.kind) {
      case "ready":
      case "choose": {
        const before = kept.get(tab);
        if (before) before.choice = message.choice;
        else kept.set(tab, { choice: message.choice, last: lastMade() });
        return tab.refresh();
      }
      case "adopt":
        return adopt(tab, message.choice, message.whats);
      case "open":
        return void openPlace(message.at);
      case "explain":
        return void commands.executeCommand(PAGE_COMMAND, message.of);
      case "undo":
        return tab.post({ kind: "told", told: (await kept.get(tab)?.last.undo(tab.keyboard)) ?? null });
      case "run":
        return void commands.executeCommand(COMMANDS[message.action]);
    }
  };
  return liveTabs<Reviewed, ToReview, FromReview>({
    type: TYPE,
    place: "review",
    title: "Review",
    extension,
    show,
    receive: (message, tab) =>
      receive(message, tab).catch((error) => {
        log(`“${message.kind}” could not be done in a review: ${error}`);
        tab.post({ kind: "failed" });
      }),
  });
}
