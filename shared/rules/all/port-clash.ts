import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Value } from "../../syntax/value.ts";
import type { CraftRule, Report, SettingName } from "../engine/rule.ts";
import { restingOn, valueLocation } from "../lib/locations.ts";
import { PORTS } from "../lib/name-groups.ts";

/** True if a part is connected to the port: a port that is set as free serves nothing. */
function isUse(value: Value | null): boolean {
  return value?.kind === "choice" && value.word !== "spare";
}

/** Settings whose text names a pin of the board. */
const PINS: readonly SettingName[] = ["camera.servo-output", "lights.output"];

function pinClashes(craft: Craft, workspace: Workspace): Report[] {
  const users = PINS.flatMap((path) => {
    const setting = settingOf(craft, path);
    return setting?.value?.kind === "text" ? { setting, pin: setting.value.text.trim().toLowerCase() } : [];
  });
  return users.flatMap(({ setting, pin }, i) => {
    const other = users.slice(0, i).find((each) => each.pin === pin)?.setting;
    if (!other) return [];
    return [
      {
        at: valueLocation(workspace, setting.source),
        message: `${other.section}.${other.name} and ${setting.section}.${setting.name} hang on one pin, ${setting.text}, and only one of them can be driven by it: give one of them a pin of its own.`,
        ...restingOn([other], workspace),
      },
    ];
  });
}

export const rule: CraftRule = {
  code: "port-clash",
  severity: "error",
  scope: "craft",
  summary: "One port, or one pin, has two different uses.",
  prose:
    "A port is one pair of wires: with two parts on it both send at once, and neither can be understood. Only the later line counts, so the part of the earlier one has no port at all. Give one of the two a port of its own. A craft that gives a port another use than the layer below it is no clash: there the later file is meant to win. A pin with two users is the same fault.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nports\n  port1 receiver\n  port1 gps\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nports\n  port1 receiver\n  port2 gps\n' },
  },
  looksAt: { settings: [PORTS, ...PINS] },
  check(craft, workspace) {
    const ports = craft.settings.get("ports");
    const reports: Report[] = pinClashes(craft, workspace);
    if (!ports) return reports;
    for (const { file, readings } of craft.scripts) {
      // A long script is not gone through line by line for the few that name ports.
      const entries = readings.flatMap((each) => (each.about.section === "ports" ? each.entries : []));
      for (const { name, value, line, text } of entries) {
        const counts = ports.get(name)?.source;
        if (!isUse(value) || counts?.file !== file || counts.line !== line) continue;
        const other = entries.find((each) => each.name === name && isUse(each.value) && each.text !== text);
        if (!other) continue;
        const names = [1, 2, 3, 4, 5, 6, 7, 8].map((number) => `port${number}`);
        const spare = names.find((port) => ports.get(port)?.text === "spare");
        const free = names.find((port) => !ports.has(port));
        const advice = spare ? `, as ${spare}, which is spare` : free ? `, as ${free}, of which nothing is said` : "";
        reports.push({
          at: valueLocation(workspace, { file, line }),
          message: `${name} serves ${other.text} and ${text} at once, and neither can then be understood: give one of them a port of its own${advice}.`,
          related: [
            { message: `${name} serves ${other.text} here`, at: valueLocation(workspace, { file, line: other.line }) },
          ],
          alsoOf: [{ file, line: other.line }],
        });
      }
    }
    return reports;
  },
};
