import { convert } from "../../catalogue/units.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "throttle-cannot-arm",
  severity: "warning",
  scope: "craft",
  summary: "The measured low end of the throttle lies above the limit under which the craft arms.",
  prose:
    "The craft waits for a closed throttle that the stick cannot give, so it never arms, and the handset shows nothing wrong. Adjust the throttle's low end point on the handset, or raise the limit a little above what was measured. Propellers off.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nsafety\n  arm-throttle-limit 1020 us\n\nbench\n  throttle 1040 us to 2000 us # allow endpoints-off: under repair\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nsafety\n  arm-throttle-limit 1060 us\n\nbench\n  throttle 1003 us to 2000 us\n',
    },
  },
  looksAt: { settings: ["safety.arm-throttle-limit", "bench.throttle"] },
  check(craft, workspace) {
    const limit = settingOf(craft, "safety.arm-throttle-limit");
    const measured = settingOf(craft, "bench.throttle");
    if (limit?.value?.kind !== "quantity" || measured?.value?.kind !== "range") return [];
    const { from } = measured.value;
    const limitUs = convert(limit.value.number, limit.value.unit, "us");
    const lowUs = convert(from.number, from.unit, "us");
    if (limitUs === undefined || lowUs === undefined || lowUs <= limitUs) return [];
    return [
      {
        at: valueLocation(workspace, limit.source),
        message: `The throttle was measured down to ${lowUs} us and the craft arms only below ${limitUs} us: it never will.`,
        related: [{ message: "Measured here", at: valueLocation(workspace, measured.source) }],
        alsoOf: [measured.source],
      },
    ];
  },
};
