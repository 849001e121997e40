/** Our names for what a board line may say, found by plain words, with the value that a craft has. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { isMapped } from "../../dialect/sections.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { layoutOf } from "../../osd/layout.ts";
import { effectiveEntryIn } from "../context/effective-entry.ts";
import { everyName, type NamedPage } from "../reference/page-names.ts";
import { searchNames } from "../reference/search.ts";
import { channelForm } from "./channel-form.ts";
import { saidIn } from "./line-words.ts";

export interface BoardName {
  readonly section: string;
  readonly name: string;
  readonly summary: string;
  readonly value: string | null;
  readonly example: string;
}

/** More are not read: another word narrows them. */
const MOST_NAMES = 60;

/** The names that a dialect may have on its right, the likeliest first; without words those that the craft says. */
export function boardNames(workspace: Workspace, typed: string, craft: Craft | null): readonly BoardName[] {
  const { catalogue } = workspace;
  const found =
    typed.trim() === "" ? everyName(catalogue) : searchNames(catalogue, typed, MOST_NAMES).map(({ page }) => page);
  const names = found.flatMap((page) => namesOf(catalogue, page).map((each) => withValue(catalogue, each, craft)));
  return typed.trim() === ""
    ? [...names.filter(({ value }) => value !== null), ...names.filter(({ value }) => value === null)]
    : names;
}

type Bare = Omit<BoardName, "value">;

function namesOf(catalogue: Catalogue, { kind, name, summary }: NamedPage): readonly Bare[] {
  switch (kind) {
    case "setting": {
      const dot = name.indexOf(".");
      const [section, setting] = [name.slice(0, dot), name.slice(dot + 1)];
      const spec = catalogue.section(section);
      const found = catalogue.setting(section, setting);
      if (!spec || !found || !isMapped(spec) || spec.title === "required") return [];
      return [{ section, name: setting, summary, example: found.example ?? found.default ?? "" }];
    }
    case "mode":
      return [{ section: "modes", name, summary, example: "when ch5 in 1700 us to 2100 us" }];
    case "element":
      return [{ section: "osd", name, summary, example: "at 1, 2" }];
    default:
      return [];
  }
}

function withValue(catalogue: Catalogue, name: Bare, craft: Craft | null): BoardName {
  const said = craft && saidIn(catalogue, `${name.section} ${name.name}`);
  const value = said
    ? (cellOf(craft, catalogue, name) ?? conditionOf(craft, name) ?? effectiveEntryIn(craft, said)?.text ?? null)
    : null;
  return { ...name, value };
}

function conditionOf(craft: Craft, { section, name }: Bare): string | null {
  return section === "modes" ? channelForm(craft, craft.modes.get(name)?.condition ?? null) : null;
}

/** A board has cells and no anchors: where an element stands on the craft's grid. */
function cellOf(craft: Craft, catalogue: Catalogue, { section, name }: Bare): string | null {
  if (section !== "osd" && section !== "osd-second") return null;
  const layout = layoutOf(craft, catalogue, section);
  const placed = layout?.elements.find((each) => each.element.name === name);
  return placed ? `at ${placed.column}, ${placed.row}` : null;
}
