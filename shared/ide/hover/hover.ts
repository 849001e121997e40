/** The hover of the word at a position. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { unitFamily } from "../../catalogue/units.ts";
import { unknownInWords } from "../../draw/words.ts";
import { boardOf } from "../../logic/from-craft.ts";
import { baseOf, type Craft } from "../../model/craft.ts";
import { traitsOfCraft } from "../../model/craft-traits.ts";
import { adjustable } from "../../model/read-entry.ts";
import type { Entry } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Position, Range } from "../../syntax/span.ts";
import { rangeOf, spanAt } from "../../syntax/span.ts";
import {
  allowanceAt,
  type CursorContext,
  coversColumn,
  craftFor,
  craftsFor,
  cursorContextAt,
  lineReference,
} from "../context/cursor-context.ts";
import { describeMode, describeName, describeSection, describeSetting, describeUnit } from "../context/describe.ts";
import { type EffectiveEntry, effectiveEntryIn, notesOf } from "../context/effective-entry.ts";
import { list, paragraphs, plainText, quoteNote } from "../context/markdown.ts";
import { conditionFollowersText, controlOn } from "./adjust-hover.ts";
import { hoverAllowance } from "./allowance-hover.ts";
import { hoverControl, hoverPosition } from "./control-hover.ts";
import { conversionsOf } from "./conversions.ts";
import { describeConsequences } from "./entry-consequences.ts";
import { hoverHeader, hoverUse } from "./file-hover.ts";

export interface Hover {
  readonly markdown: string;
  readonly range: Range;
}

/** The hover at a position; null where there is none. */
export function hoverAt(workspace: Workspace, file: string, at: Position): Hover | null {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor) return null;
  const { node, line, column } = cursor;
  const hoverOver = (markdown: string | null, cols: { start: number; end: number }): Hover | null =>
    markdown ? { markdown, range: rangeOf(spanAt(line, cols)) } : null;
  const allowance = allowanceAt(cursor);
  if (allowance) return hoverOver(hoverAllowance(allowance, cursor.script), allowance.codeSpan);
  switch (node.kind) {
    case "header":
      return hoverOver(hoverHeader(workspace, cursor), {
        start: node.word.start,
        end: node.name?.end ?? node.word.end,
      });
    case "use":
      return hoverOver(hoverUse(workspace, cursor), node.path ?? node.word);
    case "section": {
      if (!coversColumn(node.name, column) || !cursor.spec) return null;
      const note = cursor.script.noteOf(line).text;
      return hoverOver(paragraphs(describeSection(cursor.spec), quoteNote(note)), node.name);
    }
    case "drop": {
      const word = node.names.find((each) => coversColumn(each, column));
      if (!word || !cursor.section) return null;
      return hoverOver(describeName(workspace.catalogue, baseOf(cursor.section), word.text), word);
    }
    case "entry": {
      const entry = cursor.entry;
      if (!entry) return null;
      if (coversColumn(node.head, column)) return hoverOver(hoverEntry(workspace, file, entry), node.head);
      const { piece } = cursor;
      return piece ? hoverOver(hoverPiece(workspace, cursor, entry), piece) : null;
    }
    default:
      return null;
  }
}

/** The hover of an entry's name: description, effective value with its lines, consequences, and note. */
function hoverEntry(workspace: Workspace, file: string, entry: Entry): string | null {
  if (entry.kind === "control") return hoverControl(workspace, file, entry.name);
  const { catalogue } = workspace;
  const crafts = craftsFor(workspace, file);
  const craft = crafts[0];
  // What a layer says is for craft of several sizes.
  const traits = craft && crafts.length === 1 ? traitsOfCraft(craft)(entry.section) : {};
  const what =
    entry.kind === "output"
      ? `**${entry.name}** — an output of the board, named by the pilot`
      : entry.kind === "follows"
        ? describeFollowed(catalogue, entry.name)
        : describeName(catalogue, baseOf(entry.section), entry.name, traits);
  if (!what) return null;
  const effective = craft && effectiveEntryIn(craft, entry);
  const own = notesOf(workspace, [{ file, line: entry.line }]);
  if (!craft || !effective) return paragraphs(what, quoteNote(own));
  const notes = notesOf(
    workspace,
    effective.sources.map(({ source }) => source),
  );
  return paragraphs(
    what,
    effectiveText(effective, craft.name, file),
    tangledText(workspace, craft, entry),
    conditionFollowersText(workspace, craft, entry),
    describeConsequences(workspace, file, entry, crafts),
    conversions(entry),
    quoteNote(notes || own),
  );
}

/** Says of a mode or an output that nothing is known of it, where its condition is too tangled to follow. */
function tangledText(workspace: Workspace, craft: Craft, { kind, name }: Entry): string {
  if (kind !== "mode" && kind !== "output") return "";
  const named = kind === "output" ? `outputs.${name}` : name;
  const tangled = boardOf(craft, workspace).tangles.get(named);
  return tangled === undefined ? "" : `When it is on is not known: ${unknownInWords(named, tangled)}.`;
}

/** A longer value, such as a condition of many clauses, is not read in a hover. */
const MOST_TEXT = 400;

function effectiveText(effective: EffectiveEntry, craft: string, from: string): string {
  const lines = effective.sources.map(({ part, source }) =>
    part === "" ? lineReference(source, from) : `${part}: ${lineReference(source, from)}`,
  );
  const text = effective.text.length > MOST_TEXT ? `${effective.text.slice(0, MOST_TEXT)} …` : effective.text;
  return `On ${plainText(craft)}: \`${text}\` (${[...new Set(lines)].join(", ")})`;
}

function conversions(entry: Entry): string {
  const converted = entry.value ? conversionsOf(entry.value) : [];
  return converted.length > 0 ? list(converted) : "";
}

function describeFollowed(catalogue: Catalogue, name: string): string | null {
  const setting = adjustable(name, catalogue);
  const section = setting && catalogue.sections.find((each) => each.settings.includes(setting));
  return setting && section ? describeSetting(catalogue, setting, section.name) : null;
}

function hoverPiece(workspace: Workspace, cursor: CursorContext, entry: Entry): string | null {
  const { script, piece, text } = cursor;
  if (!piece) return null;
  const word = text.slice(piece.start, piece.end);
  switch (piece.kind) {
    case "mode": {
      const mode = workspace.catalogue.mode(word);
      const craft = craftFor(workspace, script.file);
      const effective = craft && effectiveEntryIn(craft, { kind: "mode", section: "modes", name: word });
      return mode
        ? paragraphs(describeMode(mode), effective ? effectiveText(effective, craft.name, script.file) : "")
        : null;
    }
    case "control":
      return hoverControl(workspace, script.file, word);
    case "channel": {
      // In a condition; on a control's own line the name of the control says more.
      const craft = entry.kind === "control" ? null : craftFor(workspace, script.file);
      const driver = craft && controlOn(craft, Number(word.slice("ch".length)));
      return driver ? hoverControl(workspace, script.file, driver) : null;
    }
    case "position":
      return hoverPosition(workspace, script.file, piece.of ?? entry.name, word);
    case "unit": {
      const family = unitFamily(word);
      const number = entry.pieces.find(
        (each) => each.kind === "number" && each.end <= piece.start && piece.start - each.end <= 1,
      );
      const converted = number
        ? conversionsOf({
            kind: "quantity",
            number: Number(text.slice(number.start, number.end)),
            digits: "",
            unit: word,
            start: 0,
            end: 0,
          })
        : [];
      return family ? paragraphs(describeUnit(word, family), list(converted)) : null;
    }
    case "choice":
      return describeChoice(workspace.catalogue, entry, word);
    case "field": {
      const types = workspace.catalogue.setting(baseOf(entry.section), entry.name)?.types ?? [];
      const field = types
        .flatMap((type) => (type.is === "fields" ? type.fields : []))
        .find((each) => each.name === word);
      return field ? `**${word}** — ${field.what}` : null;
    }
    case "number":
    case "anchor":
      return hoverFigure(workspace, script.file, entry);
    default:
      return null;
  }
}

/** The hover of a number or an anchor: effective value and consequences, without the description of the name. */
function hoverFigure(workspace: Workspace, file: string, entry: Entry): string | null {
  const crafts = craftsFor(workspace, file);
  const effective = crafts[0] && effectiveEntryIn(crafts[0], entry);
  const what = effective ? effectiveText(effective, crafts[0]!.name, file) : "";
  const parts = [effective ? describeConsequences(workspace, file, entry, crafts) : "", conversions(entry)];
  return parts.some((part) => part !== "") ? paragraphs(what, ...parts) : null;
}

/** The meaning of one word of a choice; null where the setting has no such word. */
function describeChoice(catalogue: Catalogue, entry: Entry, word: string): string | null {
  const types = catalogue.setting(baseOf(entry.section), entry.name)?.types ?? [];
  const simple = types.flatMap((type) => (type.is === "fields" ? type.fields.flatMap((field) => field.types) : [type]));
  const choices = simple.flatMap((type) =>
    type.is === "choice" ? type.choices : type.is === "list" && type.of.is === "choice" ? type.of.choices : [],
  );
  const choice = choices.find((each) => each.word === word);
  return choice ? `**${word}** — ${choice.what}` : null;
}
