/** What the page of a tab knows of the answer that it shows. */
import { useEffect, useState } from "preact/hooks";
import type { Told, ToTab } from "../../shared/protocol/tab-messages.ts";
import { editorApi } from "./host.ts";
import { keepFocus } from "./keep-focus.ts";
import { loadTabState, onTabMessage, saveTabState, useKeptScroll } from "./tab-page.ts";

export interface TabAnswer<About, Result> {
  /** What the tab is about; null before the host has said it for the first time. */
  readonly about: About | null;
  /** The last answer; null before the first. */
  readonly result: Result | null;
  readonly told: Told | null;
  /** The server does not answer: what is shown is of before. */
  readonly failed: boolean;
}

/**
 * Says that the page is there, by `ready`, and gives what the host says since: anew with each message. `more` takes what
 * only this page is told.
 */
export function useTabAnswer<
  About,
  Result,
  From extends { readonly kind: string },
  More extends { readonly kind: string } = never,
>(
  ready: Extract<From, { readonly kind: "ready" }>,
  more: (message: More) => void = () => {},
): TabAnswer<About, Result> {
  const [about, setAbout] = useState(loadTabState<{ readonly about: About | null }>({ about: null }).about);
  const [result, setResult] = useState<Result | null>(null);
  const [told, setTold] = useState<Told | null>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    const stop = onTabMessage((message: ToTab<About, Result> | More) => {
      if (!isToEvery<About, Result, More>(message)) return more(message);
      switch (message.kind) {
        case "about":
          saveTabState({ about: message.about });
          return setAbout(() => message.about);
        case "result":
          setFailed(false);
          return setResult(() => message.result);
        case "failed":
          return setFailed(true);
        case "told":
          return setTold(message.told);
        case "keyboard":
          return editorApi.postMessage({ kind: "keyboard", has: document.hasFocus() });
      }
    });
    editorApi.postMessage(ready);
    return stop;
  }, []);
  useEffect(keepFocus, []);
  useKeptScroll(result !== null);
  return { about, result, told, failed };
}

const TO_EVERY_TAB: ReadonlySet<string> = new Set<ToTab<unknown, unknown>["kind"]>([
  "about",
  "result",
  "failed",
  "told",
  "keyboard",
]);

function isToEvery<About, Result, More extends { readonly kind: string }>(
  message: ToTab<About, Result> | More,
): message is ToTab<About, Result> {
  return TO_EVERY_TAB.has(message.kind);
}
