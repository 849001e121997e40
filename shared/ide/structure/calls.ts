/** The hierarchy of what hangs on what, for an editor: the part at a position, what it hangs on, what hangs on it. */
import type { Craft, Mode } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Position, type Range, rangeOf, spanAt } from "../../syntax/span.ts";
import type { Steps } from "../../text/steps.ts";
import { coversColumn, cursorContextAt } from "../context/cursor-context.ts";
import { type Part, type PartKind, type PartName, relianceOf, type Words } from "./reliance.ts";

export type { PartKind, PartName } from "./reliance.ts";

/** Of a layer or a handset that many craft use, so many are shown. */
const MOST_CRAFT = 20;

/** A part of one craft as it is shown. */
export interface CallItem {
  /** The craft for which it is shown. */
  readonly craft: FilePath;
  readonly part: PartName;
  readonly kind: PartKind;
  /** “arm”, “TL is down”, “KN”. */
  readonly name: string;
  readonly detail: string;
  readonly file: FilePath;
  /** Its line. */
  readonly range: Range;
  readonly nameRange: Range;
}

/** One of two parts, and the words by which one of them hangs on the other; they stand in the file of the one that hangs. */
export interface Call {
  readonly item: CallItem;
  readonly ranges: readonly Range[];
}

/** The part at a position, once for each craft that has the file; empty where nothing there has a part in a craft. */
export function* callItemsAt(workspace: Workspace, file: FilePath, at: Position): Steps<CallItem[]> {
  const asked = partAt(workspace, file, at);
  if (!asked) return [];
  const own = workspace.craft(file);
  const users = own ? [] : workspace.craftFilesWith(file).slice(0, MOST_CRAFT);
  if (own || users.length === 0) {
    const craft = own ?? workspace.craftLike(file);
    const part = craft && relianceOf(craft, undefined).part(onCraft(asked, craft));
    return part ? [itemOf(craft, part)] : [];
  }
  const items: CallItem[] = [];
  for (const user of users) {
    const craft = workspace.craft(user)!;
    const part = relianceOf(craft, undefined).part(onCraft(asked, craft));
    // Elsewhere than in a craft's own file it is to be told which craft is meant.
    if (part) items.push({ ...itemOf(craft, part), detail: `on ${craft.name}: ${detailOf(craft, part)}` });
    yield;
  }
  return items;
}

/** What a part of a craft hangs on. */
export function outgoingCalls(workspace: Workspace, craft: FilePath, name: PartName): Call[] {
  return callsOf(workspace, craft, name, "from", "to");
}

/** What hangs on a part of a craft. */
export function incomingCalls(workspace: Workspace, craft: FilePath, name: PartName): Call[] {
  return callsOf(workspace, craft, name, "to", "from");
}

function callsOf(
  workspace: Workspace,
  file: FilePath,
  name: PartName,
  near: "from" | "to",
  far: "from" | "to",
): Call[] {
  const craft = workspace.craftLike(file);
  if (!craft) return [];
  const { part, links } = relianceOf(craft, undefined);
  const asked = part(name);
  const found = new Map<Part, Range[]>();
  for (const link of links) {
    if (link[near] !== asked) continue;
    const range = rangeOfWords(link.by);
    const ranges = found.get(link[far]) ?? [];
    if (!ranges.some((each) => isSame(each, range))) ranges.push(range);
    found.set(link[far], ranges);
  }
  return [...found].map(([each, ranges]) => ({ item: itemOf(craft, each), ranges }));
}

function isSame(a: Range, b: Range): boolean {
  return (
    a.start.line === b.start.line && a.start.character === b.start.character && a.end.character === b.end.character
  );
}

/** The part that a word names. */
function partAt(workspace: Workspace, file: FilePath, at: Position): PartName | null {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor) return null;
  const { node, column, entry, piece, text, spec } = cursor;
  if (node.kind === "drop") {
    const word = node.names.find((each) => coversColumn(each, column))?.text;
    const kind = spec?.holds === "modes" ? "mode" : spec?.holds === "outputs" ? "output" : null;
    return word !== undefined && kind ? { kind, name: word } : null;
  }
  if (!entry) return null;
  if (node.kind === "entry" && coversColumn(node.head, column)) {
    const { kind, name } = entry;
    return kind === "mode" || kind === "output" || kind === "control" || kind === "follows" ? { kind, name } : null;
  }
  if (!piece) return null;
  const word = text.slice(piece.start, piece.end);
  switch (piece.kind) {
    case "mode":
    case "control":
    case "channel":
      return { kind: piece.kind, name: word };
    case "position":
      return { kind: "position", name: piece.of ?? entry.name, position: word };
    default:
      return null;
  }
}

/** A channel that a control drives is that control. */
function onCraft(asked: PartName, craft: Craft): PartName {
  if (asked.kind !== "channel") return asked;
  const control = [...craft.controls.values()].find(({ value }) => value && `ch${value.channel}` === asked.name);
  return control ? { kind: "control", name: control.name } : asked;
}

function itemOf(craft: Craft, part: Part): CallItem {
  const { kind, name, position, at } = part;
  const { file, line } = at.source;
  const length = craft.scripts.find((each) => each.file === file)?.tree.lines[line]?.text.length ?? at.end;
  return {
    craft: craft.file,
    part: { kind, name, ...(position !== undefined && { position }) },
    kind,
    name: position === undefined ? name : `${name} is ${position}`,
    detail: detailOf(craft, part),
    file,
    range: rangeOf(spanAt(line, { start: 0, end: length })),
    nameRange: rangeOfWords(at),
  };
}

function rangeOfWords({ source, start, end }: Words): Range {
  return rangeOf(spanAt(source.line, { start, end }));
}

function detailOf(craft: Craft, { kind, name, position, isSetUp }: Part): string {
  if (!isSetUp) return "no line sets it up";
  switch (kind) {
    case "mode":
      return conditionOf(craft.modes.get(name));
    case "output":
      return conditionOf(craft.outputs.get(name));
    case "follows":
      return craft.adjust.get(name)?.text ?? "";
    case "channel":
      return "no control drives it";
    case "control": {
      const value = craft.controls.get(name)?.value;
      return value ? `${value.control} on ch${value.channel}` : "";
    }
    case "position": {
      const value = craft.controls.get(name)?.value;
      const pulse = value?.positions.find((each) => each.name === position)?.pulseUs;
      return pulse === undefined ? "" : `sends ${pulse} us on ch${value!.channel}`;
    }
  }
}

/** With its “when”, which a line that could not be read has as it is written. */
function conditionOf(mode: Mode | undefined): string {
  const text = mode?.text ?? "";
  return /^when\b/.test(text) ? text : `when ${text}`;
}
