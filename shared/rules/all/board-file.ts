import { type BoardFile, boardFilesIn, whyNoText } from "../../model/board-files.ts";
import type { Script } from "../../model/script.ts";
import { similarNames } from "../../model/similar-names.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import { rangeOf, spanAt } from "../../syntax/span.ts";
import type { FileRule } from "../engine/rule.ts";
import { locationOf } from "../lib/locations.ts";
import { isPathForm } from "../lib/used-files.ts";

export const rule: FileRule = {
  code: "board-file",
  severity: "warning",
  scope: "file",
  summary: "The file of the board's dialect or of its saved text is not there, or is of another kind.",
  prose:
    "Reading and writing board text take the dialect and the last saved text from these two lines. Without the dialect nothing can be read or written; without the saved text a new text holds only what the script says, and whatever else was on the board is not in it. A path begins in the folder of the script that says it. Save the board's text under this name, or write the path of the file that is there.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nboard\n  dialect  "kiln.fettle"\n' },
    good: {
      "jug.fettle": 'craft "Jug"\n\nboard\n  dialect  "kiln.fettle"\n',
      "kiln.fettle": 'dialect "Kiln"\n\ntext\n  comment  ";"\n',
    },
  },
  check(script, workspace) {
    return boardFilesIn(script).flatMap((named) => {
      const why = whyNot(named, script, workspace);
      if (why === null) return [];
      const value = spanAt(named.entry.line, named.entry.value!);
      const paths = named.what === "dialect" ? dialectsLike(named.path, script, workspace) : [];
      const question = paths.length > 0 ? ` Did you mean ${paths.map((each) => `“${each}”`).join(" or ")}?` : "";
      return [
        {
          at: locationOf(script.file, value),
          message: `“${named.path}” cannot be used as ${ROLES[named.what]}: ${why}.${question}`,
          fixes: paths.map((path) => ({
            title: `Write ${quote(path)}`,
            edits: [{ range: rangeOf(value), text: quote(path) }],
            ...(isPathForm(named.path, paths) && { certain: true as const }),
          })),
        },
      ];
    });
  },
};

const ROLES = { dialect: "the board's dialect", text: "the board's saved text" } as const;

const TO_DO = {
  dialect: "write the path of a dialect",
  text: "save the board's text under this name, or write the path of the file that holds it",
} as const;

function whyNot({ what, file }: BoardFile, script: Script, workspace: Workspace): string | null {
  if (file === null) return "a path begins in the folder of this file, with / between folders";
  const { view } = workspace;
  const real = view.realPath(file);
  const why = whyNoText(view.read(real));
  if (why !== null) return `${why}; ${TO_DO[what]}`;
  if (what === "text") return real === script.file ? `it is this very script; ${TO_DO.text}` : null;
  const other = workspace.script(real);
  if (!other || other.kind === "dialect") return null;
  const kind = other.tree.header === null ? "no dialect" : `a ${other.kind} and no dialect`;
  return `it is ${kind}; ${TO_DO.dialect}`;
}

/** The dialects of the workspace that were most likely meant, by their paths: all of them if there are few. */
function dialectsLike(path: string, script: Script, workspace: Workspace): readonly string[] {
  const paths = workspace.view
    .list()
    .filter((file) => workspace.script(file)?.kind === "dialect")
    .map((file) => pathBetween(script.file, file));
  if (paths.length <= 2) return paths;
  const names = similarNames(bareName(path), [...new Set(paths.map(bareName))]);
  return names.flatMap((name) => paths.filter((each) => bareName(each) === name)).slice(0, 3);
}

function bareName(path: string): string {
  return path
    .replace(/^.*[/\\]/, "")
    .replace(/\.fettle$/, "")
    .toLowerCase();
}
