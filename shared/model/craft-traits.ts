/** What the usual bands depend on: the size of a craft, its motors, and a few things said of it elsewhere. */
import { convert } from "../catalogue/units.ts";
import type { Value } from "../syntax/value.ts";
import type { Craft } from "./craft.ts";
import type { Entry } from "./script.ts";
import type { CraftTraits } from "./usual-band.ts";

/** Gives the value that is said of a setting, null for a line with a fault, undefined where none is said. */
type Said = (section: string, name: string) => Value | null | undefined;

/** The filters each of which takes out a narrow band. */
const NOTCHES = ["motor-notches", "tracking-notches", "notch"];

/** The traits of a craft, as they apply to each of its sections: a named pack may have a cell count of its own. */
export function traitsOfCraft(craft: Craft): (section: string) => CraftTraits {
  const said: Said = (of, name) => craft.settings.get(of)?.get(name)?.value;
  const plain: CraftTraits = {
    ...sizeFrom(said, "pack"),
    throttle: throttleFrom(said) ?? (said("motors", "reversible") === undefined ? "low" : undefined),
    notches: NOTCHES.some((name) => said("filters", name) !== undefined) ? "some" : "none",
  };
  return withCellsOf(plain, (section) =>
    section.startsWith("pack/") && said(section, "cells") ? (cellsFrom(said, section) ?? UNKNOWN) : null,
  );
}

/** Said of a section, but as no number. */
const UNKNOWN = "unknown";

/** Traits by the cells of a section, the same object for the same number of them; null stands for the plain ones. */
function withCellsOf(plain: CraftTraits, cellsIn: (section: string) => number | typeof UNKNOWN | null) {
  const byCells = new Map<number | typeof UNKNOWN, CraftTraits>();
  return (section: string): CraftTraits => {
    const cells = cellsIn(section);
    if (cells === null || cells === plain.cells) return plain;
    let traits = byCells.get(cells);
    if (!traits) {
      traits = { ...plain, cells: cells === UNKNOWN ? undefined : cells };
      byCells.set(cells, traits);
    }
    return traits;
  };
}

/** The size alone: propellers in inches and cells in series. */
export function sizeOfCraft(craft: Craft, section = "pack"): Pick<CraftTraits, "propellerIn" | "cells"> {
  const said: Said = (of, name) => craft.settings.get(of)?.get(name)?.value;
  return { propellerIn: inches(said("frame", "propeller-diameter")), cells: cellsFrom(said, section) };
}

/** The traits that a file says itself, as they apply to each of its sections; what it leaves unsaid another may say. */
export function traitsIn(entries: readonly Entry[]): (section: string) => CraftTraits {
  const values = new Map<string, Value | null>();
  for (const { section, name, value } of entries) {
    if (TRAIT_NAMES.has(name)) values.set(`${section}.${name}`, value);
  }
  const said: Said = (section, name) => values.get(`${section}.${name}`);
  const others = {
    ...sizeFrom(said, "pack"),
    throttle: throttleFrom(said),
    notches: NOTCHES.some((name) => said("filters", name) !== undefined) ? ("some" as const) : undefined,
  };
  return withCellsOf(others, (section) =>
    values.has(`${section}.cells`) ? (cellsFrom(said, section) ?? UNKNOWN) : null,
  );
}

const TRAIT_NAMES: ReadonlySet<string> = new Set([
  "propeller-diameter",
  "motors",
  "cells",
  "reversible",
  "reverse-band",
  "arm-throttle",
  ...NOTCHES,
]);

function sizeFrom(said: Said, section: string): Pick<CraftTraits, "propellerIn" | "cells" | "motors"> {
  return {
    propellerIn: inches(said("frame", "propeller-diameter")),
    cells: cellsFrom(said, section),
    motors: whole(said("frame", "motors")),
  };
}

function cellsFrom(said: Said, section: string): number | undefined {
  const own = section.startsWith("pack/") ? said(section, "cells") : undefined;
  return whole(own ?? said("pack", "cells"));
}

/** Where the throttle rests: a band around its middle is said for craft that are flown so; motors that cannot turn back never are. */
function throttleFrom(said: Said): CraftTraits["throttle"] {
  const arming = said("safety", "arm-throttle");
  if (arming?.kind === "choice") return arming.word === "middle" ? "middle" : "low";
  if (said("motors", "reverse-band") !== undefined) return "middle";
  const reversible = said("motors", "reversible");
  return reversible?.kind === "yes-no" && !reversible.yes ? "low" : undefined;
}

function inches(value: Value | null | undefined): number | undefined {
  return value?.kind === "quantity" ? convert(value.number, value.unit, "in") : undefined;
}

function whole(value: Value | null | undefined): number | undefined {
  return value?.kind === "integer" ? value.number : undefined;
}
