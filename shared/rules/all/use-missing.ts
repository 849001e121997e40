import type { Script, Use } from "../../model/script.ts";
import { similarNames } from "../../model/similar-names.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import { type Fix, rangeOf } from "../../syntax/span.ts";
import type { FileRule } from "../engine/rule.ts";
import { locationOf } from "../lib/locations.ts";
import { isPathForm, mayUse, usedFiles } from "../lib/used-files.ts";

export const rule: FileRule = {
  code: "use-missing",
  severity: "error",
  scope: "file",
  acceptable: false,
  blocksUse: true,
  summary: "A used file is not there, cannot be read, or lies outside the workspace.",
  prose:
    "What the file would have said is not in the craft, so nothing that depends on it can be trusted, and other rules are silent about whatever it may have said. Paths are looked up from the folder of the file in which the line stands, with / between folders. A file outside the workspace is not read: copy it in, so that git keeps it with the rest.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "habits.fettle"\n',
      "habits.fettle": 'layer "Habits"\n\nsafety\n  arm-tilt-limit 30 deg\n',
    },
  },
  check(script, workspace) {
    const meant = new Map<string, readonly string[]>();
    return usedFiles(script, workspace).flatMap(({ use, path, target }) => {
      if (target.kind !== "none") return [];
      const paths = meant.get(path) ?? pathsLike(path, script, workspace);
      meant.set(path, paths);
      const isAlike = paths.some((each) => each !== path && each.normalize() === path.normalize());
      const question = isAlike
        ? ALIKE
        : paths.length > 0
          ? ` Did you mean ${paths.map((each) => `“${each}”`).join(" or ")}?`
          : "";
      return [
        {
          at: locationOf(script.file, use.at),
          message: `“${path}” cannot be used: ${target.why}.${question}`,
          fixes: paths.map((each) => ({
            ...pathFix(use, each),
            ...(isPathForm(path, paths) && { certain: true as const }),
          })),
        },
      ];
    });
  },
};

/** Two names that look the same: a letter and its accent are one character, or two. */
const ALIKE = " There is one whose name looks the same, with its accents stored otherwise, as another system does it.";

function pathFix({ at }: Use, path: string): Fix {
  return { title: `Write ${quote(path)}`, edits: [{ range: rangeOf(at), text: quote(path) }] };
}

/**
 * Files that may be used here and that were most likely meant: those of the same name, else those in the folder that
 * the path names, else those of a similar name. Folders tell nothing: all files of one have them in common.
 */
function pathsLike(path: string, script: Script, workspace: Workspace): string[] {
  const paths = workspace.view.list().flatMap((file) => {
    const other = file === script.file ? null : workspace.script(file);
    return other && mayUse(script, other) ? [pathBetween(script.file, file)] : [];
  });
  const named = paths.filter((each) => bareName(each) === bareName(path));
  if (named.length > 0) return named.slice(0, 3);
  const inside = paths.filter((each) => each.startsWith(`${path.replace(/\/$/, "")}/`));
  if (inside.length > 0) return inside.slice(0, 3);
  const meant = similarNames(bareName(path), [...new Set(paths.map(bareName))]);
  return meant.flatMap((name) => paths.filter((each) => bareName(each) === name)).slice(0, 3);
}

/** The name of a file without its folders and without its ending. */
function bareName(path: string): string {
  return path
    .replace(/^.*[/\\]/, "")
    .replace(/\.fettle$/, "")
    .normalize()
    .toLowerCase();
}
