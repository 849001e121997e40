/** Lines that go from one file to another: what is left to be asked, then one step to undo. */
import { type QuickPickItem, QuickPickItemKind, Selection, TextEditorRevealType, Uri, window, workspace } from "vscode";
import {
  type ChangeOrigin,
  LAYERS_FOR_REQUEST,
  type LayerFor,
  type LayersForParams,
  type LayersForResult,
  type OriginAction,
  RELOCATE_REQUEST,
  type RelocateParams,
  type RelocateResult,
  type Relocation,
} from "../../shared/protocol/origin.ts";
import type { Ask } from "./ask.ts";
import { columnFor } from "./script-editors.ts";
import { askText, pickOne, tellInformation, tellWarning } from "./shown-window.ts";
import { makeEdits, rangeOf } from "./versioned-edits.ts";

type Change = Omit<ChangeOrigin, "action"> & { readonly action: OriginAction["kind"] };

export interface Relocations {
  /** Asks what has to be asked, and makes the change. */
  relocate(change: Change): Promise<void>;
}

export function relocations(ask: Ask): Relocations {
  const made = async ({ uri, craft }: Change, change: Relocation): Promise<void> => {
    let answer: RelocateResult | undefined;
    const params: RelocateParams = { uri, craft, change };
    const result = await makeEdits(async () => {
      answer = await ask<RelocateResult>(RELOCATE_REQUEST, params);
      return answer;
    });
    if (result.kind === "refused") return void tellWarning(result.message);
    if (answer?.kind !== "edits") return;
    if (answer.select) await select(answer.select);
    await tell(answer);
  };
  const layerFor = async ({ uri, range }: Change): Promise<LayerFor | "new" | undefined> => {
    const params: LayersForParams = { uri, range };
    const { what, refused, layers } = await ask<LayersForResult>(LAYERS_FOR_REQUEST, params);
    if (refused !== null) return void tellWarning(refused);
    const fresh = { label: "A new layer…", description: "used by this craft alone, for now", layer: "new" as const };
    const open = layers.filter((layer) => layer.refused === null).map(toItem);
    const closed = layers.filter((layer) => layer.refused !== null).map(toItem);
    const line: QuickPickItem = { label: "not possible", kind: QuickPickItemKind.Separator };
    const items: (QuickPickItem & { layer?: LayerFor | "new" })[] = [
      ...open,
      fresh,
      ...(closed.length > 0 ? [line, ...closed] : []),
    ];
    const title = `Move ${what} to a layer`;
    const chosen = await pickOne(items, {
      title,
      placeHolder: "The craft stays as it is. Which layer is to say it?",
      matchOnDescription: true,
      matchOnDetail: true,
    });
    if (chosen?.layer === undefined || chosen.layer === "new" || chosen.layer.refused === null) return chosen?.layer;
    return void tellWarning(chosen.layer.refused);
  };
  const extract = async (change: Change): Promise<void> => {
    const name = await askText({
      title: "Extract a layer",
      prompt: "What is the layer to be called? Its file is named after it, and the craft stays as it is.",
      placeHolder: "Habits",
      validateInput: (text) => (text.trim() === "" ? "A layer needs a name." : undefined),
    });
    if (name !== undefined) await made(change, { kind: "extract", range: change.range, name: name.trim() });
  };
  return {
    async relocate(change) {
      const { action, range } = change;
      switch (action) {
        case "override":
          return made(change, { kind: "override", position: range.start });
        case "inline":
          return made(change, { kind: "inline", line: range.start.line });
        case "extract":
          return extract(change);
        case "move": {
          const layer = await layerFor(change);
          if (layer === undefined) return;
          return layer === "new" ? extract(change) : made(change, { kind: "move", range, into: layer.uri });
        }
      }
    },
  };
}

function toItem(layer: LayerFor): QuickPickItem & { layer: LayerFor } {
  return { label: layer.name, description: layer.path, detail: layer.refused ?? layer.effect, layer };
}

/** Says what is to be known, and leads to a file that was made. */
async function tell({ notes, creates = [] }: Extract<RelocateResult, { kind: "edits" }>): Promise<void> {
  const [fresh] = creates;
  const path = fresh && workspace.asRelativePath(Uri.parse(fresh.file), false);
  const told = [...(path === undefined ? [] : [`The new layer is ${path}, and the craft uses it.`]), ...notes];
  if (told.length === 0) return;
  const open = "Open the Layer";
  // Not waited for: a message may stay as long as it likes.
  void tellInformation(told.join(" "), ...(fresh ? [open] : [])).then(async (chosen) => {
    if (chosen === open) await window.showTextDocument(Uri.parse(fresh!.file), { preview: false });
  });
}

async function select({
  file,
  range,
}: NonNullable<Extract<RelocateResult, { kind: "edits" }>["select"]>): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(file));
  const editor = await window.showTextDocument(document, { viewColumn: columnFor(document), preview: false });
  const selected = rangeOf(range);
  editor.selection = new Selection(selected.start, selected.end);
  editor.revealRange(selected, TextEditorRevealType.InCenterIfOutsideViewport);
}
