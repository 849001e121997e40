import { settingOf } from "../../model/setting-lookup.ts";
import type { CraftRule } from "../engine/rule.ts";
import { COMPARED, droppedFilters, fieldRise, filterLoosened, type Hotter } from "../lib/tune-compare.ts";

export const rule: CraftRule = {
  code: "tune-hot",
  severity: "warning",
  scope: "craft",
  summary: "A file gives more d gain, or less filtering, than the file below it.",
  prose:
    "Damping answers to how fast the rotation changes, so it amplifies every vibration, and a filter that is opened lets more of them through: both go into the motors as heat, and a motor can burn in a calm hover. What flew well on the layer's frame may be too much on this one. Hover for half a minute, land, take the pack out and feel each motor: too hot to hold for two seconds means back to the old value. A day written into hover-checked of the section “bench” says that it was done.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "tune.fettle"\n\ngains\n  roll d 0.9\n',
      "tune.fettle": 'layer "Tune"\n\ngains\n  roll p 1 i 1 d 0.6\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "tune.fettle"\n\ngains\n  roll d 0.5\n',
      "tune.fettle": 'layer "Tune"\n\ngains\n  roll p 1 i 1 d 0.6\n',
    },
  },
  looksAt: { settings: [...COMPARED, "bench.hover-checked"] },
  check(craft, workspace) {
    if (settingOf(craft, "bench.hover-checked")) return [];
    const found: Hotter[] = [];
    for (const section of ["gains", "gains-second", "filters"])
      for (const setting of craft.settings.get(section)?.values() ?? [])
        if (setting.before) found.push(...fieldRise(setting), ...filterLoosened(setting, workspace));
    return [...found, ...droppedFilters(craft, workspace)].map(({ at, before, what, back }) => {
      const place = (character: number) => ({ line: at.source.line, character });
      // Other craft use a layer as well: only a line of the craft's own file gets a fix.
      const fixes =
        back && at.source.file === craft.file
          ? [
              {
                title: `Go back to ${back.text}`,
                edits: [{ range: { start: place(back.start), end: place(back.end) }, text: back.text }],
              },
            ]
          : [];
      return {
        at,
        message: `${what}, which sends more vibration into the motors. Hover for 30 s, land, take the pack out and feel the motors: too hot to hold means back. Then write the day into hover-checked in “bench”.`,
        related: [{ message: "The layer below says this", at: before }],
        fixes,
      };
    });
  },
};
