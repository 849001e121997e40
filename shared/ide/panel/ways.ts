/** The buttons that lead on from where there is nothing to draw. */
import { scriptsNaming } from "../../dialect/dialects.ts";
import { controlsUsed } from "../../logic/rename-controls.ts";
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Gap, WayOn } from "../../protocol/ways.ts";
import { joinWithAnd } from "../../text/list.ts";

const NEW_CRAFT: WayOn = { label: "New craft…", action: { name: "new-craft" } };
const NEW_HANDSET: WayOn = { label: "New handset…", action: { name: "new-handset" } };

/** Where a whole file has nothing to draw. */
export function waysFromEmpty(script: Script | null, workspace: Workspace): readonly WayOn[] {
  if (!script) return [NEW_CRAFT];
  const { file, tree } = script;
  const header: WayOn = { label: "Show the header", action: { name: "go", at: { file, line: tree.header ?? 0 } } };
  if (tree.newer) return [{ label: "Look for an update", action: { name: "find-update" } }, header];
  if (script.kind === "craft") return [header];
  if (script.kind === "dialect") {
    const [first] = scriptsNaming(workspace, file).filter(({ kind }) => kind === "craft");
    const craft: WayOn[] = first
      ? [
          {
            label: `Show ${first.name}`,
            action: { name: "go", at: { file: first.file, line: first.tree.header ?? 0 } },
          },
        ]
      : [];
    return [...craft, { label: "Explain dialects", action: { name: "explain", of: "word/dialect" } }];
  }
  if (tree.header === null)
    return [{ label: "Make it a craft", action: { name: "fill-in", file, what: "header" } }, NEW_CRAFT];
  const hasCraft = workspace.view.list().some((each) => workspace.script(each)?.kind === "craft");
  const use: WayOn = { label: "Use it in a craft…", action: { name: "use-in-craft", file } };
  return hasCraft ? [use, NEW_CRAFT] : [NEW_CRAFT];
}

/** Where there is no OSD to draw: to the line with a fault, or to one that uses a file which is not there. */
export function waysToGoggles(craft: Craft, workspace: Workspace): readonly WayOn[] {
  const grid = craft.settings.get("osd")?.get("grid");
  if (grid) return [{ label: "Show that line", action: { name: "go", at: grid.source } }];
  return waysToMissingPart(craft, workspace);
}

/** To the line that uses a file which is not there: what is missed may stand in it. */
export function waysToMissingPart(craft: Craft, workspace: Workspace): readonly WayOn[] {
  const broken = brokenUse(craft, workspace);
  return broken ? [broken] : [];
}

/** Where there are no switches: the craft has no handset, or one without controls. */
export function waysToSwitches(craft: Craft, workspace: Workspace): readonly WayOn[] {
  const { file, handset } = craft;
  const another: WayOn = {
    label: handset ? "Use another handset…" : "Use a handset…",
    action: { name: "use-handset", file },
  };
  const others = workspace.view.list().some((each) => {
    const script = workspace.script(each);
    return script?.kind === "handset" && script.file !== handset?.file;
  });
  return [
    ...waysToMissingPart(craft, workspace),
    ...(handset ? [{ label: "Add its controls", action: { name: "fill-in", file, what: "controls" } } as const] : []),
    ...(others ? [another] : []),
    NEW_HANDSET,
  ];
}

/** The first line of a craft, or of a file of it, that uses a file which is not there. */
function brokenUse({ scripts }: Craft, workspace: Workspace): WayOn | null {
  for (const script of scripts) {
    const use = script.uses.find((each) => workspace.target(script, each).kind === "none");
    if (!use) continue;
    const where = script.kind === "craft" ? `line ${use.line + 1}` : `line ${use.line + 1} of “${script.name}”`;
    return { label: `Show ${where}`, action: { name: "go", at: { file: script.file, line: use.line } } };
  }
  return null;
}

/** What the switches lack although there are some; nothing where a file is missing, which may have said it. */
export function gapsInSwitches(craft: Craft): readonly Gap[] {
  if (craft.gaps.length > 0) return [];
  const { file, handset } = craft;
  const named = new Set(craft.scripts.flatMap((script) => controlsUsed(script).map(({ name }) => name)));
  const strangers = [...named].filter((name) => !craft.controls.has(name));
  const gaps: Gap[] = [];
  if (strangers.length > 0 && handset) {
    const shown = strangers.length > 4 ? [...strangers.slice(0, 3), `${strangers.length - 3} more`] : strangers;
    gaps.push({
      why: `Conditions name ${joinWithAnd(shown)}, which “${handset.name}” does not have.`,
      ways: [
        { label: "Map controls…", action: { name: "map-controls", file } },
        { label: "Use another handset…", action: { name: "use-handset", file } },
      ],
    });
  }
  if (!craft.modes.has("arm")) {
    gaps.push({
      why: "No mode “arm” is set up, so nothing arms the craft.",
      ways: [{ label: "Add it", action: { name: "fill-in", file, what: "arm" } }],
    });
  }
  return gaps;
}
