/** Craft that somebody named to be flown at the same time: what their scripts say of their pictures. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath, FileView } from "../../model/files.ts";
import type { FlownCraft } from "../../model/flown.ts";
import { knownPart } from "../../model/known-part.ts";
import { choiceOf, quantityOf, settingOf } from "../../model/setting-lookup.ts";
import type { Core, Workspace } from "../../model/workspace.ts";
import { videoOf } from "../../numbers/radio-of.ts";
import { valueLocation } from "./locations.ts";

const FREQUENCY = "video.frequency";

/** What a craft says of its picture. Only analogue pictures follow a television standard, so it tells the kind where nothing else does. */
export function flownCraft(craft: Craft, workspace: Workspace): FlownCraft {
  const { signal, carrierMhz, widthMhz, region } = videoOf(craft, workspace.catalogue);
  const followsStandard = choiceOf(craft, "video.standard") !== undefined;
  const isSilent = choiceOf(craft, "video.power") === "off" || quantityOf(craft, "video.power", "mW") === 0;
  const said = settingOf(craft, FREQUENCY);
  const at = said && valueLocation(workspace, said.source);
  return {
    file: craft.file,
    name: craft.script.name ?? "",
    signal: signal ?? (followsStandard ? "analogue" : null),
    carrierMhz: said && !isSilent ? carrierMhz : null,
    widthMhz,
    spareMhz: quantityOf(craft, "video.spare-frequency", "MHz") ?? null,
    region,
    at: at ? { ...at.source, start: at.start, end: at.end } : null,
  };
}

/**
 * The same of some files, each once, without what may come of a part that is missing; those that are no craft, or newer
 * than this program, are left out.
 */
export function flownIn(workspace: Workspace, files: readonly FilePath[]): FlownCraft[] {
  return [...new Set(files.map(workspace.view.realPath))].flatMap((file) => {
    const craft = workspace.script(file)?.tree.newer ? null : workspace.craft(file);
    return craft ? [flownCraft(knownPart(craft, workspace.catalogue), workspace)] : [];
  });
}

/** The same list for as long as it says the same. */
export function steadyList(): (now: readonly FlownCraft[]) => readonly FlownCraft[] {
  let [known, key]: [readonly FlownCraft[], string] = [[], "[]"];
  return (now) => {
    const keyNow = JSON.stringify(now);
    if (keyNow !== key) [known, key] = [now, keyNow];
    return known;
  };
}

/** A view in which these craft fly together, as the core reads them in it; whoever asks can wait. */
export function viewTogether(view: FileView, core: Core, files: readonly FilePath[]): FileView {
  const workspace = core.at(view);
  let flown: readonly FlownCraft[] | null = null;
  return {
    ...view,
    isPatient: true,
    together() {
      flown ??= flownIn(workspace, files);
      return flown;
    },
  };
}
