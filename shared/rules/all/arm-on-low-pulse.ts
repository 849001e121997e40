import { boardOf, linkOf } from "../../logic/from-craft.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";

export const rule: CraftRule = {
  code: "arm-on-low-pulse",
  severity: "warning",
  scope: "craft",
  summary: "The craft is armed while the channel that arms it stands at its low end.",
  prose:
    "Many receivers give the low end on every channel before the link is up (common practice, no source), so a craft that is armed there may be armed by a receiver that hears nothing. Turn the switch round, so that armed is the high end.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is up\n',
      "wheel.fettle": 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us rests down\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n',
      ...WHEEL,
    },
  },
  looksAt: { settings: ["link.endpoints"], modes: ["arm", "arm-permit"] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    if (board.armed === null || !craft.modes.has("arm")) return [];
    const lowUs = linkOf(craft).endpointsUs.fromUs;
    const names = new Set(board.sets.dependsOn(board.armed));
    const channels = board.variables.filter(({ name }) => names.has(name)).map(({ channel }) => channel);
    if (channels.length === 0) return [];
    const silent = board.withPulses(new Map(channels.map((channel) => [channel, lowUs])));
    if (silent.armed === null || silent.armed === silent.sets.none) return [];
    const listed = joinWithAnd(channels.map((channel) => `ch${channel}`));
    return [
      {
        ...conditionLocation(craft, workspace, "arm"),
        message: `Armed with ${listed} at ${lowUs} us, which many receivers give before the link is up.`,
      },
    ];
  },
};
