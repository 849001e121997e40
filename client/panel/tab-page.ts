/** What the pages of a comparison and of a review have in common: messages to their host, and a state that outlives them. */
import { useEffect } from "preact/hooks";
import { editorApi } from "./host.ts";

/** Calls `take` with every message of the host; returns a function that stops this. */
export function onTabMessage<Message>(take: (message: Message) => void): () => void {
  const onMessage = ({ data }: MessageEvent<Message>) => take(data);
  window.addEventListener("message", onMessage);
  return () => window.removeEventListener("message", onMessage);
}

/** The saved state with what is missing in it as `initial` has it. */
export function loadTabState<State extends object>(initial: State): State {
  const state = editorApi.getState();
  return typeof state === "object" && state !== null ? { ...initial, ...state } : initial;
}

/** Saves some members of the state; the others stay as they were. */
export function saveTabState(some: object): void {
  editorApi.setState({ ...(editorApi.getState() as object | undefined), ...some });
}

/** Keeps how far the page was read, and returns there once something is shown. */
export function useKeptScroll(isShown: boolean): void {
  useEffect(() => {
    const keep = () => saveTabState({ scrollTop: window.scrollY });
    window.addEventListener("scrollend", keep);
    return () => window.removeEventListener("scrollend", keep);
  }, []);
  useEffect(() => {
    if (isShown) window.scrollTo(0, loadTabState({ scrollTop: 0 }).scrollTop);
  }, [isShown]);
}
