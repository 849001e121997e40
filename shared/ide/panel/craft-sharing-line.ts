/** The other craft on which a layer's line places an OSD element. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import { type Plan, planOf } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Page } from "../../osd/placed.ts";

/**
 * Returns a function from an element and its line to the names of the other craft on which that line is
 * effective: they use its file, and no later file of theirs places or drops the element. Computed from the
 * files and their order, without merging any craft, and only when the line is one of a layer.
 */
export function craftSharingLine(
  craft: Craft,
  workspace: Workspace,
  page: Page,
): (name: string, source: Source) => string[] {
  let others: readonly { readonly name: string; readonly plan: Plan }[] | null = null;
  return (name, source) => {
    if (source.file === craft.file) return [];
    others ??= otherPlans(craft, workspace);
    return others.flatMap((other) => (linePlacing(name, page, other.plan, source) ? [other.name] : []));
  };
}

function otherPlans(craft: Craft, workspace: Workspace): { name: string; plan: Plan }[] {
  return workspace.view.list().flatMap((file) => {
    const script = file === craft.file ? null : workspace.script(file);
    return script?.kind === "craft" ? [{ name: script.name, plan: planOf(workspace, script, null) }] : [];
  });
}

/** Whether this line places the element on a craft. */
function linePlacing(name: string, page: Page, { parts }: Plan, source: Source): boolean {
  if (!parts.some(({ script }) => script.file === source.file)) return false;
  for (const { script } of [...parts].reverse()) {
    const line = linesOf(script, page).get(name);
    if (line !== undefined) return script.file === source.file && line === source.line;
    if (
      script.drops.some((drop) => drop.section === page && (drop.all || drop.names.some((word) => word.text === name)))
    )
      return false;
  }
  return false;
}

const lineCache: Readonly<Record<Page, WeakMap<Script, ReadonlyMap<string, number>>>> = {
  osd: new WeakMap(),
  "osd-second": new WeakMap(),
};

/** The last line of a file that places each element. */
function linesOf(script: Script, page: Page): ReadonlyMap<string, number> {
  const known = lineCache[page].get(script);
  if (known) return known;
  const placing = script.entries.filter(({ kind, section }) => kind === "element" && section === page);
  const lines = new Map(placing.map(({ name, line }) => [name, line]));
  lineCache[page].set(script, lines);
  return lines;
}
