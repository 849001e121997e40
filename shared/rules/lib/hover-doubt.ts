/** What a script says of the hover with a pack, held against what is to be expected of it. */
import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { PackFigures } from "../../numbers/pack-of.ts";
import type { Expected } from "../../numbers/thrust.ts";
import type { ExpectedHover } from "../../numbers/thrust-of.ts";
import { settingIn } from "../../numbers/values.ts";
import { percentOf } from "./throttle.ts";

/** A figure of the script beside the expected one, both in percent of the throttle or both in amperes. */
export interface HeldFigure {
  readonly setting: Setting;
  readonly said: number;
  readonly expected: Expected;
  /** So far beyond what is expected that it is no longer the estimate's own error. */
  readonly isFar: boolean;
}

/** Half again. */
const FAR = 1.5;

/** The throttle, in percent; null where the script does not say it, or where nothing is expected. */
export function heldThrottle(craft: Craft, section: string, { throttle }: ExpectedHover): HeldFigure | null {
  const setting = hoverOf(craft, section);
  const said = percentOf(craft, setting?.value);
  return throttle && setting && said !== null
    ? held(setting, said, { from: throttle.from * 100, to: throttle.to * 100 })
    : null;
}

/** The current, in amperes; null where the script does not say it. */
export function heldCurrent(
  craft: Craft,
  { section, hoverA }: Pick<PackFigures, "section" | "hoverA">,
  { currentA }: ExpectedHover,
): HeldFigure | null {
  const setting = settingIn(craft, section, "hover-current");
  return setting && hoverA !== null ? held(setting, hoverA, currentA) : null;
}

function held(setting: Setting, said: number, expected: Expected): HeldFigure {
  return { setting, said, expected, isFar: said < expected.from / FAR || said > expected.to * FAR };
}

/** The throttle at which a pack hovers: its own, or for the usual pack the frame's. */
function hoverOf(craft: Craft, section: string) {
  const own = craft.settings.get(section)?.get("hover-throttle");
  return own ?? (section === "pack" ? settingOf(craft, "frame.hover-throttle") : undefined);
}
