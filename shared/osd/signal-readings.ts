/**
 * What the display shows while the signal is lost, phase by phase. As long as the board does not know of the loss
 * nothing tells of it; what a receiver that goes on sending reports of the link is its own affair, so that the link
 * reads as it was last heard. The words and the climb are the project's own example, no measurement.
 */
import type { PhaseDeed, SignalPhase } from "../protocol/signal.ts";

export interface PhaseReadings {
  /** False while the board takes the link for a live one. */
  readonly told: boolean;
  /** Readings in which the phase differs; `mode` only where it is not that of flight. */
  readonly scene: Readonly<Record<string, number | string>>;
}

/** The readings of a phase. `then` is the word of `failsafe.then`, which the display names while the craft still waits. */
export function phaseReadings({ deed, receiver }: SignalPhase, then: string | undefined): PhaseReadings {
  const told = (receiver === "silent" || receiver === "unknown") && !UNTOLD.includes(deed.kind);
  const failsafe: PhaseReadings["scene"] = told ? { mode: "FAILSAFE" } : {};
  return { told, scene: { ...failsafe, ...sceneOf(deed, then) } };
}

const UNTOLD: readonly PhaseDeed["kind"][] = ["unnoticed", "flies-on", "never-noticed", "obeys-presets"];

function sceneOf(deed: PhaseDeed, then: string | undefined): PhaseReadings["scene"] {
  switch (deed.kind) {
    case "unnoticed":
    case "flies-on":
    case "never-noticed":
      return { message: "" };
    case "obeys-presets":
      return { message: "", ...(deed.on.includes("level") && { mode: "LEVEL" }) };
    case "held":
      return { message: then === undefined ? "SIGNAL LOST" : `SIGNAL LOST: ${then.toUpperCase()}` };
    case "descends":
      return { message: "DESCENDING", climb: -2, ...throttleOf(deed.throttle) };
    case "climbs":
      return { mode: "RETURN HOME", message: "CLIMBING", climb: 2 };
    case "flies-home":
      return { mode: "RETURN HOME", message: "FLYING HOME", climb: 0 };
    case "waits-home":
      return { mode: "RETURN HOME", message: "WAITING OVER HOME", climb: 0, speed: 0, "home-distance": 3 };
    case "lands":
      return { mode: "RETURN HOME", message: "LANDING", climb: -1, speed: 0, height: 12, "home-distance": 3 };
    case "down":
      return { mode: "RETURN HOME", message: "LANDED", ...ON_THE_GROUND };
    case "stops":
      return { message: "MOTORS STOPPED", throttle: 0, ...(deed.after === "landing" && ON_THE_GROUND) };
    case "lands-or-stops":
    case "unknown":
      return { message: "SIGNAL LOST" };
  }
}

const ON_THE_GROUND = { throttle: 0, climb: 0, speed: 0, height: 0, "ground-clearance": 0, "home-distance": 3 };

/** A share is what the display shows; of a pulse it is not known what the board makes of it. */
function throttleOf(text: string | null): { readonly throttle?: number } {
  const percent = text === null ? null : /^([\d.]+) %$/.exec(text);
  return percent ? { throttle: Number(percent[1]) } : {};
}
