import type { Craft } from "../../model/craft.ts";
import { amountIn, choiceOf, settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { mayReturn, RETURN_SETTINGS } from "../lib/flies-by-itself.ts";
import { locationAt, restingOn, valueLocation } from "../lib/locations.ts";

/** Clearance of a return over an obstacle, for the drift of a barometer. Common practice, no source. */
const CLEARANCE_M = 10;
/** A barometer drifts by as much in a flight. Common practice, no source. */
const LEAST_CLEARANCE_M = 4;
/** Below it a return meets trees and roofs nearly everywhere. Common practice, no source. */
const LEAST_M = 20;

function tooLow(craft: Craft, workspace: Workspace): Report[] {
  const height = settingOf(craft, "navigation.return-height");
  const obstacle = settingOf(craft, "navigation.obstacle-height");
  const [heightM, obstacleM] = [amountIn(height, "m"), amountIn(obstacle, "m")];
  if (!height || heightM === undefined) return [];
  const at = valueLocation(workspace, height.source);
  if (!obstacle)
    return heightM >= LEAST_M
      ? []
      : [
          {
            at,
            message: `The craft flies home at ${height.text}, lower than many a tree or roof, and nothing says how tall the tallest obstacle is: return at ${LEAST_M} m or more, or write down obstacle-height.`,
          },
        ];
  if (obstacleM === undefined || heightM >= obstacleM + LEAST_CLEARANCE_M) return [];
  const why =
    heightM > obstacleM
      ? `clears it by ${decimalText(heightM - obstacleM, 1)} m, which its barometer may drift in one flight`
      : "flies into it";
  return [
    {
      at,
      message: `The craft flies home at ${height.text}, and an obstacle of ${obstacle.text} is stated: it ${why}. Return at ${decimalText(obstacleM + CLEARANCE_M, 0)} m or more.`,
      related: [{ message: "The obstacle", at: valueLocation(workspace, obstacle.source) }],
      alsoOf: [obstacle.source],
    },
  ];
}

function withoutFix(craft: Craft): Report[] {
  const fix = settingOf(craft, "safety.arm-needs-fix");
  if (fix?.value?.kind !== "yes-no" || fix.value.yes) return [];
  const { start, end } = fix.value;
  const place = (character: number) => ({ line: fix.source.line, character });
  return [
    {
      at: locationAt(fix.source, fix.value),
      message:
        "The craft arms without a fix, and may then have to fly home to a place that it never learned: let arming wait for one.",
      fixes: [{ title: "Wait for a fix", edits: [{ range: { start: place(start), end: place(end) }, text: "yes" }] }],
    },
  ];
}

function stopsInTheAir(craft: Craft, workspace: Workspace): Report[] {
  const arrival = settingOf(craft, "navigation.arrival");
  if (!arrival || choiceOf(craft, "navigation.arrival") !== "stop") return [];
  const height = settingOf(craft, "navigation.return-height");
  const from = height?.value ? `from its return-height of ${height.text}` : "from as high as it came home";
  return [
    {
      at: valueLocation(workspace, arrival.source),
      message: `The craft stops its motors as soon as it is home, and falls ${from} on whatever is below: let it land, or wait for you.`,
      ...restingOn(height?.value ? [height] : [], workspace),
    },
  ];
}

export const rule: CraftRule = {
  code: "return-unready",
  severity: "warning",
  scope: "craft",
  summary: "The craft may fly home by itself: too low, from a place it never learned, or to fall down there.",
  prose:
    "A craft on its way home sees nothing: it flies straight at its return height into whatever is taller. Home is where it was armed, so that without a fix at that moment it returns to nowhere, or to a place that it guessed wrongly. And motors that stop on arrival stop in the air. Set a return height well above the tallest obstacle, about 10 m, since a barometer drifts, and 20 m at least where none is stated; let arming wait for a fix, and the craft land.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nfailsafe\n  then return\n\nnavigation\n  obstacle-height 35 m\n  return-height 30 m\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nfailsafe\n  then return\n\nnavigation\n  obstacle-height 35 m\n  return-height 50 m\n  arrival land\n\nsafety\n  arm-needs-fix yes\n',
    },
  },
  looksAt: {
    settings: [
      ...RETURN_SETTINGS,
      "navigation.return-height",
      "navigation.obstacle-height",
      "navigation.arrival",
      "safety.arm-needs-fix",
    ],
    modes: ["return-home"],
  },
  check: (craft, workspace) =>
    mayReturn(craft) ? [...tooLow(craft, workspace), ...withoutFix(craft), ...stopsInTheAir(craft, workspace)] : [],
};
