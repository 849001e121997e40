/** What the pilot has chosen to see of a craft. It is not part of the script. */
import type { ControlsAt, PanelParams, Scenario } from "../../shared/protocol/panel.ts";

export interface ViewState extends Pick<PanelParams, "positions" | "scenario" | "page" | "fit" | "signal" | "against"> {
  /** The moment of the flight that was shown before the signal was lost. */
  readonly before?: Scenario | undefined;
}

/** The same, shown at another moment; the one before a lost signal is kept. */
export function atMoment(state: ViewState, scenario: Scenario): ViewState {
  if (scenario !== "signal-lost" || state.scenario === "signal-lost") return { ...state, scenario };
  return { ...state, scenario, before: state.scenario };
}

/** The signal is lost, or is there again. */
export function withSignal(state: ViewState, is: "lost" | "up"): ViewState {
  if (is === "lost") return atMoment(state, "signal-lost");
  return state.scenario === "signal-lost" ? { ...state, scenario: state.before } : state;
}

/** Controls are moved: that has an effect only while the signal is there. */
export function withPositions(state: ViewState, positions: ControlsAt): ViewState {
  return { ...withSignal(state, "up"), positions };
}

/** What the server is asked for. */
export function askedOf({ before: _, ...asked }: ViewState): Partial<PanelParams> {
  return asked;
}
