import { currentMeterOf } from "../../numbers/sensing-of.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { type CheckedPack, type PackReport, packReports } from "../lib/packs.ts";

/** Settings of the pack on which the finding rests, the one to point at first. */
const RESTS_ON = ["shunt-gain", "shunt", "full-current", "adc-reference", "shunt-offset"] as const;

function clippedAmps(pack: CheckedPack): PackReport[] {
  const meter = currentMeterOf(pack.craft, pack.catalogue, pack.section);
  if (!meter || pack.fullA === null || meter.clipA * (1 + 1e-9) >= pack.fullA) return [];
  const { shunt, converter, clipA } = meter;
  const offset = shunt.offsetMv === 0 ? "" : `, over ${shunt.offsetMv} mV at rest`;
  return [
    {
      of: RESTS_ON.map((name) => pack.setting(name)),
      message: `The meter reads up to ${decimalText(clipA, 1)} A (${converter.referenceV} V at the pin, ${shunt.shuntMohm} mohm enlarged ${shunt.gain} times${offset}), and the craft draws ${decimalText(pack.fullA, 1)} A at full throttle: what lies above is never counted. Check the three figures against the board's own parts.`,
    },
  ];
}

export const rule: CraftRule = {
  code: "shunt-clips",
  severity: "warning",
  scope: "craft",
  summary: "The converter that measures the current reaches its maximum below the full current.",
  prose:
    "Current times shunt times gain is the voltage that the converter reads (20 A through 5 mohm, enlarged 20 times, are 2.0 V), and above its reference the reading no longer changes. Every ampere above is never counted, so that used charge falls short just on the flights that use most, and the warning by charge comes too late. Check shunt, gain and full current; a smaller shunt or less gain reaches further.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\npack\n  full-current 120 A\n  shunt 0.5 mohm\n  shunt-gain 100\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\npack\n  full-current 120 A\n  shunt 0.5 mohm\n  shunt-gain 50\n',
    },
  },
  looksAt: { settings: [...RESTS_ON.map((name) => `pack.${name}` as const), "pack.current-from"] },
  check: (craft, workspace) => packReports(craft, workspace, clippedAmps, null),
};
