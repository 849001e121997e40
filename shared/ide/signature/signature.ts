/** Signature help: the parts of the value that is being written, and which of them is at the cursor. */
import type { FieldSpec, FieldsType, SimpleType } from "../../catalogue/specs.ts";
import { baseOf } from "../../model/craft.ts";
import { adjustable } from "../../model/read-entry.ts";
import type { Workspace } from "../../model/workspace.ts";
import { gridOf, sizeOf } from "../../osd/layout.ts";
import { commentStart } from "../../syntax/scanner.ts";
import type { Position } from "../../syntax/span.ts";
import { type CursorContext, craftFor, cursorContextAt } from "../context/cursor-context.ts";
import { typeLines } from "../context/describe.ts";
import { describeControl, knownControls } from "../context/known-controls.ts";
import { list, paragraphs } from "../context/markdown.ts";
import { type SignatureHelp, type Slot, signatureHelp } from "./shape.ts";
import { conditionSignatures, controlSignatures } from "./switch-signatures.ts";

export type { SignatureHelp } from "./shape.ts";

/** The signature help at a position; null in comments and names, and for values without parts. */
export function signatureAt(workspace: Workspace, file: string, at: Position): SignatureHelp | null {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor?.spec || cursor.section === null || cursor.script.tree.newer) return null;
  const { text, spec, section } = cursor;
  const before = text.slice(0, at.character);
  if (commentStart(before) >= 0) return null;
  const parts = /^\s+([A-Za-z][A-Za-z0-9-]*)\s+(.*)$/s.exec(before);
  if (!parts) return null;
  const [, head = "", written = ""] = parts;
  if (head === "drop") return null;
  const { catalogue } = workspace;
  switch (spec.holds) {
    case "kept":
      return null;
    case "controls":
      return controlSignatures(head, written);
    case "modes":
    case "outputs":
      return conditionSignatures(head, written, knownControls(workspace, file));
    case "follows":
      return followsSignature(workspace, file, head, written);
    case "places":
      if (catalogue.element(head)) return placeSignature(workspace, file, head, written);
  }
  const fields = catalogue
    .setting(baseOf(section), head)
    ?.types.find((type): type is FieldsType => type.is === "fields");
  return fields ? fieldsSignature(head, fields, written, valueText(cursor)) : null;
}

/** The whole value after the name, without the comment. */
function valueText({ node, text }: CursorContext): string {
  return node.kind === "entry" ? text.slice(node.value.start, node.value.end) : "";
}

function fieldsSignature(head: string, type: FieldsType, written: string, value: string): SignatureHelp {
  const slots = type.fields.map((field): Slot => {
    const defaultLine = field.default === undefined ? [] : [`Default: \`${field.default}\``];
    const words = `${field.name} ${typeText(field.types)}`;
    return {
      text: field.default === undefined ? words : `[${words}]`,
      markdown: paragraphs(field.what, list([...field.types.flatMap(typeLines), ...defaultLine])),
    };
  });
  return signatureHelp([{ start: head, slots, markdown: "" }], 0, activeField(type.fields, written, value));
}

/**
 * The index of the field whose value is being written; after a complete value the next field that is not written yet.
 */
function activeField(fields: readonly FieldSpec[], written: string, value: string): number {
  const words = written.split(/\s+/);
  const partialWord = words.pop() ?? "";
  const placeOf = (word: string) => fields.findIndex((each) => each.name === word);
  const last = words.findLastIndex((word) => placeOf(word) >= 0);
  const current = last < 0 ? -1 : placeOf(words[last]!);
  if (current >= 0 && !isComplete(fields[current]!, words.slice(last + 1))) return current;
  const partialField = placeOf(partialWord);
  if (partialField >= 0) return partialField;
  const used = new Set(value.split(/\s+/));
  const open = fields.findIndex(({ name }) => !used.has(name) && name.startsWith(partialWord));
  const next = open >= 0 ? open : fields.findIndex(({ name }) => !used.has(name));
  return next >= 0 ? next : Math.max(0, current);
}

/** Whether the words after a field's name are its complete value. */
function isComplete({ types }: FieldSpec, words: readonly string[]): boolean {
  if (words.length === 0) return false;
  const withUnit = types.some((type) => type.is === "quantity" && type.unit !== "");
  return !withUnit || words.length > 1 || /\d[A-Za-z%/]/.test(words[0]!);
}

/** What types accept, in a word or two. */
function typeText(types: readonly SimpleType[]): string {
  const each = types.map((type) => {
    if (type.is === "quantity") return type.unit === "" ? "NUMBER" : `NUMBER ${type.unit}`;
    if (type.is === "integer") return "NUMBER";
    return type.is === "choice" ? type.choices.map(({ word }) => word).join("|") : type.is.toUpperCase();
  });
  return each.join("|");
}

const ANCHORS = {
  column: "`left+2`: its left edge two cells in; `right-2`: its right edge so; `centre-4`: four left of the middle",
  row: "`top+1`: one row down; `bottom-1`: one row up from the last; `middle+3`: three below the middle",
} as const;

function placeSignature(workspace: Workspace, file: string, head: string, written: string): SignatureHelp {
  const craft = craftFor(workspace, file);
  const element = workspace.catalogue.element(head);
  const grid = craft && gridOf(craft);
  const size = craft && element ? sizeOf(element, craft) : null;
  const slot = (text: string, axis: "column" | "row"): Slot => {
    const cells = axis === "column" ? grid?.columns : grid?.rows;
    const needs = axis === "column" ? size?.width : size?.height;
    const fits =
      cells === undefined || needs === undefined
        ? []
        : [
            `On this grid of ${grid!.columns} x ${grid!.rows} it takes ${needs} ${axis}${needs === 1 ? "" : "s"}${
              cells >= needs ? `: 0 to ${cells - needs} keep it in the picture` : ", more than there are"
            }`,
          ];
    return { text, markdown: list([`The ${axis}, counted from 0`, ANCHORS[axis], ...fits]) };
  };
  const slots = [slot("COLUMN", "column"), slot("ROW", "row")];
  const markdown = element?.what ?? "";
  return signatureHelp([{ start: `${head} at`, slots, between: ", ", markdown }], 0, written.includes(",") ? 1 : 0);
}

function followsSignature(workspace: Workspace, file: string, head: string, written: string): SignatureHelp | null {
  const setting = adjustable(head, workspace.catalogue);
  if (!setting) return null;
  const dials = [...knownControls(workspace, file)].filter(([, value]) => value.control === "dial");
  const limits = list(setting.types.filter((type) => type.is !== "fields").flatMap(typeLines));
  const slots: Slot[] = [
    {
      text: "DIAL",
      markdown:
        list(dials.map(([name, value]) => `\`${name}\`: ${describeControl(value)}`)) || "No dial is known here.",
    },
    { text: "from VALUE", markdown: paragraphs("At the dial's low stop.", limits) },
    { text: "to VALUE", markdown: paragraphs("At the dial's high stop.", limits) },
  ];
  const words = written.split(/\s+/).slice(0, -1);
  const active = words.includes("to") ? 2 : words.includes("from") ? 1 : words[0] === "follows" && words[1] ? 1 : 0;
  return signatureHelp([{ start: `${head} follows`, slots, markdown: setting.what }], 0, active);
}
