/** Asks which craft the others are to be like, and in what, and shows what becomes of each of them. */
import { type QuickPickItem, QuickPickItemKind, Uri, window } from "vscode";
import { asUri } from "../../shared/protocol/addresses.ts";
import {
  ALIKE_LAYERS_REQUEST,
  type AlikeKind,
  type AlikeLayersParams,
  type AlikeLayersResult,
} from "../../shared/protocol/fleet-change.ts";
import type { FleetChangeAbout } from "../../shared/protocol/fleet-change-messages.ts";
import { addressOf, nameOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { pickCraft } from "./pick-craft.ts";
import { isCraft, scriptOf } from "./script-editors.ts";
import { pickMany } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

const KINDS: Readonly<Record<AlikeKind, { readonly label: string; readonly description: string }>> = {
  habits: { label: "Habits", description: "which positions turn on which modes" },
  safety: { label: "Safety", description: "arming, and what happens when the signal is lost" },
  osd: { label: "OSD", description: "what stands where in the goggles" },
  rates: { label: "Rates", description: "how it answers the sticks" },
  helpers: { label: "Helpers", description: "finder, lights, recorder, way home" },
  pack: { label: "Pack warnings", description: "when to warn and to land" },
  link: { label: "Link", description: "what the pilot sets of it" },
};

type Item = QuickPickItem & { readonly alike?: AlikeKind; readonly layer?: string };

/** `of`: the craft that is the example; without it the one in front, or one that is asked for. */
export async function askMakeAlike(
  ask: Ask,
  scripts: Pick<WorkspaceScripts, "list">,
  open: (about: FleetChangeAbout) => void,
  of?: unknown,
): Promise<void> {
  // With a tab of a page in front no script is.
  const front = scriptOf(window.activeTextEditor);
  const given = of instanceof Uri ? of : front && isCraft(front) ? front.uri : undefined;
  const example = given ?? (await pickCraft(await scripts.list(), "Like which craft are the others to be?"));
  if (!example) return;
  const params: AlikeLayersParams = { example: addressOf(example) };
  const { layers } = await ask<AlikeLayersResult>(ALIKE_LAYERS_REQUEST, params);
  const items: Item[] = Object.entries(KINDS).map(([kind, words]) => ({ ...words, alike: kind as AlikeKind }));
  if (layers.length > 0) items.push({ label: "all that a layer says", kind: QuickPickItemKind.Separator });
  for (const { file, name } of layers) items.push({ label: name, description: "a layer of it", layer: file });
  const chosen = await pickMany(items, {
    title: `Make the Others Like ${nameOf(example)}`,
    placeHolder: "In what are they to be alike? What is hardware stays as it is on each.",
  });
  if (!chosen || chosen.length === 0) return;
  open({
    kind: "alike",
    example: addressOf(example),
    kinds: chosen.flatMap(({ alike }) => alike ?? []),
    layers: chosen.flatMap(({ layer }) => (layer === undefined ? [] : asUri(layer))),
  });
}
