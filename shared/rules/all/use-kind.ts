import type { Script } from "../../model/script.ts";
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
    "A craft or a layer may use layers and handsets, a handset only handsets. A craft is one whole machine: using one in another would mix what is true of two. Move what both share into a layer. A dialect says what a board's text means; a craft names it in its section “board”.",
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
      const message = whyNot(path, script.kind, target.script.kind);
      return [{ at: locationOf(script.file, use.at), message }];
    }),
};

function whyNot(path: string, user: Script["kind"], used: Script["kind"]): string {
  if (used === "craft")
    return `“${path}” is a craft, one whole machine, and cannot be used by another file: move what both share into a layer.`;
  if (used === "dialect")
    return user === "handset"
      ? `“${path}” is a dialect, which says what a board's text means, and no part of a handset: remove this line, and name it in “board” of the craft.`
      : `“${path}” is a dialect, which says what a board's text means, and no part of a craft: remove this line, and name it in “board”, as in: dialect "${path}".`;
  return `A handset may use only handsets, and “${path}” is a ${used}.`;
}
