import { boardOf, linkOf, stickOrder } from "../../logic/from-craft.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import { amountIn, settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { END_TOLERANCE_US } from "../../numbers/sticks.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { descendsOnLoss } from "../lib/flies-by-itself.ts";
import { valueLocation } from "../lib/locations.ts";
import { throttlePercent } from "../lib/throttle.ts";

/** The longest time of holding, and of descending, that counts as bounded. The project's own figures. */
const LONGEST_HOLD_S = 10;
const LONGEST_DESCENT_S = 60;

function endless(craft: Craft): { setting: Setting; why: string } | null {
  const hold = settingOf(craft, "failsafe.hold-for");
  const holdS = amountIn(hold, "s");
  if (hold && holdS !== undefined && holdS > LONGEST_HOLD_S)
    return { setting: hold, why: `the craft flies on for ${holdS} s` };
  const descent = settingOf(craft, "failsafe.descend-for");
  const descentS = amountIn(descent, "s");
  const throttle = throttlePercent(craft, "failsafe.descend-throttle");
  if (!descendsOnLoss(craft) || !descent || descentS === undefined) return null;
  if (throttle === null || throttle <= (throttlePercent(craft, "motors.idle") ?? 0)) return null;
  if (descentS !== 0 && descentS <= LONGEST_DESCENT_S) return null;
  return { setting: descent, why: descentS === 0 ? "the descent has no end" : `the descent goes on for ${descentS} s` };
}

/** Modes in which the craft comes home or down without its pilot. */
const BRINGS_DOWN: readonly string[] = ["return-home", "loss-trial"];

/** A receiver whose presets leave the craft armed with the throttle open, whatever the controls' positions were. */
function presetHolds(craft: Craft, workspace: Workspace): Report[] {
  const setting = settingOf(craft, "link.preset-channels");
  const bringsDown = BRINGS_DOWN.filter((mode) => craft.modes.has(mode));
  const { loss, endpointsUs } = linkOf(craft);
  if (!setting || loss.onLoss !== "preset" || !craft.modes.has("arm")) return [];
  const throttleUs = loss.pulsesUs.get(stickOrder(craft).indexOf("throttle") + 1);
  const reversed = settingOf(craft, "link.reversed")?.text.includes("throttle") ?? false;
  const above =
    throttleUs !== undefined && (reversed ? endpointsUs.toUs - throttleUs : throttleUs - endpointsUs.fromUs);
  if (above === false || above <= END_TOLERANCE_US) return [];
  const { armed, outcomes } = boardOf(craft, workspace).loss();
  // Of a channel without a preset nothing is known, and in flight it stood at armed.
  if (armed !== "on" && armed !== "either") return [];
  // Presets may ask the craft to look after itself.
  if (bringsDown.some((mode) => outcomes.get(mode) === "on")) return [];
  const arm = conditionLocation(craft, workspace, "arm");
  return [
    {
      at: valueLocation(workspace, setting.source),
      severity: armed === "on" ? "error" : "warning",
      message: `When the signal is lost the receiver sends a throttle of ${throttleUs} us and ${armed === "on" ? "leaves the craft armed" : "nothing that disarms the craft"}: it flies on with nobody at the sticks. Send arm off and a closed throttle.`,
      related: [{ message: "Armed by this", at: arm.at }],
    },
  ];
}

export const rule: CraftRule = {
  code: "failsafe-holds-arm",
  severity: "error",
  scope: "craft",
  summary: "Signal loss leaves the craft armed with the throttle above idle and no end to it.",
  prose:
    "A craft that has lost its pilot and keeps its motors turning flies until it hits something. A few seconds of holding bridge a gap in the link; after that it has to stop, or to come down for a time that is bounded. Shorten hold-for, or bound the descent with descend-for. A receiver that sends presets must send arm off, or a closed throttle.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nfailsafe\n  hold-for 60 s\n  then stop\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nfailsafe\n  hold-for 1 s\n  then stop\n' },
  },
  looksAt: {
    settings: [
      "failsafe.hold-for",
      "failsafe.then",
      "failsafe.then-without-fix",
      "failsafe.descend-for",
      "failsafe.descend-throttle",
      "motors.idle",
      "link.on-loss",
      "link.preset-channels",
      "link.order",
      "link.reversed",
      "link.endpoints",
    ],
    modes: ["arm", "return-home", "loss-trial"],
  },
  check(craft, workspace) {
    const found = endless(craft);
    if (!found) return presetHolds(craft, workspace);
    return [
      ...presetHolds(craft, workspace),
      {
        at: valueLocation(workspace, found.setting.source),
        message: `When the signal is lost ${found.why} with its motors above idle.`,
      },
    ];
  },
};
