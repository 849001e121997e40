/** Gestures on the drawing of the motors, as edits of the scripts. */
import type { Craft, Setting, Source } from "../../model/craft.ts";

import type { Entry, Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { MotorGesture } from "../../protocol/motor-edit.ts";
import type { WriteWhere } from "../../protocol/osd-edit.ts";
import { type SaidMotor, saidMotors } from "../../rules/lib/said-motors.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { joinWithAnd } from "../../text/list.ts";
import { pickedCraft } from "../context/picked-craft.ts";
import { changedField } from "./field-edit.ts";
import { type OsdEdit, refusal, scriptOfSource, sharedLineQuestion } from "./osd-write.ts";
import { appendEntries, lineForEntry, type NewEntry, newerEdition, whyNotWritable } from "./script-edits.ts";

export interface MotorEditQuery {
  /** Of several craft that use the file, the one that was drawn. */
  readonly craft?: string | undefined;
  readonly gesture: MotorGesture;
  /** Null: not chosen yet. For lines of a layer the result is then a question. */
  readonly where: WriteWhere | null;
}

interface Scope {
  readonly workspace: Workspace;
  readonly craft: Craft;
  /** The file that the drawing was made for. */
  readonly file: string;
  readonly where: WriteWhere | null;
}

/** A field of a motor that changes. */
interface Change {
  /** Such as `motor1`. */
  readonly name: string;
  readonly field: "place" | "direction";
  readonly text: string;
}

/**
 * The edits for a gesture: in the line that says the field, else in the motor's line, else in a new line of the craft.
 * For a line of a layer `where` decides: `there` changes the layer, `override` writes only that field into the craft;
 * without it the result is a question. A motor that is put where another stands changes places with it. What would
 * change nothing gives no edits.
 */
export function motorEditOf(workspace: Workspace, file: string, query: MotorEditQuery): OsdEdit {
  const craft = pickedCraft(workspace, file, query.craft);
  if (!craft) return refusal("No craft of this workspace has these motors, so there is nothing to change.");
  if (craft.script.tree.newer) return refusal(newerEdition(craft.script));
  const { gesture } = query;
  const scope: Scope = { workspace, craft, file, where: query.where };
  const why = unknownIn(workspace, gesture);
  if (why !== null) return refusal(why);
  const setting = settingOf(craft, nameOf(gesture.motor));
  if (setting && setting.value === null) return refusal(unreadable(scope, setting, gesture));
  const changes = gesture.kind === "turn" ? turned(craft, gesture) : placed(craft, gesture);
  return typeof changes === "string" ? refusal(changes) : writeChanges(scope, changes);
}

function nameOf(motor: number): string {
  return `motor${motor}`;
}

function settingOf(craft: Craft, name: string): Setting | undefined {
  return craft.settings.get("motors")?.get(name);
}

/** The words that a field of a motor may have, by the catalogue; null where it has no such motor. */
function wordsOf({ catalogue }: Workspace, name: string, field: string): readonly string[] | null {
  const fields = fieldsOf(catalogue, name);
  if (!fields) return null;
  const types = fields.find((each) => each.name === field)?.types ?? [];
  return types.flatMap((type) => (type.is === "choice" ? type.choices.map(({ word }) => word) : []));
}

function fieldsOf(catalogue: Workspace["catalogue"], name: string) {
  const [type] = catalogue.setting("motors", name)?.types ?? [];
  return type?.is === "fields" ? type.fields : null;
}

function unknownIn(workspace: Workspace, gesture: MotorGesture): string | null {
  const name = nameOf(gesture.motor);
  const isPlace = gesture.kind === "place";
  const words = wordsOf(workspace, name, isPlace ? "place" : "direction");
  if (!words) return `There is no “${name}”: lines can be written for fewer motors.`;
  const word = isPlace ? gesture.place : gesture.direction;
  if (words.includes(word)) return null;
  return isPlace
    ? `There is no place “${word}” at which a motor could stand.`
    : `A motor turns ${words.join(" or ")}, and not “${word}”.`;
}

function unreadable(scope: Scope, { source }: Setting, { kind, motor }: MotorGesture): string {
  const { name } = scriptOfSource(scope, source);
  const act = kind === "turn" ? "turn" : "move";
  return `Line ${source.line + 1} of “${name}” cannot be read: mend it, then ${act} ${nameOf(motor)}.`;
}

function turned(craft: Craft, { motor, direction }: Extract<MotorGesture, { kind: "turn" }>): readonly Change[] {
  const name = nameOf(motor);
  const said = saidMotors(craft).find((each) => each.name === name);
  return said?.direction?.is === direction ? [] : [{ name, field: "direction", text: direction }];
}

/** The changes of a motor that goes to a corner, and of the one that gives way; or why it cannot go there. */
function placed(craft: Craft, { motor, place }: Extract<MotorGesture, { kind: "place" }>): readonly Change[] | string {
  const name = nameOf(motor);
  const said = saidMotors(craft);
  const from = said.find((each) => each.name === name)?.place?.is;
  if (from === place) return [];
  const isThere = (each: SaidMotor) => each.place?.is === place;
  const there = said.filter(isThere).map((each) => each.name);
  const [other] = there;
  const moved: Change = { name, field: "place", text: place };
  if (other === undefined) return [moved];
  if (there.length > 1)
    return `${joinWithAnd(there)} are said to stand at ${place} ${there.length === 2 ? "both" : "all"}: move one of them away first.`;
  if (from === undefined)
    return `${other} stands at ${place}, and ${name} has no corner to give for it: put ${name} on a free corner first.`;
  return [moved, { name: other, field: "place", text: from }];
}

/** The edits for all changes, or none. */
function writeChanges(scope: Scope, changes: readonly Change[]): OsdEdit {
  const { workspace, craft, where } = scope;
  const lines = changes.map((change) => ({ change, source: lineOf(craft, change) }));
  const said = lines.flatMap(({ source }) => (source ? [source] : []));
  const question = sharedLineQuestion(scope, said, motorLines);
  if (question) return question;
  const files = new Map<string, TextEdit[]>();
  const added: NewEntry[] = [];
  for (const { change, source } of lines) {
    const target = where === "override" || !source ? ownLine(craft, change) : entryAt(scope, change, source);
    if (!target) {
      added.push({ name: change.name, rest: `${change.field} ${change.text}` });
      continue;
    }
    const why = whyNotWritable(workspace, target.script, target.entry.line);
    if (why !== null) return refusal(why);
    const order = (fieldsOf(workspace.catalogue, change.name) ?? []).map(({ name }) => name);
    const edit = changedField(target.script, target.entry, order, change.field, change.text);
    files.set(target.script.file, [...(files.get(target.script.file) ?? []), edit]);
  }
  if (added.length > 0) {
    const why = whyNotWritable(workspace, craft.script, lineForEntry(craft.script, "motors"));
    if (why !== null) return refusal(why);
    const edits = appendEntries(craft.script, new Map([["motors", added]]));
    files.set(craft.file, [...(files.get(craft.file) ?? []), ...edits]);
  }
  return { kind: "edits", files: [...files].map(([file, edits]) => ({ file, edits })) };
}

/** The line that says the field, else the last that says anything of the motor. */
function lineOf(craft: Craft, { name, field }: Change): Source | undefined {
  const setting = settingOf(craft, name);
  return setting?.fieldSources.get(field) ?? setting?.source;
}

interface Target {
  readonly script: Script;
  readonly entry: Entry;
}

function entryAt(scope: Scope, { name }: Change, source: Source): Target | undefined {
  const script = scriptOfSource(scope, source);
  const entry = script.entries.find(
    (each) => each.section === "motors" && each.name === name && each.line === source.line,
  );
  return entry && { script, entry };
}

/** The craft's own line of a motor: the last that says the field, else the last of all. */
function ownLine({ script }: Craft, { name, field }: Change): Target | undefined {
  const own = script.entries.filter((each) => each.section === "motors" && each.name === name);
  const says = ({ value }: Entry) => value?.kind === "fields" && value.fields.some((each) => each.name === field);
  const entry = own.findLast(says) ?? own.at(-1);
  return entry && { script, entry };
}

/** The lines by which the motors of a craft are known. */
function motorLines(craft: Craft): Source[] {
  return saidMotors(craft).flatMap(({ setting }) => [setting.source, ...setting.fieldSources.values()]);
}
