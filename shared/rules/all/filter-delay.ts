import type { Craft, Source } from "../../model/craft.ts";
import { quantityOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { lowPassDelayMs, notchDelayMs } from "../../numbers/filters.ts";
import { filtersOf } from "../../numbers/filters-of.ts";
import { fieldOf, numberOf } from "../../numbers/values.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { valueLocation } from "../lib/locations.ts";

/**
 * Above this a craft with propellers of so many inches begins to respond late; where no size is said, the mildest
 * counts. The project's own figures; nobody has published any.
 */
const MOST_MS: readonly { readonly upToIn: number; readonly ms: number }[] = [
  { upToIn: 5.5, ms: 3 },
  { upToIn: 8, ms: 4.5 },
  { upToIn: Number.POSITIVE_INFINITY, ms: 6 },
];
const FILTERS = ["smooth-gyro", "moving-cut", "notch", "smooth-d", "moving-cut-d"] as const;

interface Delay {
  readonly name: string;
  readonly source: Source;
  readonly delayMs: number;
}

/** The delay of each filter on the way to the damping, for slow movement: sampled at the loop's rate, or analogue if that is not known. */
function delaysOf(craft: Craft, workspace: Workspace): { filters: readonly Delay[]; motorsMs: number } {
  const figures = filtersOf(craft, workspace.catalogue);
  if (figures) return { filters: [...figures.gyro, ...figures.damping], motorsMs: figures.hoverNotchesDelayMs ?? 0 };
  const filters = FILTERS.flatMap((name) => {
    const setting = craft.settings.get("filters")?.get(name);
    return (setting?.items ?? (setting ? [setting] : [])).flatMap(({ value, source }): Delay[] => {
      const number = (field: string, unit: string) => numberOf(fieldOf(value, field), unit);
      const [atHz, widthHz] = [number("at", "Hz"), number("width", "Hz")];
      // A filter that moves with the throttle delays most at its idle cut.
      const cutHz = number("cut", "Hz") ?? number("idle", "Hz");
      if (atHz !== null && widthHz !== null) return [{ name, source, delayMs: notchDelayMs(atHz, widthHz) }];
      return cutHz === null
        ? []
        : [{ name, source, delayMs: lowPassDelayMs(number("order", "") === 2 ? 2 : 1, cutHz) }];
    });
  });
  return { filters, motorsMs: 0 };
}

function sizeText(propellerIn: number): string {
  return Number.isFinite(propellerIn) ? `propellers of ${decimalText(propellerIn, 1)} in` : "craft of any size";
}

export const rule: CraftRule = {
  code: "filter-delay",
  severity: "hint",
  scope: "craft",
  summary:
    "The filters together delay slow movement by more than suits a craft of this size on the way to the damping.",
  prose:
    "Each filter hands on what it lets through a little later, and their delays add up: a low-pass of order 1 by 1 / (2 pi cut), one of order 2 by 1.4 times that. Damping that comes late feeds the overshoot that it should stop, and the craft wobbles after flips and in its own wake. A small craft answers fast and suffers soon: more than 3 ms in all is much up to propellers of 5.5 in, more than 4.5 ms up to 8 in, more than 6 ms beyond (the project's own figures; no published ones are known); from twice that on it is a warning. Lift a cut or take a filter away, one at a time, and feel the motors after each.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nframe\n  propeller-diameter 5 in\n\nfilters\n  smooth-gyro cut 60 Hz order 2\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  propeller-diameter 5 in\n\nfilters\n  smooth-gyro cut 200 Hz order 2\n  smooth-d cut 120 Hz\n',
    },
  },
  looksAt: {
    settings: [
      ...FILTERS.map((name) => `filters.${name}` as const),
      "sensors.loop-rate",
      "frame.propeller-diameter",
      "filters.motor-notches",
      // The speed of the motors in the hover determines the places of their notches.
      "frame.motors",
      "frame.hover-throttle",
      "pack.hover-throttle",
      "motors.kv",
      "pack.cells",
      "pack.chemistry",
    ],
  },
  check(craft, workspace) {
    const { filters, motorsMs } = delaysOf(craft, workspace);
    const totalMs = filters.reduce((sum, { delayMs }) => sum + delayMs, motorsMs);
    const propellerIn = quantityOf(craft, "frame.propeller-diameter", "in") ?? Number.POSITIVE_INFINITY;
    const most = MOST_MS.find(({ upToIn }) => propellerIn <= upToIn)!;
    // What is written as the bound itself is not above it.
    if (totalMs < most.ms + 0.005 || filters.length === 0) return [];
    const [slowest, ...others] = [...filters].sort((a, b) => b.delayMs - a.delayMs) as [Delay, ...Delay[]];
    const parts = filters.map(({ name, delayMs }) => `${name} ${decimalText(delayMs, 2)} ms`);
    if (motorsMs > 0) parts.push(`motor-notches in the hover ${decimalText(motorsMs, 2)} ms`);
    return [
      {
        at: valueLocation(workspace, slowest.source),
        message: `The filters delay slow movement by ${decimalText(totalMs, 2)} ms, more than the ${most.ms} ms that suit ${sizeText(propellerIn)} (the project's own figure): ${parts.join(", ")}. Damping that comes so late makes a craft wobble: lift a cut or take one away, then hover for 30 s and feel the motors.`,
        severity: totalMs >= 2 * most.ms ? "warning" : "hint",
        related: others.map(({ name, source, delayMs }) => ({
          message: `${name}: ${decimalText(delayMs, 2)} ms`,
          at: valueLocation(workspace, source),
        })),
        alsoOf: others.map(({ source }) => source),
      },
    ];
  },
};
