/** A webview of the editor in memory, joined to a page of the browser: late, in bursts, hidden and shown again. */
import type { MemoryWebview } from "./memory-editor.ts";
import type { Frame } from "./page-in-view.ts";
import { transport } from "./transport.ts";

export interface Connection {
  readonly webview: MemoryWebview;
  /** What the page was told last, of each kind that it draws, in the order in which it came. */
  told(): readonly Message[];
  /** What the page has said since the last call. */
  said(): readonly Message[];
  /** How many messages the page has sent, and how many it was sent. */
  heard(): number;
  sent(): number;
  /** Which view the page has said that it shows. */
  view(): string;
  isBusy(): boolean;
  /** Takes the page away, or loads it, as the editor has shown or hidden it since. */
  follow(): Promise<void>;
  end(): Promise<void>;
}

export interface Message {
  readonly kind: string;
}

/** Kinds of messages that are an event, and of which a page that begins anew hears nothing. */
const EVENTS = new Set(["show", "keyboard", "bench-told", "bench-tried", "bench-looks", "adopted", "go", "stale"]);
/** Kinds that say that what is shown is out of date, and the kinds that end that. */
const UP_TO_DATE = new Set(["model", "result"]);

/** Joins them from now on; `failed` hears of what ought not to happen in between. */
export function connect(
  webview: MemoryWebview,
  frame: Frame,
  lateMs: () => number,
  failed: (error: unknown) => void,
): Connection {
  let loading: Promise<void> | null = null;
  let kept: string | null = null;
  let told: Message[] = [];
  const said: Message[] = [];
  let [heard, sent] = [0, 0];
  let view = "";
  const toPage = transport(
    lateMs,
    async (messages) => {
      await loading;
      if (!loading) return;
      sent += messages.length;
      for (const message of messages as Message[]) {
        if (EVENTS.has(message.kind)) continue;
        told = told.filter(({ kind }) => kind !== message.kind && !(kind === "failed" && UP_TO_DATE.has(message.kind)));
        told.push(message);
      }
      await frame.post(messages);
    },
    failed,
  );
  const fromPage = transport(
    lateMs,
    (messages) => {
      for (const message of messages as Message[]) {
        said.push(message);
        heard++;
        if (message.kind === "view") view = String((message as unknown as { readonly view: string }).view);
        if (!webview.isDisposed) webview.receive(message);
      }
    },
    failed,
  );
  frame.take = fromPage.send;
  webview.posted.event((message) => {
    // An editor keeps nothing for a page that is hidden.
    if (loading) toPage.send(message);
  });
  return {
    webview,
    told: () => told,
    said: () => said.splice(0),
    heard: () => heard,
    sent: () => sent,
    view: () => view,
    isBusy: () => toPage.isBusy() || fromPage.isBusy(),
    async follow() {
      if (webview.isVisible && !loading) {
        told = [];
        loading = frame.load(webview.html, kept);
        await loading;
      } else if (!webview.isVisible && loading) {
        kept = await frame.kept();
        loading = null;
        toPage.lose();
        await frame.empty();
      }
    },
    async end() {
      loading = null;
      toPage.lose();
      frame.take = () => {};
      await frame.empty();
    },
  };
}
