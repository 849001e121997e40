/** The tab of a review: asked for again with every change of the scripts and of what is chosen, and adopted from. */
import { commands } from "vscode";
import { REVIEW_REQUEST, type ReviewParams, type ReviewResult } from "../../shared/protocol/review.ts";
import type { FromReview, ReviewChoice, Reviewed, ToReview } from "../../shared/protocol/review-messages.ts";
import type { FromTab, ToTab } from "../../shared/protocol/tab-messages.ts";
import { type AnswerTab, answerTabs, TAB_REPAIRS, type TabParts } from "./answer-tabs.ts";
import type { LiveTabs } from "./live-tabs.ts";

/** What only the page of a review is told, and says. */
type More = Exclude<ToReview, ToTab<Reviewed, ReviewResult>>;
type Own = Exclude<FromReview, FromTab>;
type Tab = AnswerTab<Reviewed, ReviewResult, More>;

const TYPE = "fettle.review";
/** The walkthrough ticks its step by it. */
export const ADOPTED_CONTEXT = "fettle.adopted";

const COMMANDS = { ...TAB_REPAIRS, clipboard: "fettle.reviewClipboard" } as const;

/** The tabs of reviews. */
export function reviewTabs(parts: TabParts): LiveTabs<Reviewed> {
  /** What the page of a tab last chose. */
  const choices = new WeakMap<Tab, ReviewChoice>();
  const request = ({ about: { mine, offer, purpose } }: Tab, choice: ReviewChoice) => {
    const params: ReviewParams = { uri: mine, offer, purpose, ...choice };
    return parts.ask<ReviewResult>(REVIEW_REQUEST, params);
  };
  const adopt = async (tab: Tab, choice: ReviewChoice, whats: readonly string[]) => {
    let into = "";
    const edits = async () => {
      const result = await request(tab, choice);
      if (result.kind === "refused") return result;
      if (result.kind === "no-script") return { kind: "refused" as const, message: result.looksLike };
      into = result.targets.find(({ uri }) => uri === result.into)?.name ?? result.mine.name;
      return result.adopt;
    };
    const lines = whats.length === 1 ? whats[0] : `${whats.length} lines`;
    if (!(await tabs.write(tab, edits, () => `Adopted into ${into}: ${lines}.`))) return;
    tab.post({ kind: "adopted", whats });
    void commands.executeCommand("setContext", ADOPTED_CONTEXT, true);
  };
  const tabs = answerTabs<Reviewed, ReviewResult, Own, More>(parts, {
    type: TYPE,
    place: "review",
    title: "Review",
    inWords: "a review",
    async answer(tab) {
      const choice = choices.get(tab);
      return choice && request(tab, choice);
    },
    titleOf(result, { purpose }) {
      if (result.kind !== "review") return undefined;
      const { mine, theirs } = result;
      return purpose === "carry" ? `${theirs.name} to ${mine.name}` : `Review: ${mine.name}`;
    },
    receive(message, tab) {
      switch (message.kind) {
        case "ready":
        case "choose":
          choices.set(tab, message.choice);
          return tab.refresh();
        case "adopt":
          return adopt(tab, message.choice, message.whats);
        case "run":
          return void commands.executeCommand(COMMANDS[message.action]);
      }
    },
  });
  return tabs;
}
