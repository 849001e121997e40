import { settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { valueLocation } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "loss-hidden",
  severity: "error",
  scope: "craft",
  summary: "The receiver holds its last values when the signal is lost, so the craft never learns of it.",
  prose:
    "Whatever the failsafe says, it is never asked: to the craft the sticks simply stand still, and it flies on as it was, armed. Set the receiver to fall silent, or to send values that the craft knows as loss, and try it on the bench by switching the handset off. Propellers off.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nlink\n  on-loss hold\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nlink\n  on-loss silent\n' },
  },
  looksAt: { settings: ["link.on-loss"] },
  check(craft, workspace) {
    const setting = settingOf(craft, "link.on-loss");
    if (setting?.value?.kind !== "choice" || setting.value.word !== "hold") return [];
    return [
      {
        at: valueLocation(workspace, setting.source),
        message:
          "The receiver goes on sending the last values: the craft never learns that the link is gone, and its failsafe never acts.",
      },
    ];
  },
};
