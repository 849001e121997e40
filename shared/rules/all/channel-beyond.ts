import { linkOf } from "../../logic/from-craft.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionNodes, usedControls } from "../lib/condition-nodes.ts";
import { WHEEL } from "../lib/example-files.ts";
import { locationAt } from "../lib/locations.ts";

export const rule: CraftRule = {
  code: "channel-beyond",
  severity: "error",
  scope: "craft",
  summary: "A control that the craft makes use of, or a condition, is on a channel that the link does not carry.",
  prose:
    "What lies above the last channel never reaches the craft: the switch moves and nothing arrives. Put the control on a lower channel, or set the link to carry more of them where it can. A handset's controls that this craft does not use may lie where they like.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nlink\n  channels 8\n\nmodes\n  arm when TL is down\n  lights when KN above 1500 us\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nlink\n  channels 16\n\nmodes\n  arm when TL is down\n  lights when KN above 1500 us\n',
      ...WHEEL,
    },
  },
  looksAt: { settings: ["link.channels"] },
  check(craft) {
    const { channels } = linkOf(craft);
    if (channels === null) return [];
    const nodes = conditionNodes(craft);
    const used = usedControls(craft, nodes);
    const beyond = new Set<number>();
    const tests = nodes.flatMap(({ node, source }) => {
      if (!("subject" in node) || node.subject.kind !== "channel" || node.subject.channel <= channels) return [];
      beyond.add(node.subject.channel);
      const message = `The link carries ${channels} channels: ch${node.subject.channel} never arrives.`;
      return [{ at: locationAt(source, node.subject), message }];
    });
    // A handset serves many craft: controls that this one does not use may lie beyond its link.
    const controls = [...craft.controls.values()].flatMap(({ name, value, source, fromHandset }) => {
      if (!value || value.channel <= channels) return [];
      if (fromHandset && (!used.has(name) || beyond.has(value.channel))) return [];
      const message = `${name} drives ch${value.channel}, and the link carries ${channels} channels.`;
      return [{ at: locationAt(source, value.channelAt), message }];
    });
    return [...controls, ...tests];
  },
};
