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
  summary: "A digital command to the motors, with its answer, takes longer than one round of the loop.",
  prose:
    "A command has sixteen bits, then comes the pause that controllers need: 16 / esc-rate + esc-pause. With rpm-feedback the controller answers on the same wire: some 25 us for turning the wire round, and twenty bits more. If all of that is longer than one round of the loop, 1 / loop-rate, the next command is due before the wire is free, so that some are dropped or late and the motors answer unevenly. Take a faster bit rate, or a slower loop.",
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
  looksAt: {
    settings: ["motors.esc-signal", "motors.esc-rate", "motors.esc-pause", "motors.rpm-feedback", "sensors.loop-rate"],
  },
  check(craft, workspace) {
    const { budget, wire, loopRateKhz } = loopOf(craft, workspace.catalogue);
    const rate = settingOf(craft, "motors.esc-rate");
    if (!budget || budget.fits || !rate || !wire || loopRateKhz === null) return [];
    const neededKbit = slowestEscKbit(loopRateKhz, wire);
    const faster = neededKbit === null ? "" : `at least ${Math.ceil(neededKbit)} kbit/s, or `;
    const answered = wire.answers === "same-wire";
    const others = ["sensors.loop-rate", "motors.esc-pause", ...(answered ? ["motors.rpm-feedback"] : [])].flatMap(
      (path) => settingOf(craft, path) ?? [],
    );
    const commandUs = decimalText(budget.frameUs - budget.answerUs, 1);
    const command = `${commandUs} us (16 bits at ${wire.escRateKbit} kbit/s and ${wire.pauseUs} us of pause)`;
    const takes = answered
      ? `One command takes ${command} and its answer on the same wire ${decimalText(budget.answerUs, 1)} us, together ${decimalText(budget.frameUs, 1)} us; `
      : `One command takes ${command}, `;
    return [
      {
        at: valueLocation(workspace, rate.source),
        message: `${takes}one round at ${loopRateKhz} kHz${answered ? " is" : ""} ${decimalText(budget.roundUs, 1)} us: take ${faster}a loop of ${Math.floor(fastestLoopKhz(wire) * 100) / 100} kHz at most.`,
        ...restingOn(others, workspace),
      },
    ];
  },
};
