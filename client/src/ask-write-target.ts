/** Asks where to write a gesture if its line is in a layer. */
import { type QuickPickItem, QuickPickItemKind, window } from "vscode";
import type { OsdEditResult, OsdGesture, WriteWhere } from "../../shared/protocol/osd-edit.ts";

type Question = Extract<OsdEditResult, { kind: "choose" }>;

interface Choice extends QuickPickItem {
  readonly where?: WriteWhere;
  readonly always?: true;
}

/** Returns a function that asks. It remembers an answer with “always” until the editor is closed, and gives null if the question is dismissed. */
export function askWriteTarget(): (
  question: Question,
  gesture: OsdGesture,
  craft: string,
) => Promise<WriteWhere | null> {
  const remembered = new Map<string, WriteWhere>();
  return async ({ layer, sharedWith }, gesture, craft) => {
    // A grid is changed rarely, and the change is large, so this is asked each time.
    const rare = gesture.kind === "fit";
    const known = rare ? undefined : remembered.get(layer);
    if (known) return known;
    const inLayer = `In the layer “${layer}”`;
    const onlyHere = `Only on ${craft}, as an override`;
    const once: Choice[] = [
      { label: inLayer, description: consequence(gesture, sharedWith), where: "there" },
      { label: onlyHere, description: "the layer stays as it is", where: "override" },
    ];
    const always: Choice[] = [
      { label: "without asking again until the editor is closed", kind: QuickPickItemKind.Separator },
      { label: inLayer, description: "always", where: "there", always: true },
      { label: onlyHere, description: "always", where: "override", always: true },
    ];
    const title = `${subject(gesture)} in the layer “${layer}”`;
    const chosen = await window.showQuickPick(rare ? once : [...once, ...always], {
      title,
      placeHolder: "Where is the change to be written?",
    });
    if (!chosen?.where) return null;
    if (chosen.always) remembered.set(layer, chosen.where);
    return chosen.where;
  };
}

function subject(gesture: OsdGesture): string {
  return gesture.kind === "fit" ? "The grid and its layout stand" : `${gesture.element} stands`;
}

const DOES: Readonly<Record<OsdGesture["kind"], string>> = {
  move: "also moves it on",
  add: "also adds it on",
  remove: "also takes it off",
  fit: "also changes the layout of",
};

function consequence({ kind }: OsdGesture, sharedWith: readonly string[]): string {
  return sharedWith.length === 0 ? "no other craft here is changed by it" : `${DOES[kind]} ${sharedWith.join(", ")}`;
}
