import type { Craft, Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { lowPassDelayMs, notchDelayMs } from "../../numbers/filters.ts";
import { filtersOf } from "../../numbers/filters-of.ts";
import { fieldOf, numberOf } from "../../numbers/values.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { valueLocation } from "../lib/locations.ts";

/** Above this a craft begins to respond late. The project's own figure; nobody has published one. */
const MOST_MS = 3;
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

export const rule: CraftRule = {
  code: "filter-delay",
  severity: "hint",
  scope: "craft",
  summary: "The filters together delay slow movement by more than 3 ms on the way to the damping.",
  prose:
    "Each filter hands on what it lets through a little later, and their delays add up: a low-pass of order 1 by 1 / (2 pi cut), one of order 2 by 1.4 times that. Damping that comes late feeds the overshoot that it should stop, and the craft wobbles after flips and in its own wake. More than 3 ms in all is much (the project's own figure; no published one is known). Lift a cut or take a filter away, one at a time, and feel the motors after each.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nfilters\n  smooth-gyro cut 60 Hz order 2\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nfilters\n  smooth-gyro cut 200 Hz order 2\n  smooth-d cut 120 Hz\n' },
  },
  looksAt: {
    settings: [
      ...FILTERS.map((name) => `filters.${name}` as const),
      "sensors.loop-rate",
      "filters.motor-notches",
      // The speed of the motors in the hover determines the places of their notches.
      "frame.motors",
      "frame.hover-throttle",
      "motors.kv",
      "pack.cells",
      "pack.chemistry",
    ],
  },
  check(craft, workspace) {
    const { filters, motorsMs } = delaysOf(craft, workspace);
    const totalMs = filters.reduce((sum, { delayMs }) => sum + delayMs, motorsMs);
    if (totalMs <= MOST_MS || filters.length === 0) return [];
    const [slowest, ...others] = [...filters].sort((a, b) => b.delayMs - a.delayMs) as [Delay, ...Delay[]];
    const parts = filters.map(({ name, delayMs }) => `${name} ${decimalText(delayMs, 2)} ms`);
    if (motorsMs > 0) parts.push(`motor-notches in the hover ${decimalText(motorsMs, 2)} ms`);
    return [
      {
        at: valueLocation(workspace, slowest.source),
        message: `The filters delay slow movement by ${decimalText(totalMs, 2)} ms, more than ${MOST_MS} ms (the project's own figure): ${parts.join(", ")}. Damping that comes so late makes a craft wobble: lift a cut or take one away, then hover for 30 s and feel the motors.`,
        related: others.map(({ name, source, delayMs }) => ({
          message: `${name}: ${decimalText(delayMs, 2)} ms`,
          at: valueLocation(workspace, source),
        })),
        alsoOf: others.map(({ source }) => source),
      },
    ];
  },
};
