/** Code lenses above a script's header: its drawings, who uses it, and the craft as it comes out. */
import { scriptsNaming } from "../../dialect/dialects.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { ViewName } from "../../protocol/panel.ts";
import { sharedMarkOf } from "../../rules/lib/private-lines.ts";
import { type Range, rangeOf, spanAt } from "../../syntax/span.ts";
import type { Lens } from "./lens.ts";

const VIEWS: readonly (readonly [view: ViewName, title: string])[] = [
  ["goggles", "Goggles"],
  ["switches", "Switches"],
  ["numbers", "Numbers"],
];

/** None for a script of a newer edition, and none that would lead to nothing: a layer of no craft has no drawings. */
export function headerLensesOf(workspace: Workspace, file: string): Lens[] {
  const script = workspace.script(file);
  const line = script?.tree.header ?? null;
  if (!script || line === null || script.tree.newer) return [];
  const range: Range = rangeOf(spanAt(line, { start: 0, end: script.tree.lines[line]!.text.length }));
  const offer: Lens[] =
    sharedMarkOf(script) === null ? [] : [{ range, title: "Review for a craft of yours…", action: { kind: "review" } }];
  const drawings = [
    ...VIEWS.map(([view, title]): Lens => ({ range, title, action: { kind: "view", view } })),
    { range, title: "as effective craft", action: { kind: "effective" } } satisfies Lens,
  ];
  if (script.kind === "craft") return [...offer, ...drawings];
  if (script.kind === "dialect") {
    const naming = scriptsNaming(workspace, file).length;
    const title =
      naming === 0
        ? "named by no craft in its section board"
        : `named by ${naming} ${naming === 1 ? "script" : "scripts"}`;
    return [{ range, title, action: null }];
  }
  const users = workspace.craftFilesWith(file).length;
  if (users === 0) return [...offer, { range, title: "used by no craft", action: null }];
  const used: Lens = { range, title: `used by ${users} craft`, action: { kind: "users" } };
  return [...offer, ...drawings.slice(0, -1), used, drawings.at(-1)!];
}
