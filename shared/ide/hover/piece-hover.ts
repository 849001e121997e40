/** The hover of one word of a value. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { unitFamily } from "../../catalogue/units.ts";
import { baseOf } from "../../model/craft.ts";
import type { Entry } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type CursorContext, craftFor, firstCraftsFor } from "../context/cursor-context.ts";
import { describeMode, describeUnit } from "../context/describe.ts";
import { paragraphs } from "../context/markdown.ts";
import type { PageName } from "../reference/page-names.ts";
import { controlOn } from "./adjust-hover.ts";
import { hoverControl, hoverPosition } from "./control-hover.ts";
import { conversionsOf } from "./conversions.ts";
import { hoverEntry, statesText } from "./entry-hover.ts";
import { leadText, subjectOf } from "./lead.ts";
import { type LinkTargets, pageLink } from "./links.ts";
import { whatText } from "./what-text.ts";

/** The hover of the word under the cursor in an entry's value; null where there is nothing to say. */
export function hoverPiece(
  workspace: Workspace,
  cursor: CursorContext,
  entry: Entry,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  const { script, piece, text } = cursor;
  if (!piece) return null;
  const { catalogue } = workspace;
  const word = text.slice(piece.start, piece.end);
  switch (piece.kind) {
    case "mode":
      return hoverMode(workspace, cursor, word, page, links);
    case "control":
      return hoverControl(workspace, script.file, word, page, links);
    case "channel": {
      // In a condition; on a control's own line the name of the control says more.
      const craft = entry.kind === "control" ? null : craftFor(workspace, script.file);
      const driver = craft && controlOn(craft, Number(word.slice("ch".length)));
      return driver ? hoverControl(workspace, script.file, driver, page, links) : null;
    }
    case "position":
      return hoverPosition(workspace, script.file, { control: piece.of ?? entry.name, position: word }, page, links);
    case "unit": {
      const family = unitFamily(word);
      return family
        ? paragraphs(
            conversionsBefore(cursor, entry).join("; "),
            whatText(describeUnit(page?.name ?? word, family), page, links),
          )
        : null;
    }
    case "choice":
      return meaningOf(workspace, cursor, entry, word, choiceNamed(catalogue, entry, word), page, links);
    case "field":
      return meaningOf(workspace, cursor, entry, word, fieldNamed(catalogue, entry, word), page, links);
    case "number":
    case "anchor":
      return ["setting", "element", "follows"].includes(entry.kind)
        ? hoverEntry(workspace, script, entry, page, links)
        : null;
    default:
      return null;
  }
}

/** A mode in another's condition: its own condition on the craft, and what it is. */
function hoverMode(
  workspace: Workspace,
  { script }: CursorContext,
  name: string,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  const mode = workspace.catalogue.mode(name);
  if (!mode) return null;
  const { crafts } = firstCraftsFor(workspace, script.file);
  const lead = leadText({ kind: "mode", section: "modes", name, own: null, usual: undefined }, script, crafts, links);
  const states = crafts[0] ? statesText(workspace, crafts[0], { kind: "mode", section: "modes", name }) : "";
  return paragraphs(lead, states, whatText(describeMode(mode), page, links));
}

/** The amount before a unit, in the other units of its family. */
function conversionsBefore({ text, piece }: CursorContext, { pieces }: Entry): string[] {
  const unit = piece!;
  const number = pieces.find((each) => each.kind === "number" && each.end <= unit.start && unit.start - each.end <= 1);
  if (!number) return [];
  const amount = Number(text.slice(number.start, number.end));
  const symbol = text.slice(unit.start, unit.end);
  return conversionsOf({ kind: "quantity", number: amount, digits: "", unit: symbol, start: 0, end: 0 });
}

/** The value that a word is part of, then what the word means. */
function meaningOf(
  workspace: Workspace,
  { script }: CursorContext,
  entry: Entry,
  word: string,
  what: string | undefined,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  if (what === undefined) return null;
  const lead = leadText(
    subjectOf(workspace.catalogue, entry),
    script,
    firstCraftsFor(workspace, script.file).crafts,
    links,
  );
  return paragraphs(lead, `**${word}** — ${what}`, (page && pageLink(page, links)) ?? "");
}

function fieldNamed(catalogue: Catalogue, entry: Entry, word: string): string | undefined {
  const types = catalogue.setting(baseOf(entry.section), entry.name)?.types ?? [];
  return types.flatMap((type) => (type.is === "fields" ? type.fields : [])).find(({ name }) => name === word)?.what;
}

/** The meaning of one word of a choice; undefined where the setting has no such word. */
function choiceNamed(catalogue: Catalogue, entry: Entry, word: string): string | undefined {
  const types = catalogue.setting(baseOf(entry.section), entry.name)?.types ?? [];
  const simple = types.flatMap((type) => (type.is === "fields" ? type.fields.flatMap((field) => field.types) : [type]));
  const choices = simple.flatMap((type) =>
    type.is === "choice" ? type.choices : type.is === "list" && type.of.is === "choice" ? type.of.choices : [],
  );
  return choices.find((choice) => choice.word === word)?.what;
}
