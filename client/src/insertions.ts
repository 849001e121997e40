/** Lines that a button of the panel writes into a script, and the questions which file is to be used. */
import { Selection, TextEditorRevealType, Uri, window, workspace } from "vscode";
import { type Uri as Address, asUri } from "../../shared/protocol/addresses.ts";
import {
  type Fillable,
  INSERT_REQUEST,
  type InsertParams,
  type InsertResult,
  type Repair,
  SCRIPTS_REQUEST,
  type ScriptsParams,
  type ScriptsResult,
} from "../../shared/protocol/ways.ts";
import type { Ask } from "./ask.ts";
import type { OsdGestures } from "./osd-gestures.ts";
import { columnFor } from "./script-editors.ts";
import { pickOne, tellInformation, tellWarning } from "./shown-window.ts";
import { rangeOf } from "./versioned-edits.ts";

/** How lines are asked for, and written as the gestures of the panel are: what was written last is what its undo takes back. */
export interface Inserting extends Pick<OsdGestures, "write"> {
  readonly ask: Ask;
}

/** Writes usual lines into a craft, and selects the value that the pilot is to look at. */
export function fillIn(by: Inserting, file: string, what: Fillable): Promise<void> {
  return insert(by, { uri: asUri(file), insert: { kind: "fill-in", what } });
}

/** Makes a repair that a finding of a craft offers. */
export function repair(by: Inserting, craft: string, made: Repair): Promise<void> {
  return insert(by, { uri: asUri(craft), insert: { kind: "repair", ...made } });
}

/** Asks which craft is to use a layer or a handset, and writes the line there. */
export async function useInCraft(by: Inserting, used: string): Promise<void> {
  const craft = await choose(
    by.ask,
    { uri: asUri(used), kind: "craft" },
    "Use this file in a craft",
    "Which craft is to use it?",
  );
  if (craft) await insert(by, { uri: craft, insert: { kind: "use", uri: asUri(used) } });
}

async function choose(
  ask: Ask,
  params: ScriptsParams,
  title: string,
  placeHolder: string,
): Promise<Address | undefined> {
  const scripts = await ask<ScriptsResult>(SCRIPTS_REQUEST, params);
  if (scripts.length === 0) {
    void tellInformation(
      params.kind === "craft"
        ? "There is no other craft in this workspace: begin one with “New Craft…”."
        : "There is no other handset in this workspace: write yours down with “New Handset…”.",
    );
    return undefined;
  }
  const items = scripts.map(({ name, path, uri }) => ({ label: name, description: path, uri }));
  return (await pickOne(items, { title, placeHolder, matchOnDescription: true }))?.uri;
}

async function insert({ ask, write }: Inserting, params: InsertParams): Promise<void> {
  let select: Extract<InsertResult, { kind: "edits" }>["select"] = null;
  const done = await write(async () => {
    const answer = await ask<InsertResult>(INSERT_REQUEST, params);
    if (answer.kind === "edits") select = answer.select;
    return answer;
  });
  if (done.kind === "refused") return void tellWarning(done.message);
  if (select) await show(select);
}

async function show({ file, range }: NonNullable<Extract<InsertResult, { kind: "edits" }>["select"]>): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(file));
  const editor = await window.showTextDocument(document, { viewColumn: columnFor(document), preview: false });
  const selected = rangeOf(range);
  editor.selection = new Selection(selected.start, selected.end);
  editor.revealRange(selected, TextEditorRevealType.InCenterIfOutsideViewport);
}
