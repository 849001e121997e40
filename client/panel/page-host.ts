/** Messages between the page of names and its host, and where the page has been. */
import type { FromPage, ToPage } from "../../shared/protocol/pages.ts";
import { editorApi } from "./host.ts";

/** The pages that were gone to, each with how far it was read; `at` is the present one, -1 where there is none. */
export interface History {
  readonly entries: readonly { readonly name: string; readonly scrollTop: number }[];
  readonly at: number;
}

/** Sends a message to the host. */
export function postToPageHost(message: FromPage): void {
  editorApi.postMessage(message);
}

/** Asks for the page of a name. */
export function ask(name: string): void {
  postToPageHost({ kind: "ask", name });
}

/** Calls `take` with every message of the host; returns a function that stops this. */
export function onPageMessage(take: (message: ToPage) => void): () => void {
  const onMessage = ({ data }: MessageEvent<ToPage>) => take(data);
  window.addEventListener("message", onMessage);
  return () => window.removeEventListener("message", onMessage);
}

/** Where the page has been before it was hidden, or before the editor was closed. */
export function loadHistory(): History {
  const state = editorApi.getState() as Partial<History> | undefined;
  return Array.isArray(state?.entries) && state.at !== undefined
    ? { entries: state.entries, at: state.at }
    : { entries: [], at: -1 };
}

/** Keeps where the page is. */
export function saveHistory(history: History): void {
  editorApi.setState(history);
}
