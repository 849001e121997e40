/** Another craft of one's own as an offer: what it is in effect, as a script without the places that its lines come from. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { specsOf } from "../edits/mapping-rows.ts";
import { effectiveScript } from "../reports/effective-script.ts";
import { type Offered, offerOf } from "./offer.ts";

/** All that a craft says, whatever file says it. Its handset stays with it; its conditions are those of that handset. */
export function offerOfCraft(workspace: Workspace, craft: Craft): Offered {
  const { text, lines } = effectiveScript(craft, workspace);
  const texts = text.split("\n");
  for (const { line, start } of lines) {
    const said = texts[line]!;
    if (/^\s*#/.test(said) || said.startsWith("use ")) texts[line] = "";
    else if (said.slice(start - 2, start) === "# ") texts[line] = said.slice(0, start - 2).trimEnd();
  }
  const offered = offerOf(workspace, texts.join("\n"), craft.name);
  if (offered.kind !== "offer") return offered;
  const controls = new Map(specsOf(craft).map((each) => [each.name, each]));
  return { kind: "offer", offer: { ...offered.offer, controls, handset: craft.handset?.name ?? null } };
}
