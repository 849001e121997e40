/** Everything that the numbers view draws of a craft, and what is missing from it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { oncePer } from "../../model/memo.ts";
import type { Workspace } from "../../model/workspace.ts";
import { loopOf } from "../../numbers/loop-of.ts";
import { numberIn } from "../../numbers/values.ts";
import type { NumbersPicture } from "../../protocol/numbers.ts";
import { joinWithAnd } from "../../text/list.ts";
import { filtersPictureOf, ratesPictureOf } from "./curves.ts";
import { positive } from "./drawable-figure.ts";
import { loopPictureOf, packPicturesOf } from "./pack-and-loop.ts";

/** Computed once for each craft; null where it has nothing that can be drawn. */
export function numbersOf(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): NumbersPicture | null {
  return drawable(craft, catalogue);
}

const drawable = oncePer((craft: Craft, catalogue: Catalogue): NumbersPicture | null => {
  const workspace = { catalogue };
  const rates = ratesPictureOf(craft, workspace);
  const packs = packPicturesOf(craft, workspace);
  const filters = filtersPictureOf(craft, workspace);
  const loop = loopPictureOf(craft, workspace);
  if (!rates && packs.length === 0 && !filters && !loop) return null;
  return {
    rates,
    secondRates: rates && ratesPictureOf(craft, workspace, "rates-second"),
    packs,
    filters,
    loop,
    missing: [
      ...(rates ? [] : [NO_RATES]),
      ...(packs.length > 0 ? [] : [NO_PACK]),
      ...(filters ? [] : [whyNoFilters(craft, workspace)]),
      ...(loop ? [] : [whyNoLoop(craft, workspace)]),
    ],
  };
});

/** Why there are no rates to draw, and what to add. */
export const NO_RATES =
  "No rates are set: add a section “rates” with lines such as “roll slope 200 deg/s end 700 deg/s”.";

const NO_PACK = "No pack is set: add a section “pack” with lines such as “cells 6” and “warn-at 3.5 V/cell”.";

/** Why there are no filters to draw, and what to add. */
export function whyNoFilters(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): string {
  if (craft.settings.has("filters") && positive(numberIn(craft, catalogue, "sensors", "loop-rate", "kHz")) === null)
    return "What the filters do depends on how often the loop goes round: set it in “sensors”, as in “loop-rate 4 kHz”.";
  return "No filters are set: add a section “filters” with lines such as “smooth-gyro cut 200 Hz”.";
}

function whyNoLoop(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): string {
  const { signal, loopRateKhz, escRateKbit } = loopOf(craft, catalogue);
  if (signal === "pulse")
    return "The loop's time is drawn for digital commands to the motors; these motors take pulses.";
  const missingLines = [
    ...(loopRateKhz === null ? ["“loop-rate 4 kHz” in “sensors”"] : []),
    ...(signal === null ? ["“esc-signal digital” in “motors”"] : []),
    ...(escRateKbit === null ? ["“esc-rate 300 kbit/s” in “motors”"] : []),
  ];
  if (missingLines.length === 0) return "The loop's time is not known: a line that it needs has a fault.";
  return `The loop's time is not known: add lines such as ${joinWithAnd(missingLines)}.`;
}

/** Why there is nothing to draw, and what to add. */
export const NO_NUMBERS =
  "There is nothing yet of which numbers could be drawn: add sections such as “rates”, “pack” or “filters”.";
