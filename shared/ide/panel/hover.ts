/** What is to be expected of the hover, as the panel shows it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { packOf } from "../../numbers/pack-of.ts";
import { usualHover } from "../../numbers/thrust-of.ts";
import type { HoverFigure, HoverPicture } from "../../protocol/numbers.ts";
import { type HeldFigure, heldCurrent, heldThrottle } from "../../rules/lib/hover-doubt.ts";
import { formatNumber } from "../context/format.ts";
import { currentRange, throttleRange } from "../context/hover-words.ts";

/** With the usual pack; null where too little is said for an estimate, or where none holds. */
export function hoverPictureOf(craft: Craft, catalogue: Catalogue): HoverPicture | null {
  const expected = usualHover(craft, catalogue);
  if (!("currentA" in expected)) return null;
  const { section, throttle } = expected;
  return {
    figures: [
      ...(throttle
        ? [figure("throttle", throttleRange(throttle), heldThrottle(craft, section, expected), "%", craft)]
        : []),
      figure("current", currentRange(expected), heldCurrent(craft, packOf(craft, catalogue), expected), "A", craft),
    ],
  };
}

/** Where a used file is missing nothing is called doubtful, as that file may say otherwise. */
function figure(
  name: HoverFigure["name"],
  expected: string,
  held: HeldFigure | null,
  unit: "%" | "A",
  { gaps }: Craft,
): HoverFigure {
  return {
    name,
    expected,
    said: held && `${formatNumber(held.said)} ${unit}`,
    at: held?.setting.source ?? null,
    isDoubtful: (held?.isFar ?? false) && gaps.length === 0,
  };
}
