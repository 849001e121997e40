import { boardOf } from "../../logic/from-craft.ts";
import { choiceOf, settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { WHEEL } from "../lib/example-files.ts";
import { sectionLocation } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "failsafe-unsaid",
  severity: "hint",
  scope: "craft",
  summary: "The craft arms, and nothing says what it does when the signal is lost.",
  prose:
    "The link will go one day, and then the board does what its maker thought best, which may be to fly on. Whoever reads this script, the pilot in half a year too, cannot tell. Write the line “then” under failsafe: stop where anybody is about, and try it on the bench with the propellers off.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n', ...WHEEL },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n\nfailsafe\n  then stop\n',
      ...WHEEL,
    },
  },
  looksAt: { settings: ["failsafe.then", "link.on-loss", "link.preset-channels"], modes: ["arm", "arm-permit"] },
  check(craft, workspace) {
    if (!craft.modes.has("arm") || settingOf(craft, "failsafe.then")) return [];
    // A receiver that hides the loss has a finding of its own; one that sends arm off says what is done.
    const onLoss = choiceOf(craft, "link.on-loss");
    if (onLoss === "hold" || (onLoss === "preset" && boardOf(craft, workspace).loss().armed === "off")) return [];
    return [
      {
        at: sectionLocation(craft, workspace, "failsafe"),
        message:
          "The craft arms, and no line says what it does when the signal is lost: write “then stop” under failsafe, or whatever it is to do, and try it with the propellers off.",
      },
    ];
  },
};
