/** How much can go wrong if a difference is overlooked. */
import { baseOf } from "../../model/craft.ts";
import type { DifferenceKind, Risk } from "../../protocol/compare.ts";

/** Modes that start the motors, keep them from it, or take the craft over. */
const RISKY_MODES: ReadonlySet<string> = new Set(["arm", "arm-permit", "turtle", "level-now", "return-home"]);

const BY_SECTION: Readonly<Record<string, Risk>> = {
  controls: "high",
  link: "high",
  safety: "high",
  failsafe: "high",
  motors: "high",
  ports: "high",
  outputs: "medium",
  pack: "medium",
  gains: "medium",
  "gains-second": "medium",
  rates: "medium",
  "rates-second": "medium",
  filters: "medium",
  sensors: "medium",
  navigation: "medium",
  transmitter: "medium",
};

/** The risk of a name of a section; a handset that is another one puts every control in another place. */
export function riskOf(section: string, name: string, kind: DifferenceKind): Risk {
  if (section === "handset") return "high";
  if (kind === "mode") return RISKY_MODES.has(name) ? "high" : "medium";
  if (section === "sensors" && name.startsWith("mount-")) return "high";
  if (section === "video" && name === "power") return "medium";
  return BY_SECTION[baseOf(section)] ?? "low";
}

const RANK: Readonly<Record<Risk, number>> = { high: 0, medium: 1, low: 2 };

/** Orders risks, the highest first. */
export function compareRisks(a: Risk, b: Risk): number {
  return RANK[a] - RANK[b];
}
