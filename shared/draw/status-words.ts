/** The status of a craft in words: short in the status bar, whole in its hover. */
import type { ArmingSummary, CraftStatus } from "../protocol/status.ts";
import { findingsInWords } from "./workspace-outline.ts";

export interface StatusWords {
  /** As in “Tankard: ready · 2 warnings”. */
  readonly text: string;
  /** Whether it is one of the states that want a look: not ready, armed at rest, or an error. */
  readonly isAmiss: boolean;
  /** A sentence or two a line. */
  readonly hover: readonly string[];
}

const STATES: Readonly<Record<ArmingSummary["state"], string>> = {
  armed: "armed at rest",
  ready: "ready",
  depends: "may arm",
  "not-ready": "not ready",
  unknown: "arming not known",
};

/** What the status bar shows, and what its hover adds. */
export function statusInWords({ kind, name, fault, craft, arming, findings }: CraftStatus): StatusWords {
  const found = findingsInWords(findings);
  const parts = [craft && arming ? stateOf(arming, findings) : kind === "craft" ? "not read" : "", found];
  const state = parts.filter((part) => part !== "").join(" · ");
  const subject = craft?.name ?? name;
  return {
    text: state === "" ? subject : `${subject}: ${state}`,
    isAmiss: arming?.state === "not-ready" || arming?.state === "armed" || findings.errors > 0,
    hover: [
      ...(fault === null ? [] : [`${fault.charAt(0).toUpperCase()}${fault.slice(1)}.`]),
      ...(kind === "craft" ? [] : [whose(kind, name, craft?.name ?? null)]),
      ...(arming ? armingLines(arming) : []),
      found === "" ? "Nothing is found in it." : `Found in it: ${found}.`,
    ],
  };
}

/** Beside an error nothing is called ready: that the craft can be armed is then no good sign. */
function stateOf({ state }: ArmingSummary, { errors }: CraftStatus["findings"]): string {
  return state === "ready" && errors > 0 ? "can arm" : STATES[state];
}

function whose(kind: string, name: string, craft: string | null): string {
  if (kind === "dialect") return `The dialect “${name}”: what the text of a board means.`;
  if (craft !== null) return `The ${kind} “${name}”, as a part of the craft “${craft}”.`;
  return `The ${kind} “${name}”, which no craft uses.`;
}

function armingLines({ state, words, obstacle, besides }: ArmingSummary): string[] {
  const [first, ...more] = besides;
  const then = first === undefined ? [] : [`Then: ${first}${more.length > 0 ? ` And ${more.length} more.` : ""}`];
  switch (state) {
    case "armed":
      return [words, ...then];
    case "ready":
      return [...(obstacle === null ? [] : [`At rest: ${obstacle}`]), `Ready to arm: ${words}`, ...then];
    case "depends":
      return [`It may arm: ${words}`];
    case "not-ready":
      return [`Not ready to arm: ${words}`];
    case "unknown":
      return [`Whether it arms is not known. ${words}`];
  }
}
