/** Asks where to write a gesture if its line is in a layer. */
import { type QuickPickItem, QuickPickItemKind } from "vscode";
import type { MotorGesture } from "../../shared/protocol/motor-edit.ts";
import type { OsdEditResult, OsdGesture, WriteWhere } from "../../shared/protocol/osd-edit.ts";
import { joinWithAnd } from "../../shared/text/list.ts";
import { pickOne } from "./shown-window.ts";

type Question = Extract<OsdEditResult, { kind: "choose" }>;

/** On the picture of the OSD, or on the drawing of the motors. */
export type Gesture = OsdGesture | MotorGesture;

interface Choice extends QuickPickItem {
  readonly where?: WriteWhere;
  readonly always?: true;
}

/** Returns a function that asks. It remembers an answer with “always” until the editor is closed, and gives null if the question is dismissed. */
export function askWriteTarget(): (question: Question, gesture: Gesture, craft: string) => Promise<WriteWhere | null> {
  const remembered = new Map<string, WriteWhere>();
  return async ({ layer, sharedWith }, gesture, craft) => {
    // A grid or a whole page is changed rarely, and the change is large, so this is asked each time.
    const rare = gesture.kind === "fit" || gesture.kind === "begin";
    // What was said of the OSD for good was not said of the motors.
    const about = `${"motor" in gesture ? "motors" : "osd"} ${layer}`;
    const known = rare ? undefined : remembered.get(about);
    if (known) return known;
    const inLayer = `In the layer “${layer}”`;
    const onlyHere = `Only on ${craft}`;
    // What changes least stands first: it is what Enter takes.
    const once: Choice[] = [
      { label: onlyHere, description: "in its own file; the layer stays as it is", where: "override" },
      { label: inLayer, description: consequence(gesture, sharedWith), where: "there" },
    ];
    const always: Choice[] = [
      { label: "without asking again until the editor is closed", kind: QuickPickItemKind.Separator },
      { label: onlyHere, description: "always", where: "override", always: true },
      { label: inLayer, description: "always", where: "there", always: true },
    ];
    const title = `${subject(gesture)} in the layer “${layer}”`;
    const chosen = await pickOne(rare ? once : [...once, ...always], {
      title,
      placeHolder: "Where is the change to be written?",
    });
    if (!chosen?.where) return null;
    if (chosen.always) remembered.set(about, chosen.where);
    return chosen.where;
  };
}

function subject(gesture: Gesture): string {
  if (gesture.kind === "fit") return "The grid and its layout stand";
  if ("motor" in gesture) return `motor${gesture.motor} stands`;
  return gesture.kind === "begin" ? "The page could begin" : `${gesture.element} stands`;
}

const DOES: Readonly<Record<Gesture["kind"], string>> = {
  move: "also moves it on",
  add: "also adds it on",
  remove: "also takes it off",
  fit: "also changes the layout of",
  begin: "also lays the page out on",
  place: "also puts it there on",
  turn: "also turns it so on",
};

/** The most craft that are named one by one. */
const MOST_NAMED = 3;

function consequence({ kind }: Gesture, sharedWith: readonly string[]): string {
  if (sharedWith.length === 0) return "no other craft here is changed by it";
  if (sharedWith.length <= MOST_NAMED)
    return `${DOES[kind]} ${joinWithAnd(sharedWith)}: ${sharedWith.length + 1} craft`;
  const named = sharedWith.slice(0, MOST_NAMED - 1).join(", ");
  return `${DOES[kind]} ${sharedWith.length} others: ${sharedWith.length + 1} craft, among them ${named}`;
}
