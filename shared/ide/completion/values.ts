/** Offers for what follows the name of an entry. */
import colourNames from "color-name";
import type { FieldsType, SettingSpec, SimpleType, ValueType } from "../../catalogue/specs.ts";
import { baseOf } from "../../model/craft.ts";
import { adjustable } from "../../model/read-entry.ts";
import { unitsLike } from "../../model/read-simple.ts";
import type { Workspace } from "../../model/workspace.ts";
import { viewerGridOf } from "../../osd/layout.ts";
import { type Grid, sameGrid, USUAL_GRIDS } from "../../protocol/osd.ts";
import type { CursorContext } from "../context/cursor-context.ts";
import { type Offer, unitOffer } from "./completion-item.ts";
import { offerConditions, offerDial } from "./conditions.ts";
import { offerControlLine } from "./control-line.ts";

/** Offers for a value; `before` is the line up to the position. */
export function offerValues(workspace: Workspace, cursor: CursorContext, before: string): Offer[] {
  const { spec, section, script } = cursor;
  const parts = /^\s+([A-Za-z][A-Za-z0-9-]*)\s+(.*)$/s.exec(before);
  if (!spec || section === null || !parts) return [];
  const [, head = "", written = ""] = parts;
  const { catalogue } = workspace;
  if (head === "drop") return offerDrops(workspace, cursor);
  switch (spec.holds) {
    case "modes":
    case "outputs":
      return /^when\s/.test(written)
        ? offerConditions(workspace, script.file, written.replace(/^when\s+/, ""))
        : [keywordOffer("when", "the condition under which it is on")];
    case "controls":
      return offerControlLine(script, written);
    case "follows": {
      const setting = adjustable(head, catalogue);
      return setting ? offerFollows(workspace, script.file, setting, written) : [];
    }
    case "kept":
      return [];
    case "places":
      if (catalogue.element(head)) return offerPlace(written);
  }
  const setting = catalogue.setting(baseOf(section), head);
  if (!setting) return [];
  const sizes = setting.types.some((type) => type.is === "size") ? offerSizes(workspace, script.file, written) : [];
  return [...offerTypes(setting.types, written, setting.default), ...sizes];
}

/** Grids as values: first the viewer's own, where the craft says it, then the sizes in use. */
function offerSizes(workspace: Workspace, file: string, written: string): Offer[] {
  if (written !== "") return [];
  const craft = workspace.craft(file);
  const viewer = craft && viewerGridOf(craft);
  const size = ({ columns, rows }: Grid, detail: string, group: number): Offer => ({
    label: `${columns} x ${rows}`,
    kind: "value",
    detail,
    group,
  });
  return [
    ...(viewer ? [size(viewer, "the viewer's own", 0)] : []),
    ...USUAL_GRIDS.filter((grid) => !viewer || !sameGrid(grid, viewer)).map((grid) => size(grid, "a size in use", 2)),
  ];
}

function keywordOffer(label: string, detail: string): Offer {
  return { label, kind: "keyword", detail, text: `${label} `, group: 0, retrigger: true };
}

function offerDrops(workspace: Workspace, { spec, script, section }: CursorContext): Offer[] {
  const { catalogue } = workspace;
  const all: Offer = { label: "all", kind: "keyword", detail: "the whole section", group: 0 };
  if (!spec) return [all];
  const names =
    spec.holds === "modes"
      ? catalogue.modes
      : [...(spec.holds === "places" ? catalogue.elements : []), ...catalogue.settingsOf(spec.name)];
  const dropped = new Set(
    script.drops.filter((each) => each.section === section).flatMap((each) => each.names.map((name) => name.text)),
  );
  const kindOf = (name: string) =>
    spec.holds === "modes" ? "mode" : spec.holds === "places" && catalogue.element(name) ? "element" : "setting";
  const doc = (name: string) => ({ of: "name", section: spec.name, name }) as const;
  return [
    all,
    ...names
      .filter((each) => !dropped.has(each.name))
      .map(({ name, what }): Offer => ({ label: name, kind: kindOf(name), detail: what, doc: doc(name) })),
  ];
}

/** Offers for `at COLUMN, ROW`: the edges and the middle of each axis. */
function offerPlace(written: string): Offer[] {
  if (!/^at\s/.test(written)) return [keywordOffer("at", "the cell in which it stands")];
  const place = written.replace(/^at\s+/, "");
  const anchors = place.includes(",") ? ROWS : COLUMNS;
  const offset = place.slice(place.indexOf(",") + 1).trim();
  if (/[+\-\d]/.test(offset)) return [];
  return anchors.map(([label, detail], i): Offer => ({ label, kind: "anchor", detail, group: i }));
}

const COLUMNS = [
  ["left", "from the first column, as in left+2"],
  ["centre", "in the middle, as in centre-4"],
  ["right", "from the last column, as in right-2"],
] as const;
const ROWS = [
  ["top", "from the first row, as in top+1"],
  ["middle", "in the middle, as in middle+3"],
  ["bottom", "from the last row, as in bottom-1"],
] as const;

function offerFollows(workspace: Workspace, file: string, setting: SettingSpec, written: string): Offer[] {
  if (!/^follows\s/.test(written)) return [keywordOffer("follows", "the dial that moves it")];
  const rest = written.replace(/^follows\s+/, "");
  if (!/^\S+\s/.test(rest)) return offerDial(workspace, file);
  const after = rest.replace(/^\S+\s+/, "");
  if (!/^from\s/.test(after)) return [keywordOffer("from", "its value at the low stop")];
  const values = after.replace(/^from\s+/, "");
  const quantity = setting.types.filter((type) => type.is === "quantity");
  const second = /\sto\s+(.*)$/.exec(values);
  if (second) return offerTypes(quantity, second[1]!, undefined);
  return /^-?[\d.]+\s*\S+\s+\S*$/.test(values)
    ? [keywordOffer("to", "its value at the high stop")]
    : offerTypes(quantity, values, undefined);
}

/** The offers of all types, given the part of the value that is written. */
function offerTypes(types: readonly ValueType[], written: string, defaultText: string | undefined): Offer[] {
  const offers = types.flatMap((type) =>
    type.is === "fields" ? offerFields(type, written) : offerSimple(type, written),
  );
  if (defaultText !== undefined && written.trim() === "" && !offers.some((each) => each.label === defaultText)) {
    offers.unshift({ label: defaultText, kind: "value", detail: "the default", group: 0 });
  }
  return offers;
}

const NUMBER = /^-?\d+(\.\d+)?\s*[A-Za-z/%µ]*$/;

function offerSimple(type: SimpleType, written: string): Offer[] {
  const oneWord = /^\S*$/.test(written);
  switch (type.is) {
    case "quantity":
      return type.unit !== "" && NUMBER.test(written) ? unitsLike(type.unit).map(offerUnit) : [];
    case "choice":
      return oneWord
        ? type.choices.map(
            ({ word: label, what }): Offer => ({
              label,
              kind: "choice",
              detail: what,
              group: 1,
            }),
          )
        : [];
    case "yes-no":
      return oneWord ? ["yes", "no"].map((label): Offer => ({ label, kind: "choice", group: 1 })) : [];
    case "order": {
      const used = new Set(written.split(/\s+/).slice(0, -1));
      return type.words.filter((each) => !used.has(each)).map((label): Offer => ({ label, kind: "choice", group: 1 }));
    }
    case "range": {
      const second = /\sto\s+(.*)$/.exec(written);
      if (second) return offerSimple(type.of, second[1]!);
      return /^-?[\d.]+(\s*\S+)?\s+\S*$/.test(written)
        ? [...offerSimple(type.of, written), keywordOffer("to", "the upper end")]
        : offerSimple(type.of, written);
    }
    case "colour":
      return oneWord ? Object.keys(colourNames).map((label): Offer => ({ label, kind: "colour", group: 3 })) : [];
    case "list":
      return offerSimple(type.of, written.slice(written.lastIndexOf(",") + 1).trimStart());
    default:
      return [];
  }
}

function offerUnit(label: string, i: number): Offer {
  return unitOffer(label, Math.min(i, 4));
}

/** After a field's name the offers for its value; else the names of fields that are not written yet. */
function offerFields(type: FieldsType, written: string): Offer[] {
  const words = written.split(/\s+/);
  const partialWord = words.pop() ?? "";
  const known = new Set(type.fields.map((each) => each.name));
  const last = words.findLastIndex((each) => known.has(each));
  const field = type.fields.find((each) => each.name === words[last]);
  const value = [...words.slice(last + 1), partialWord].join(" ");
  const used = new Set(words);
  const names = type.fields
    .filter((each) => !used.has(each.name))
    .map(
      ({ name, what }): Offer => ({
        label: name,
        kind: "field",
        detail: what,
        text: `${name} `,
        group: 2,
        retrigger: true,
      }),
    );
  if (!field) return names;
  const values = offerTypes(field.types, value, field.default);
  // A field is complete if a value stands before the word that is being written.
  return last + 1 < words.length ? [...values, ...names] : values;
}
