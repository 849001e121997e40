import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { amountIn, settingOf } from "../../model/setting-lookup.ts";
import { numberIn } from "../../numbers/values.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { type CheckedPack, type PackReport, packReports } from "../lib/packs.ts";

const RATING = "motors.esc-rating";

/** From half above the rating on it is a warning. The project's own figure. */
const FAR = 1.5;

/** The number of controllers, the rating of one, and of all together; null if that is not known. */
function controllersOf(craft: Craft, catalogue: Catalogue) {
  const ratingA = amountIn(settingOf(craft, RATING), "A");
  const motors = numberIn(craft, catalogue, "frame", "motors", "");
  return ratingA === undefined || motors === null ? null : { motors, ratingA, allA: ratingA * motors };
}

/** Reports more current than the pack may give, or than all controllers together (`allA`) can carry. */
function excessOf(pack: CheckedPack, allA: number | null): PackReport[] {
  const { fullA, ratedA, capacityMah, ratingC } = pack;
  if (fullA === null) return [];
  // A share of the current for rounding: 1.1 Ah at 120 C is exactly 132 A.
  const over = (limitA: number | null) => limitA !== null && fullA > limitA * (1 + 1e-9);
  const full = pack.setting("full-current");
  const overPack = over(ratedA)
    ? `the pack is rated for ${decimalText(ratedA!, 1)} A (${capacityMah} mAh at ${ratingC} C)`
    : "";
  // A share of half as much again is more than what optimistic labels explain.
  const isFar = [ratedA, allA].some((limitA) => limitA !== null && fullA >= FAR * limitA);
  const escs = over(allA) ? controllersOf(pack.craft, pack.catalogue) : null;
  const overEsc = escs ? `${escs.motors} controllers of ${escs.ratingA} A carry ${decimalText(escs.allA, 1)} A` : "";
  if (!overPack && !overEsc) return [];
  const stronger =
    overPack && overEsc
      ? "a stronger pack and stronger controllers"
      : overPack
        ? "a stronger pack"
        : "stronger controllers";
  return [
    {
      of: [
        full,
        ...(overPack ? [pack.setting("capacity"), pack.setting("discharge-rating")] : []),
        ...(overEsc ? [settingOf(pack.craft, RATING), settingOf(pack.craft, "frame.motors")] : []),
      ],
      severity: isFar ? "warning" : "hint",
      message: `The craft draws ${decimalText(fullA, 1)} A at full throttle, and ${[overPack, overEsc].filter(Boolean).join(", and ")}: take ${stronger}, or limit the motors.`,
    },
  ];
}

export const rule: CraftRule = {
  code: "current-over-rating",
  severity: "hint",
  scope: "craft",
  summary: "The full current is more than the pack, or the speed controllers, are rated for.",
  prose:
    "A pack may give its capacity times its discharge rating (EN 61434: 5 Ah at 2C is 10 A), and all speed controllers together carry as many times their rating as there are motors. Above that the pack sags, warms and swells, and a controller may fail shorted in the air. Printed ratings are optimistic. Take a stronger pack or controllers, or limit the motors.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\npack\n  capacity 1500 mAh\n  discharge-rating 60 C\n  full-current 120 A\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\npack\n  capacity 1500 mAh\n  discharge-rating 100 C\n  full-current 120 A\n',
    },
  },
  looksAt: {
    settings: ["pack.full-current", "pack.capacity", "pack.discharge-rating", RATING, "frame.motors"],
  },
  check: (craft, workspace) =>
    packReports(craft, workspace, excessOf, controllersOf(craft, workspace.catalogue)?.allA ?? null),
};
