/** Messages between the panel's page and its host, and the state that the page keeps while it is hidden. */
import type { ControlsAt, Scenario, ViewName } from "../../shared/protocol/panel.ts";
import type { BenchLooksOf, FromPanel, ToPanel } from "../../shared/protocol/panel-messages.ts";
import type { SignalStep } from "../../shared/protocol/signal.ts";

/** What survives when the page is closed: what was being viewed, and nothing of the script itself. */
export interface SavedState {
  readonly view: ViewName;
  readonly scrollTop: number;
  /** The script that the positions were set for. */
  readonly file: string | null;
  readonly positions: ControlsAt;
  /** The moment of the flight that was shown last. */
  readonly scenario: Scenario | null;
  /** Of a lost signal: the course and the phase that were shown last. */
  readonly signal: SignalStep | null;
  /** While two craft are compared, whose picture of the OSD is shown. */
  readonly sides: "here" | "there" | "both";
  /** The picture of the OSD has its magnifier. */
  readonly magnified: boolean;
  /** How bench lists are looked at, by the file of the craft. */
  readonly bench: BenchLooksOf;
  /** Of many packs: what is searched for, and the sections of those that are open. */
  readonly packs: { readonly search: string; readonly open: readonly string[] };
  readonly fleet: FleetLook;
}

/** How the fleet is looked at. */
export interface FleetLook {
  /** Which of its tables; empty for the first. */
  readonly table: string;
  readonly search: string;
  readonly onlyDiffering: boolean;
}

export const FIRST_FLEET_LOOK: FleetLook = { table: "", search: "", onlyDiffering: false };

interface EditorApi {
  postMessage(message: FromPanel): void;
  getState(): unknown;
  setState(state: SavedState): void;
}

declare function acquireVsCodeApi(): EditorApi;

const api = acquireVsCodeApi();

/** The editor's side of the page, for an app with messages and a state of its own. It can be had only once. */
export const editorApi: { postMessage(message: unknown): void; getState(): unknown; setState(state: unknown): void } =
  api;

const initialState: SavedState = {
  view: "goggles",
  scrollTop: 0,
  file: null,
  positions: {},
  scenario: null,
  signal: null,
  sides: "both",
  magnified: false,
  bench: {},
  packs: { search: "", open: [] },
  fleet: FIRST_FLEET_LOOK,
};

/** Sends a message to the host. */
export function postToHost(message: FromPanel): void {
  api.postMessage(message);
}

/** Calls `take` with every message of the host; returns a function that stops this. */
export function onHostMessage(take: (message: ToPanel) => void): () => void {
  const onMessage = ({ data }: MessageEvent<ToPanel>) => take(data);
  window.addEventListener("message", onMessage);
  return () => window.removeEventListener("message", onMessage);
}

/** The saved state; the initial one where nothing is saved. */
export function loadState(): SavedState {
  const state = api.getState();
  return typeof state === "object" && state !== null ? { ...initialState, ...state } : initialState;
}

/** Saves some members of the state; the others stay as they were. */
export function saveState(some: Partial<SavedState>): void {
  api.setState({ ...loadState(), ...some });
}
