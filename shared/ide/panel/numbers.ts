/** Everything that the numbers view draws of a craft, and what is missing from it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { oncePer } from "../../model/memo.ts";
import type { Workspace } from "../../model/workspace.ts";
import { loopOf } from "../../numbers/loop-of.ts";
import { numberIn } from "../../numbers/values.ts";
import type { NumbersPicture } from "../../protocol/numbers.ts";
import type { Fillable, Gap, WayOn } from "../../protocol/ways.ts";
import { joinWithAnd } from "../../text/list.ts";
import { filtersPictureOf, ratesPictureOf } from "./curves.ts";
import { positive } from "./drawable-figure.ts";
import { hoverPictureOf } from "./hover.ts";
import { motorsPicture } from "./motors.ts";
import { loopPictureOf, packPicturesOf } from "./pack-and-loop.ts";
import { waysToMissingPart } from "./ways.ts";

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
  const motors = motorsPicture(craft, workspace);
  if (!rates && packs.length === 0 && !filters && !loop && !motors) return null;
  return {
    rates,
    secondRates: rates && ratesPictureOf(craft, workspace, "rates-second"),
    packs,
    filters,
    loop,
    motors,
    hover: hoverPictureOf(craft, catalogue),
    missing: [
      ...(rates ? [] : [ratesGap(craft)]),
      ...(packs.length > 0 ? [] : [packGap(craft)]),
      ...(filters ? [] : [filtersGap(craft, workspace)]),
      ...(loop ? [] : [loopGap(craft, workspace)]),
      ...(motors ? [] : [motorsGap(craft)]),
    ],
  };
});

/** Why there are no rates to draw, and what to add. */
export const NO_RATES =
  "No rates are set: add a section “rates” with lines such as “roll slope 200 deg/s end 700 deg/s”.";

/** Why there are no motors to draw, and what to add. */
export const NO_MOTORS =
  "Nothing is said of how the motors stand: add lines such as “motors 4” and “arm-layout true-x” to “frame”.";

const NO_PACK = "No pack is set: add a section “pack” with lines such as “cells 6” and “warn-at 3.5 V/cell”.";

function ratesGap(craft: Craft): Gap {
  return faultIn(craft, "rates") ?? { why: NO_RATES, ways: [fillIn(craft, "Add rates", "rates")] };
}

function packGap(craft: Craft): Gap {
  return { why: NO_PACK, ways: [fillIn(craft, "Add a pack", "pack")] };
}

/** Why there are no filters to draw, and what to add. */
export function whyNoFilters(craft: Craft, workspace: Pick<Workspace, "catalogue">): string {
  return filtersGap(craft, workspace).why;
}

function filtersGap(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): Gap {
  if (craft.settings.has("filters") && positive(numberIn(craft, catalogue, "sensors", "loop-rate", "kHz")) === null) {
    const why =
      "What the filters do depends on how often the loop goes round: set it in “sensors”, as in “loop-rate 4 kHz”.";
    return (
      faultIn(craft, "sensors", ["loop-rate"]) ?? {
        why,
        ways: [fillIn(craft, "Add “loop-rate”", "loop-rate")],
      }
    );
  }
  const why = "No filters are set: add a section “filters” with lines such as “smooth-gyro cut 200 Hz”.";
  return faultIn(craft, "filters") ?? { why, ways: [fillIn(craft, "Add filters", "filters")] };
}

function loopGap(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): Gap {
  const { signal, loopRateKhz, escRateKbit } = loopOf(craft, catalogue);
  if (signal === "pulse") {
    const why = "The loop's time is drawn for digital commands to the motors; these motors take pulses.";
    const at = craft.settings.get("motors")?.get("esc-signal")?.source;
    return { why, ways: at ? [{ label: "Show that line", action: { name: "go", at } }] : [] };
  }
  const missingLines = [
    ...(loopRateKhz === null ? ["“loop-rate 4 kHz” in “sensors”"] : []),
    ...(signal === null ? ["“esc-signal digital” in “motors”"] : []),
    ...(escRateKbit === null ? ["“esc-rate 300 kbit/s” in “motors”"] : []),
  ];
  const fault = faultIn(craft, "sensors", ["loop-rate"]) ?? faultIn(craft, "motors", ["esc-signal", "esc-rate"]);
  if (fault || missingLines.length === 0)
    return { why: "The loop's time is not known: a line that it needs has a fault.", ways: fault?.ways ?? [] };
  return {
    why: `The loop's time is not known: add lines such as ${joinWithAnd(missingLines)}.`,
    ways: [
      ...(loopRateKhz === null ? [fillIn(craft, "Add “loop-rate”", "loop-rate")] : []),
      ...(signal === null || escRateKbit === null
        ? [fillIn(craft, signal === null ? "Add “esc-signal”" : "Add “esc-rate”", "esc-signal")]
        : []),
    ],
  };
}

function motorsGap(craft: Craft): Gap {
  const fault = faultIn(craft, "frame", ["motors", "arm-layout"]);
  return fault ?? { why: NO_MOTORS, ways: [fillIn(craft, "Add the layout", "arm-layout")] };
}

/** Where a line of a section cannot be read, which of these settings' it is; without names, of any. */
function faultIn(craft: Craft, section: string, names?: readonly string[]): Gap | null {
  const settings = [...(craft.settings.get(section)?.values() ?? [])];
  const fault = settings.find(({ name, value }) => value === null && (names?.includes(name) ?? true));
  if (!fault) return null;
  return {
    why: `The line of ${fault.name} in “${section}” cannot be read: mend it to see what it does.`,
    ways: [{ label: "Show that line", action: { name: "go", at: fault.source } }],
  };
}

function fillIn(craft: Craft, label: string, what: Fillable): WayOn {
  return { label, action: { name: "fill-in", file: craft.file, what } };
}

/** Why there is nothing to draw, and what to add. */
export const NO_NUMBERS =
  "There is nothing yet of which numbers could be drawn: add sections such as “rates”, “pack” or “filters”.";

/** What leads on where there is nothing to draw. */
export function waysToNumbers(craft: Craft, workspace: Workspace): readonly WayOn[] {
  const added = [ratesGap(craft), packGap(craft), filtersGap(craft, workspace)].flatMap(({ ways }) => ways);
  return [...waysToMissingPart(craft, workspace), ...added];
}
