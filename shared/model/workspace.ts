/** All files at one moment, understood: each by itself, and each craft with what it uses. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft } from "./craft.ts";
import type { FilePath, FileView } from "./files.ts";
import { sameGaps } from "./gaps.ts";
import { type CoreMemo, oncePer, type Remembering } from "./memo.ts";
import { type Merged, mergeCraft } from "./merge.ts";
import { scriptReader } from "./read-script.ts";
import { scriptRead } from "./reads.ts";
import { OWN_LEVELS, type RuleLevels } from "./rule-levels.ts";
import type { Script, Use } from "./script.ts";
import { makeUsersKeeper } from "./users.ts";
import { type Plan, planOf, type ScriptLookup, type UseTarget, useTarget } from "./uses.ts";

export interface Workspace extends ScriptLookup, Remembering {
  readonly catalogue: Catalogue;
  /** How whoever looks at these files wants findings shown. */
  readonly levels: RuleLevels;
  /** The script behind a path; null where the path has no text. */
  script(file: FilePath): Script | null;
  target(from: Script, use: Use): UseTarget;
  /** The effective craft of a file; null where the file is no craft. `handset` stands in for its own. */
  craft(file: FilePath, handset?: FilePath): Craft | null;
  /** The same for any script: a layer with what it uses, or a handset by itself, as if it were a craft. */
  craftLike(file: FilePath, handset?: FilePath): Craft | null;
  /** A craft with one more script applied last, which need not be a file; that script's own `use` lines do not count. */
  laidOver(craft: Craft, script: Script): Craft;
  /**
   * Every known craft of which the file is a part, the file itself if it is one. All of them are put together: of a
   * layer that a thousand craft use that takes a tenth of a second.
   */
  craftsWith(file: FilePath): Craft[];
  /** The files of those craft, in order of path, with none of them put together. */
  craftFilesWith(file: FilePath): readonly FilePath[];
  /** The files of a craft that is known, in merge order, without putting it together. */
  partsOf(craft: FilePath): readonly FilePath[];
}

/** What is remembered from one moment to the next: keyed by content, so that nothing goes stale. */
export interface Core {
  readonly catalogue: Catalogue;
  at(view: FileView, levels?: RuleLevels): Workspace;
}

/** Craft remembered at once: more than a person works on, few enough to check a thousand in little memory. */
const MOST_CRAFTS = 50;

/** What reads scripts by a catalogue and remembers what it has read; one serves any number of views. */
export function makeCore(catalogue: Catalogue): Core {
  const reader = scriptReader(catalogue);
  const crafts = new Map<string, Merged>();
  const coreMemo: CoreMemo = new Map();
  const keep = makeUsersKeeper();
  // Asked several times in one answer, of files that do not change meanwhile.
  const users = oncePer((workspace: Workspace) => keep(workspace));
  return {
    catalogue,
    at(view, levels = OWN_LEVELS) {
      const workspace: Workspace = {
        memo: new Map(),
        catalogue,
        levels,
        view,
        script(file) {
          const answer = view.read(file);
          return scriptRead(file, answer?.kind === "text" ? reader.read(file, answer.text, answer.validUtf8) : null);
        },
        target: (from, use) => useTarget(workspace, from.file, use),
        craft: (file, handset) =>
          workspace.script(file)?.kind === "craft" ? workspace.craftLike(file, handset) : null,
        craftLike(file, handset) {
          const script = workspace.script(file);
          if (!script) return null;
          const plan = planOf(workspace, script, handset === undefined ? null : workspace.script(handset));
          const key = `${file}\n${handset ?? ""}`;
          const known = crafts.get(key);
          if (known && samePlan(known.plan, plan)) return known.craft;
          const craft = mergeCraft(script, plan, catalogue, coreMemo, known);
          if (crafts.size >= MOST_CRAFTS) crafts.clear();
          crafts.set(key, { plan, craft });
          return craft;
        },
        laidOver(craft, script) {
          const parts = craft.scripts.map((each) => ({
            script: each,
            viaLine: craft.answersFor({ file: each.file, line: each.tree.header ?? 0 }).line,
          }));
          const plan = {
            handset: craft.handset,
            parts: [...parts, { script, viaLine: craft.script.tree.header ?? 0 }],
            gaps: craft.gaps,
          };
          return mergeCraft(craft.script, plan, catalogue, coreMemo);
        },
        craftsWith: (file) => workspace.craftFilesWith(file).map((each) => workspace.craft(each)!),
        craftFilesWith: (file) => users(workspace, undefined).of(file),
        partsOf: (craft) => users(workspace, undefined).partsOf(craft),
      };
      return workspace;
    },
  };
}

function samePlan(a: Plan, b: Plan): boolean {
  return (
    a.handset === b.handset &&
    a.parts.length === b.parts.length &&
    a.parts.every((part, i) => part.script === b.parts[i]!.script && part.viaLine === b.parts[i]!.viaLine) &&
    sameGaps(a.gaps, b.gaps)
  );
}
