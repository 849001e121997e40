/** The other craft on which a layer's line places an OSD element. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Page } from "../../osd/placed.ts";
import type { Sharing } from "../../protocol/goggles.ts";

/** More are not named: nobody reads, or listens to, the names of a thousand. */
const MOST_NAMED = 3;

/**
 * Returns a function from an element and its line to the other craft on which that line is effective: they use its
 * file, and no later file of theirs places or drops the element. Computed from the files and their order, without
 * merging any craft, and only when the line is one of a layer.
 */
export function craftSharingLine(
  craft: Craft,
  workspace: Workspace,
  page: Page,
): (name: string, source: Source) => Sharing {
  const scripts = new Map<string, Script | null>();
  const scriptOf = (file: string) => {
    let script = scripts.get(file);
    if (script === undefined) {
      script = workspace.script(file);
      scripts.set(file, script);
    }
    return script;
  };
  /** Whether this line places the element on a craft with these files. */
  const isPlacing = (name: string, source: Source, parts: readonly string[]) => {
    for (let i = parts.length - 1; i >= 0; i--) {
      const script = scriptOf(parts[i]!);
      if (!script) continue;
      const line = linesOf(script, page).get(name);
      if (line !== undefined) return script.file === source.file && line === source.line;
      if (dropsFrom(script, page, name)) return false;
    }
    return false;
  };
  return (name, source) => {
    if (source.file === craft.file) return { named: [], more: 0 };
    const others = workspace
      .craftFilesWith(source.file)
      .filter((file) => file !== craft.file && isPlacing(name, source, workspace.partsOf(file)));
    const named = others.slice(0, MOST_NAMED).map((file) => scriptOf(file)!.name);
    return { named, more: others.length - named.length };
  };
}

function dropsFrom({ drops }: Script, page: Page, name: string): boolean {
  return drops.some((drop) => drop.section === page && (drop.all || drop.names.some((word) => word.text === name)));
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
