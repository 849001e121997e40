/** What mass, propellers, motors and pack make likely of the hover, roughly. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { packIn } from "../../numbers/pack-of.ts";
import { type ExpectedHover, hoverWithPack, type NoHover, usualHover } from "../../numbers/thrust-of.ts";
import { currentRange, throttleRange } from "../context/hover-words.ts";
import { type ConsequenceProvider, consequence } from "./provider.ts";

/** What the estimate rests on. */
const OF_FRAME = ["mass", "motors", "propeller-diameter", "propeller-pitch", "propeller-blades"].map(
  (name) => `frame.${name}`,
);

/** The expected throttle, or of `hover-current` the current, beside what the line says. */
export const likelyHover: ConsequenceProvider = ({ craft, catalogue, section, name }) => {
  const expected = hoverFor(craft, catalogue, section);
  if (!expected || !("currentA" in expected)) return [];
  const of = section === "frame" ? "pack" : section;
  const from = [...OF_FRAME, `${of}.cells`, `${of}.chemistry`];
  if (name === "hover-current")
    return consequence(`By a rough estimate the hover takes ${currentRange(expected)}`, from);
  if (expected.throttle === null) return [];
  return consequence(`By a rough estimate it hovers at ${throttleRange(expected.throttle)}`, [...from, "motors.kv"]);
};

function hoverFor(craft: Craft, catalogue: Catalogue, section: string): ExpectedHover | NoHover | null {
  if (section === "frame") return usualHover(craft, catalogue);
  const pack = packIn(craft, catalogue, section);
  return pack ? hoverWithPack(craft, catalogue, pack) : null;
}
