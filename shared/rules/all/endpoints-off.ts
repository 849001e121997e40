import { convert } from "../../catalogue/units.ts";
import { linkOf } from "../../logic/from-craft.ts";
import { END_BEYOND_US, END_TOLERANCE_US } from "../../numbers/sticks.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";

const STICKS = ["roll", "pitch", "throttle", "yaw"] as const;

export const rule: CraftRule = {
  code: "endpoints-off",
  severity: "warning",
  scope: "craft",
  summary: "A stick's measured end falls short of its end point, or goes far beyond it.",
  prose:
    "A stick that falls short never gives full rate, full throttle or, worse, never closes the throttle; one that goes far beyond wastes travel in which nothing changes. Up to 10 us short and 25 us beyond are harmless (common practice, no source). Adjust the end points on the handset, then measure again. Propellers off.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nbench\n  throttle 1030 us to 2000 us\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nbench\n  throttle 1003 us to 2000 us\n' },
  },
  looksAt: { settings: [...STICKS.map((stick) => `bench.${stick}` as const), "link.endpoints"] },
  check(craft, workspace) {
    const expected = linkOf(craft).endpointsUs;
    return STICKS.flatMap((stick) => {
      const setting = craft.settings.get("bench")?.get(stick);
      if (setting?.value?.kind !== "range") return [];
      const [low, high] = [setting.value.from, setting.value.to].map(
        (end) => convert(end.number, end.unit, "us") ?? 0,
      ) as [number, number];
      const shortUs = Math.max(low - expected.fromUs, expected.toUs - high);
      const beyondUs = Math.max(expected.fromUs - low, high - expected.toUs);
      if (shortUs <= END_TOLERANCE_US && beyondUs <= END_BEYOND_US) return [];
      const what = shortUs > END_TOLERANCE_US ? `falls ${shortUs} us short of` : `goes ${beyondUs} us beyond`;
      return [
        {
          at: valueLocation(workspace, setting.source),
          message: `${stick} was measured from ${low} us to ${high} us and ${what} an end point (${expected.fromUs} us to ${expected.toUs} us): adjust it on the handset.`,
        },
      ];
    });
  },
};
