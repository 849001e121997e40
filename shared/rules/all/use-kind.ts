import type { FileRule } from "../engine/rule.ts";
import { locationOf } from "../lib/locations.ts";
import { usedFiles } from "../lib/used-files.ts";

export const rule: FileRule = {
  code: "use-kind",
  severity: "error",
  scope: "file",
  acceptable: false,
  blocksUse: true,
  summary: "A used file is of a kind that cannot be used here.",
  prose:
    "A craft or a layer may use layers and handsets, a handset only handsets. A craft is one whole machine: using one in another would mix what is true of two. Move what both share into a layer.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nuse "bowl.fettle"\n', "bowl.fettle": 'craft "Bowl"\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n',
      "habits.fettle": 'layer "Habits"\n\nsafety\n  arm-tilt-limit 30 deg\n',
    },
  },
  check: (script, workspace) =>
    usedFiles(script, workspace).flatMap(({ use, path, target, fitting }) => {
      if (target.kind !== "script" || fitting) return [];
      const message =
        target.script.kind === "craft"
          ? `“${path}” is a craft, one whole machine, and cannot be used by another file: move what both share into a layer.`
          : `A handset may use only handsets, and “${path}” is a ${target.script.kind}.`;
      return [{ at: locationOf(script.file, use.at), message }];
    }),
};
