import type { Craft } from "../../model/craft.ts";
import { amountIn, choiceOf, settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { locationAt, valueLocation } from "../lib/locations.ts";

/** Clearance of a return over an obstacle, for the drift of a barometer. Common practice, no source. */
const CLEARANCE_M = 10;

function returns(craft: Craft): boolean {
  return craft.modes.has("return-home") || choiceOf(craft, "failsafe.then") === "return";
}

export const rule: CraftRule = {
  code: "return-unready",
  severity: "warning",
  scope: "craft",
  summary: "The craft may fly home by itself, below an obstacle that is stated or without a fix at arming.",
  prose:
    "A craft on its way home sees nothing: it flies straight at its return height into whatever is taller. And home is where it was armed, so that without a fix at that moment it returns to nowhere, or to a place that it guessed wrongly. Set a return height well above the tallest obstacle, about 10 m, since a barometer drifts, and let arming wait for a fix.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nfailsafe\n  then return\n\nnavigation\n  obstacle-height 35 m\n  return-height 30 m\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nfailsafe\n  then return\n\nnavigation\n  obstacle-height 35 m\n  return-height 50 m\n\nsafety\n  arm-needs-fix yes\n',
    },
  },
  looksAt: {
    settings: ["failsafe.then", "navigation.return-height", "navigation.obstacle-height", "safety.arm-needs-fix"],
    modes: ["return-home"],
  },
  check(craft, workspace) {
    if (!returns(craft)) return [];
    const height = settingOf(craft, "navigation.return-height");
    const obstacle = settingOf(craft, "navigation.obstacle-height");
    const fix = settingOf(craft, "safety.arm-needs-fix");
    const [heightM, obstacleM] = [amountIn(height, "m"), amountIn(obstacle, "m")];
    const low =
      height && obstacle && heightM !== undefined && obstacleM !== undefined && heightM <= obstacleM
        ? [
            {
              at: valueLocation(workspace, height.source),
              message: `The craft flies home at ${height.text}, and an obstacle of ${obstacle.text} is stated: it flies into it. Return at ${decimalText(obstacleM + CLEARANCE_M, 0)} m or more.`,
              related: [{ message: "The obstacle", at: valueLocation(workspace, obstacle.source) }],
              alsoOf: [obstacle.source],
            },
          ]
        : [];
    if (fix?.value?.kind !== "yes-no" || fix.value.yes) return low;
    const { start, end } = fix.value;
    const place = (character: number) => ({ line: fix.source.line, character });
    return [
      ...low,
      {
        at: locationAt(fix.source, fix.value),
        message:
          "The craft arms without a fix, and may then have to fly home to a place that it never learned: let arming wait for one.",
        fixes: [{ title: "Wait for a fix", edits: [{ range: { start: place(start), end: place(end) }, text: "yes" }] }],
      },
    ];
  },
};
