import { settingOf } from "../../model/setting-lookup.ts";
import { fastestLoopKhz, slowestEscKbit } from "../../numbers/loop.ts";
import { loopOf } from "../../numbers/loop-of.ts";
import type { CraftRule } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { restingOn, valueLocation } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "loop-budget",
  severity: "warning",
  scope: "craft",
  summary: "A digital command to the motors takes longer than one round of the loop.",
  prose:
    "A command has sixteen bits, then comes the pause that controllers need: 16 / esc-rate + esc-pause. If that is longer than one round of the loop, 1 / loop-rate, the next command is due before the last one is sent, so that some are dropped or late and the motors answer unevenly. Take a faster bit rate, or a slower loop.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nmotors\n  esc-signal digital\n  esc-rate 150 kbit/s\n  esc-pause 30 us\n\nsensors\n  loop-rate 8 kHz\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nmotors\n  esc-signal digital\n  esc-rate 300 kbit/s\n\nsensors\n  loop-rate 8 kHz\n',
    },
  },
  looksAt: { settings: ["motors.esc-signal", "motors.esc-rate", "motors.esc-pause", "sensors.loop-rate"] },
  check(craft, workspace) {
    const { budget, escRateKbit, pauseUs, loopRateKhz } = loopOf(craft, workspace.catalogue);
    const rate = settingOf(craft, "motors.esc-rate");
    if (!budget || budget.fits || !rate || escRateKbit === null || pauseUs === null || loopRateKhz === null) return [];
    const neededKbit = slowestEscKbit(loopRateKhz, pauseUs);
    const faster = neededKbit === null ? "" : `at least ${Math.ceil(neededKbit)} kbit/s, or `;
    const others = ["sensors.loop-rate", "motors.esc-pause"].flatMap((path) => settingOf(craft, path) ?? []);
    return [
      {
        at: valueLocation(workspace, rate.source),
        message: `One command takes ${decimalText(budget.frameUs, 1)} us (16 bits at ${escRateKbit} kbit/s and ${pauseUs} us of pause), one round at ${loopRateKhz} kHz ${decimalText(budget.roundUs, 1)} us: take ${faster}a loop of ${Math.floor(fastestLoopKhz(escRateKbit, pauseUs) * 100) / 100} kHz at most.`,
        ...restingOn(others, workspace),
      },
    ];
  },
};
