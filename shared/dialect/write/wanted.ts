/** What a craft wants its board to know: one item for each line of the effective craft that says something. */
import type { SectionSpec, SettingSpec } from "../../catalogue/specs.ts";
import { baseOf, type Craft, type Setting } from "../../model/craft.ts";
import { mayHold } from "../../model/may-hold.ts";
import type { Workspace } from "../../model/workspace.ts";
import { gridOf, layoutOn, resolveAxis } from "../../osd/layout.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { Anchor, Value, ValueOf } from "../../syntax/value.ts";
import { exactIn } from "../codes/held.ts";
import { dividedBy, type Exact, exactOf, plus, times } from "../exact.ts";
import { inCatalogueUnits } from "../read/catalogue-units.ts";
import type { FigureName } from "../read/entries.ts";

export type Content =
  | { readonly kind: "value"; readonly value: Value }
  /** In cells from the top left. */
  | {
      readonly kind: "cell";
      readonly column: number;
      readonly row: number;
      /** The cell of an anchor on each axis; null without a grid. */
      readonly columnOf: (anchor: string) => number | null;
      readonly rowOf: (anchor: string) => number | null;
    }
  | { readonly kind: "follows"; readonly channel: number; readonly value: ValueOf<"follows"> }
  /** A mode or an output: its condition is asked of the switchboard. */
  | { readonly kind: "condition" };

/** A figure that a board may keep in place of the two settings it is made of. */
export interface Figure {
  readonly of: FigureName;
  readonly figure: Exact;
  /** In which unit the figure is; "" for a ratio. */
  readonly unit: string;
}

export interface Want {
  /** `SECTION NAME`, as reports name it. */
  readonly what: string;
  readonly spec: SectionSpec;
  /** As resolved: `pack/NAME`. */
  readonly section: string;
  readonly title: string | null;
  readonly name: string;
  readonly setting: SettingSpec | null;
  readonly content: Content;
  /** As reading a board's text gives it: in the units of the catalogue. "" for a condition. */
  readonly rest: string;
  /** Which of the lines of a repeatable setting; null for all else. */
  readonly item: number | null;
}

/** What is said and cannot be written whatever the dialect: a sentence's end each. */
export interface Unclear {
  readonly what: string;
  readonly why: string;
}

export interface Wanted {
  readonly wants: readonly Want[];
  readonly unclear: readonly Unclear[];
}

/** Of the tool, and not of the board. */
const OWN: ReadonlySet<string> = new Set(["board dialect", "board text"]);

/** Everything that the craft's files say, without defaults, in the catalogue's order of sections. */
export function wantedOf(craft: Craft, { catalogue }: Workspace): Wanted {
  const wants: Want[] = [];
  const unclear: Unclear[] = [];
  const add = (spec: SectionSpec, section: string, name: string, content: Content | null, more: Partial<Want> = {}) => {
    const what = `${section} ${name}`;
    if (OWN.has(what)) return;
    if (!content) {
      unclear.push({ what, why: "its line has a fault" });
      return;
    }
    const slash = section.indexOf("/");
    const base = {
      what,
      spec,
      section,
      title: slash < 0 ? null : section.slice(slash + 1),
      name,
      setting: null,
      item: null,
    };
    wants.push({ ...base, content, rest: restOf(content, more.setting ?? null), ...more });
  };
  for (const spec of catalogue.sections) {
    // What only a handset holds is no business of the board's.
    if (!mayHold(spec, "craft")) continue;
    if (spec.holds === "modes" || spec.holds === "outputs") {
      const modes = spec.holds === "modes" ? craft.modes : craft.outputs;
      for (const { name, condition } of modes.values()) add(spec, spec.name, name, condition && { kind: "condition" });
      continue;
    }
    if (spec.holds === "follows") {
      for (const { name, value } of craft.adjust.values()) {
        const dial = value?.kind === "follows" ? craft.controls.get(value.dial)?.value : null;
        const setting = settingAnywhere(name, catalogue.sections);
        if (value?.kind === "follows" && dial)
          add(spec, spec.name, name, { kind: "follows", channel: dial.channel, value }, { setting });
        else
          unclear.push({
            what: `${spec.name} ${name}`,
            why: value ? "no handset of the craft has its dial" : "its line has a fault",
          });
      }
      continue;
    }
    for (const [section, settings] of craft.settings)
      if (baseOf(section) === spec.name)
        for (const setting of settings.values())
          addSetting(setting, spec, section, catalogue.setting(spec.name, setting.name) ?? null, add);
    if (spec.holds === "places") addPlaces(craft, spec, catalogue, add, unclear);
  }
  return { wants, unclear };
}

type Add = (spec: SectionSpec, section: string, name: string, content: Content | null, more?: Partial<Want>) => void;

function addSetting(
  { name, value, items }: Setting,
  spec: SectionSpec,
  section: string,
  setting: SettingSpec | null,
  add: Add,
): void {
  if (!items) {
    add(spec, section, name, value && { kind: "value", value }, { setting });
    return;
  }
  for (const [item, each] of items.entries())
    add(spec, section, name, each.value && { kind: "value", value: each.value }, { setting, item });
}

function addPlaces(
  craft: Craft,
  spec: SectionSpec,
  catalogue: Workspace["catalogue"],
  add: Add,
  unclear: Unclear[],
): void {
  const page = spec.name === "osd-second" ? "osd-second" : "osd";
  const placed = page === "osd" ? craft.osd : craft.osdSecond;
  const grid = gridOf(craft);
  const cells = new Map(grid ? layoutOn(grid, craft, catalogue, page).elements.map((each) => [each.name, each]) : []);
  for (const { name, value } of placed.values()) {
    const cell = cells.get(name);
    const anchored = (cells: number | undefined, size: number | undefined) => (anchor: string) => {
      if (anchor === "left" || anchor === "top") return 0;
      if (cells === undefined || size === undefined) return null;
      return resolveAxis({ anchor: anchor as Anchor, offset: 0, start: 0, end: 0 }, cells, size);
    };
    const columnOf = anchored(grid?.columns, cell?.width);
    const rowOf = anchored(grid?.rows, cell?.height);
    if (cell) add(spec, page, name, { kind: "cell", column: cell.column, row: cell.row, columnOf, rowOf });
    else if (value?.kind !== "cell") add(spec, page, name, null);
    else if (value.column.anchor === null && value.row.anchor === null)
      add(spec, page, name, { kind: "cell", column: value.column.offset, row: value.row.offset, columnOf, rowOf });
    else
      unclear.push({
        what: `${page} ${name}`,
        why: "its place is told from an edge, and without “grid” it is not known where that is",
      });
  }
}

function settingAnywhere(name: string, sections: readonly SectionSpec[]): SettingSpec | null {
  for (const { settings } of sections) {
    const found = settings.find((each) => each.name === name && each.adjustable === true);
    if (found) return found;
  }
  return null;
}

function restOf(content: Content, setting: SettingSpec | null): string {
  switch (content.kind) {
    case "condition":
      return "";
    case "cell":
      return `at ${content.column}, ${content.row}`;
    case "value":
    case "follows":
      return printValue(setting ? inCatalogueUnits(content.value, setting) : content.value);
  }
}

/** (top + bottom) / bottom of a divider, or shunt × gain in mohm; null where the craft does not say both. */
export function figureOf(of: FigureName, section: string, craft: Craft): Figure | null {
  const number = (name: string, unit: string): Exact | null => {
    const value = craft.settings.get(section)?.get(name)?.value;
    const exact = value?.kind === "quantity" ? exactOf(value.digits) : null;
    return exact && value?.kind === "quantity" ? exactIn(exact, value.unit, unit) : null;
  };
  if (of === "divider-ratio") {
    const [top, bottom] = [number("divider-top", "kohm"), number("divider-bottom", "kohm")];
    return top && bottom && bottom.over !== 0n ? { of, figure: dividedBy(plus(top, bottom), bottom), unit: "" } : null;
  }
  const [shunt, gain] = [number("shunt", "mohm"), number("shunt-gain", "")];
  return shunt && gain ? { of, figure: times(shunt, gain), unit: "mohm" } : null;
}

/** The settings of which a figure is made. */
export const FIGURE_PARTS: Readonly<Record<FigureName, readonly string[]>> = {
  "divider-ratio": ["divider-top", "divider-bottom"],
  "shunt-scale": ["shunt", "shunt-gain"],
};
