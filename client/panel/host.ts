/** The way from the panel's page to its host, and what the page remembers while it is hidden. */
import type { ControlsAt, FromPanel, Scenario, ToPanel, ViewName } from "../../shared/protocol/panel.ts";

/** What outlives the page: where the pilot had got to, and nothing of the script itself. */
export interface SavedState {
  readonly view: ViewName;
  readonly scrollTop: number;
  /** The script that the positions were set for. */
  readonly file: string | null;
  readonly positions: ControlsAt;
  /** The moment of the flight that was looked at last. */
  readonly scenario: Scenario | null;
}

interface EditorApi {
  postMessage(message: FromPanel): void;
  getState(): unknown;
  setState(state: SavedState): void;
}

declare function acquireVsCodeApi(): EditorApi;

const api = acquireVsCodeApi();
const initialState: SavedState = { view: "goggles", scrollTop: 0, file: null, positions: {}, scenario: null };

/** Tells the host of a gesture. */
export function postToHost(message: FromPanel): void {
  api.postMessage(message);
}

/** Calls `take` with every message of the host; gives the way to stop. */
export function onHostMessage(take: (message: ToPanel) => void): () => void {
  const onMessage = ({ data }: MessageEvent<ToPanel>) => take(data);
  window.addEventListener("message", onMessage);
  return () => window.removeEventListener("message", onMessage);
}

/** All of it; what a page that has never been shown would remember, where there is nothing. */
export function loadState(): SavedState {
  const state = api.getState();
  return typeof state === "object" && state !== null ? { ...initialState, ...state } : initialState;
}

/** Remembers some of it anew; the rest stays as it was. */
export function saveState(some: Partial<SavedState>): void {
  api.setState({ ...loadState(), ...some });
}
