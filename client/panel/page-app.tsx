/** The page of a name: its text, the way back and forward, and a search for another. */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { NamedPage, PageView, ToPage } from "../../shared/protocol/pages.ts";
import { ask, type History, loadHistory, onPageMessage, postToPageHost, saveHistory } from "./page-host.ts";
import { PageSearch } from "./page-search.tsx";

/** What stands where the page should: not asked yet, asked for, or not to be had. */
type Shown = { readonly kind: "nothing" | "failed" } | { readonly kind: "page"; readonly page: PageView };

/** The whole page. It keeps where it has been; every text is the server's. */
export function PageApp() {
  const [history, setHistory] = useState<History>(loadHistory);
  const [shown, setShown] = useState<Shown>({ kind: "nothing" });
  const [found, setFound] = useState<{ readonly typed: string; readonly names: readonly NamedPage[] } | null>(null);
  const article = useRef<HTMLElement>(null);
  /** What comes with the next text: the keyboard too, the place where it was read, or neither. */
  const settle = useRef<"arrive" | "restore" | "stay">("restore");
  const now = useRef(history);

  const show = (next: History) => {
    now.current = next;
    settle.current = "arrive";
    saveHistory(next);
    setHistory(next);
    ask(next.entries[next.at]!.name);
  };
  const go = (name: string) => {
    const { entries, at } = withScroll(now.current);
    if (entries[at]?.name === name) return show({ entries, at });
    const before = entries.slice(0, at + 1).slice(1 - MOST_ENTRIES);
    show({ entries: [...before, { name, scrollTop: 0 }], at: before.length });
  };
  const step = (by: -1 | 1) => {
    const { entries, at } = withScroll(now.current);
    if (entries[at + by]) show({ entries, at: at + by });
  };
  const askAgain = () => {
    const name = now.current.entries[now.current.at]?.name;
    if (name !== undefined) ask(name);
  };

  useEffect(() => {
    const stop = onPageMessage((message: ToPage) => {
      switch (message.kind) {
        case "go":
          return go(message.name);
        case "page":
          if (message.asked !== now.current.entries[now.current.at]?.name) return;
          return setShown(message.page ? { kind: "page", page: message.page } : { kind: "failed" });
        case "names":
          return setFound(message);
        case "stale":
          return askAgain();
      }
    });
    askAgain();
    postToPageHost({ kind: "ready" });
    return stop;
  }, []);
  useHistoryKeys(step);
  useLinks(go);
  useEffect(() => {
    const keep = () => saveHistory(withScroll(now.current));
    window.addEventListener("scrollend", keep);
    return () => window.removeEventListener("scrollend", keep);
  }, []);
  useLayoutEffect(() => {
    if (shown.kind !== "page") return;
    if (settle.current !== "stay") window.scrollTo(0, now.current.entries[now.current.at]?.scrollTop ?? 0);
    if (settle.current === "arrive") article.current?.focus({ preventScroll: true });
    settle.current = "stay";
  }, [shown]);

  const { entries, at } = history;
  return (
    <>
      <h1 class="unseen">Names explained</h1>
      <header class="page-bar">
        <button type="button" aria-label="Back" title="Back (Alt+Left)" disabled={at <= 0} onClick={() => step(-1)}>
          ←
        </button>
        <button
          type="button"
          aria-label="Forward"
          title="Forward (Alt+Right)"
          disabled={at + 1 >= entries.length}
          onClick={() => step(1)}
        >
          →
        </button>
        <PageSearch found={found} go={go} />
      </header>
      <article tabIndex={-1} ref={article} aria-label={shown.kind === "page" ? shown.page.title : "No page"}>
        {shown.kind === "failed" && (
          <p>
            The language server gave no answer.{" "}
            <button type="button" onClick={askAgain}>
              Ask again
            </button>
          </p>
        )}
        {shown.kind === "nothing" && entries.length === 0 && <p>Search above for a name, or for what it does.</p>}
        {shown.kind === "page" && <PageText html={shown.page.html} />}
      </article>
    </>
  );
}

/** More steps back are not kept. */
const MOST_ENTRIES = 100;

/** The text of a page, which the server made of its own reference: it has escaped all that is anybody else's, and no script may run here. */
function PageText({ html }: { html: string }) {
  return <div class="page-text" dangerouslySetInnerHTML={{ __html: html }} />;
}

function withScroll({ entries, at }: History): History {
  return { entries: entries.map((entry, i) => (i === at ? { ...entry, scrollTop: window.scrollY } : entry)), at };
}

/** A link leads to another page of this tab, by pointer and by Enter alike. */
function useLinks(go: (name: string) => void): void {
  useEffect(() => {
    const onClick = (event: MouseEvent) => {
      const link = event.target instanceof Element ? event.target.closest("article a[href^='#']") : null;
      const name = link?.getAttribute("href")?.slice(1);
      if (!name) return;
      event.preventDefault();
      go(name);
    };
    document.addEventListener("click", onClick);
    return () => document.removeEventListener("click", onClick);
  }, []);
}

/** Alt with an arrow key, and the further buttons of a mouse, go back and forward. */
function useHistoryKeys(step: (by: -1 | 1) => void): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      const by = ({ ArrowLeft: -1, ArrowRight: 1 } as const)[event.key];
      if (!by || !event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      // The editor also receives the keys of the page, and would go back itself.
      event.stopPropagation();
      step(by);
    };
    const onMouseUp = ({ button }: MouseEvent) => {
      if (button === 3) step(-1);
      if (button === 4) step(1);
    };
    document.addEventListener("keydown", onKeyDown);
    document.addEventListener("mouseup", onMouseUp);
    return () => {
      document.removeEventListener("keydown", onKeyDown);
      document.removeEventListener("mouseup", onMouseUp);
    };
  }, []);
}
