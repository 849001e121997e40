/**
 * Tabs whose page shows an answer of the server, writes what is chosen of it as one step, and takes that back: of a
 * comparison, of a review, of a change of several craft, of the fleet.
 */
import { commands, type Uri } from "vscode";
import type { EditedFiles, Refused } from "../../shared/protocol/file-edits.ts";
import type { LinePlace } from "../../shared/protocol/findings.ts";
import { PAGE_COMMAND } from "../../shared/protocol/pages.ts";
import type { FromTab, TabRepair, ToTab } from "../../shared/protocol/tab-messages.ts";
import type { Ask } from "./ask.ts";
import { type LiveTab, type LiveTabs, type LiveTabsOf, liveTabs } from "./live-tabs.ts";
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

/** `More`: what its page is told beside what every page is. */
export type AnswerTab<About, Result, More = never> = LiveTab<About, ToTab<About, Result> | More>;

export interface AnswerTabsOf<About, Result, Own, More>
  extends Pick<LiveTabsOf<About, never, never>, "type" | "place"> {
  /** What a tab is called until its answer is there. */
  readonly title: string;
  /** What it shows, with its article, for the log. */
  readonly inWords: string;
  /** Asks the server; undefined where there is nothing new to show, or the page has not said yet what there is to ask. */
  answer(tab: AnswerTab<About, Result, More>): Promise<Result | undefined>;
  /** What the tab is called with that answer; undefined where it keeps its name. */
  titleOf(result: Result, about: About): string | undefined;
  /** What its own page alone can say. */
  receive(message: Own, tab: AnswerTab<About, Result, More>): unknown;
}

export interface AnswerTabs<About, Result, More> extends LiveTabs<About> {
  /**
   * Makes the edits that the server gives, and tells on the page what was made, in the words that `told` has then, or
   * why nothing was; gives whether it was made.
   */
  write(
    tab: AnswerTab<About, Result, More>,
    edits: () => Promise<EditedFiles | Refused>,
    told: () => string,
  ): Promise<boolean>;
}

/** What the page can have done where the server does not answer. */
export const TAB_REPAIRS: Readonly<Record<TabRepair, string>> = {
  "restart-server": "fettle.restartServer",
  "show-log": "fettle.showLog",
};

export function answerTabs<About, Result, Own extends { readonly kind: string }, More = never>(
  { extension, log, openPlace }: TabParts,
  of: AnswerTabsOf<About, Result, Own, More>,
): AnswerTabs<About, Result, More> {
  type Tab = AnswerTab<About, Result, More>;
  const lasts = new WeakMap<Tab, LastMade>();
  const lastOf = (tab: Tab): LastMade => {
    const last = lasts.get(tab) ?? lastMade();
    lasts.set(tab, last);
    return last;
  };
  const failed = (tab: Tab, what: string) => (error: unknown) => {
    log(`${what}: ${error}`);
    tab.post({ kind: "failed" });
  };
  const show = async (tab: Tab) => {
    const result = await of.answer(tab);
    if (result === undefined) return;
    const title = of.titleOf(result, tab.about);
    if (title !== undefined) tab.name(title);
    tab.post({ kind: "result", result });
  };
  const receive = async (message: FromTab | Own, tab: Tab): Promise<unknown> => {
    if (!isFromTab(message)) return of.receive(message, tab);
    switch (message.kind) {
      case "open":
        return void openPlace(message.at);
      case "explain":
        return void commands.executeCommand(PAGE_COMMAND, message.of);
      case "undo":
        return tab.post({ kind: "told", told: await lastOf(tab).undo(tab.keyboard) });
      case "keyboard":
        // The tab itself has heard it.
        return undefined;
    }
  };
  const tabs = liveTabs<About, ToTab<About, Result> | More, FromTab | Own>({
    type: of.type,
    place: of.place,
    title: of.title,
    extension,
    show: (tab) => show(tab).catch(failed(tab, `There is no answer for ${of.inWords}`)),
    async receive(message, tab) {
      await receive(message, tab).catch(failed(tab, `“${message.kind}” could not be done in ${of.inWords}`));
    },
  });
  return {
    ...tabs,
    async write(tab, edits, told) {
      const done = await makeEdits(edits);
      if (done.kind === "refused") tab.post({ kind: "told", told: { message: done.message, undo: false } });
      else tab.post({ kind: "told", told: lastOf(tab).told(done, told()) });
      return done.kind === "made";
    },
  };
}

const FROM_EVERY_TAB: ReadonlySet<string> = new Set<FromTab["kind"]>(["keyboard", "open", "explain", "undo"]);

function isFromTab<Own extends { readonly kind: string }>(message: FromTab | Own): message is FromTab {
  return FROM_EVERY_TAB.has(message.kind);
}
