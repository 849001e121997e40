import { linkOf } from "../logic/from-craft.ts";
import { walkCondition } from "../syntax/condition.ts";
import { spotAt } from "./spots.ts";
import type { CraftRule } from "./types.ts";

export const rule: CraftRule = {
  code: "channel-beyond",
  severity: "error",
  scope: "craft",
  summary: "A control or a condition uses a channel that the link does not carry.",
  prose:
    "What lies above the last channel never reaches the craft: the switch moves and nothing arrives. Put the control on a lower channel, or set the link to carry more of them where it can.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nlink\n  channels 8\n\nmodes\n  arm when TL is down\n',
      "wheel.fettle":
        'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch6 up 1000 us mid 1500 us down 2000 us\n  PB button ch7 rest 1000 us held 2000 us\n  KN dial ch9 1000 us to 2000 us\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nlink\n  channels 16\n\nmodes\n  arm when TL is down\n',
      "wheel.fettle":
        'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch6 up 1000 us mid 1500 us down 2000 us\n  PB button ch7 rest 1000 us held 2000 us\n  KN dial ch9 1000 us to 2000 us\n',
    },
  },
  check(craft) {
    const { channels } = linkOf(craft);
    if (channels === null) return [];
    const controls = [...craft.controls.values()].flatMap(({ name, value, source }) =>
      value && value.channel > channels
        ? [
            {
              at: spotAt(source, value.channelAt),
              message: `${name} drives ch${value.channel}, and the link carries ${channels} channels.`,
            },
          ]
        : [],
    );
    const lines = [...craft.modes.values(), ...craft.outputs.values()].flatMap((mode) => mode.lines);
    const tests = lines.flatMap(({ condition, source }) =>
      (condition ? [...walkCondition(condition)] : []).flatMap((node) => {
        if (!("subject" in node) || node.subject.kind !== "channel" || node.subject.channel <= channels) return [];
        return [
          {
            at: spotAt(source, node.subject),
            message: `The link carries ${channels} channels: nothing is ever heard of ch${node.subject.channel}.`,
          },
        ];
      }),
    );
    return [...controls, ...tests];
  },
};
