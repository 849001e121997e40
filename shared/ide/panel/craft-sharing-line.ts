/** The other craft that a line of a layer places an element of the OSD on. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import { type Plan, planOf } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Page } from "../../osd/placed.ts";

/**
 * Asked with an element and its line, the names of the other craft for which that line counts: they
 * use its file, and say nothing else of the element. Told from the files and the order in which
 * they combine, so that no craft has to be put together for it; nothing is looked up unless a layer
 * is asked about.
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

/** Whether it is this line by which the element stands where it does. */
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

/** By element, the last line of a file that places it. */
function linesOf(script: Script, page: Page): ReadonlyMap<string, number> {
  const known = lineCache[page].get(script);
  if (known) return known;
  const placing = script.entries.filter(({ kind, section }) => kind === "element" && section === page);
  const lines = new Map(placing.map(({ name, line }) => [name, line]));
  lineCache[page].set(script, lines);
  return lines;
}
