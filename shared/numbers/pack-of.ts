/**
 * What a craft says of its packs, as numbers: `packOf` for one section, `packsOf` for plain `pack`
 * and every named one. Null where a figure is neither said nor defaulted.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft, Setting } from "../model/craft.ts";
import { answersByNamedPack } from "../model/each-table.ts";
import { isStillSo, readsOf, tableOf } from "../model/listened-craft.ts";
import { perFile } from "../model/memo.ts";
import type { Reads } from "../model/reads.ts";
import type { Value } from "../syntax/value.ts";
import { CHEMISTRIES, type Chemistry, flightS, packV, ratedCurrentA, sharedMah, USUAL_SHARE } from "./pack.ts";
import { defaultIn, numberOf, onceFor, wordOf } from "./values.ts";

/** The value of a setting of the pack that is looked at, as `valueIn` finds it. */
type ValueOf = (name: string) => Value | null;

export interface PackFigures {
  /** `pack`, or `pack/NAME`. */
  readonly section: string;
  readonly chemistry: Chemistry | null;
  /** Null where it is not said, and where the board counts them. */
  readonly cells: number | null;
  /** True where the board is left to count the cells. */
  readonly cellsDetected: boolean;
  readonly strings: number;
  readonly capacityMah: number | null;
  readonly fullCellV: number | null;
  readonly warnCellV: number | null;
  readonly landCellV: number | null;
  readonly fullV: number | null;
  readonly warnV: number | null;
  readonly landV: number | null;
  /** Charge after which the craft warns, a share being turned into charge. */
  readonly warnAfterMah: number | null;
  /** Charge that may be flown: the capacity less the reserve, or 80 % of it where no reserve is said. */
  readonly usableMah: number | null;
  readonly ratingC: number | null;
  /** Current that capacity and rating allow. */
  readonly ratedA: number | null;
  readonly hoverA: number | null;
  readonly fullA: number | null;
  readonly cellMohm: number | null;
  /** Time to use what may be used, in a steady hover and at full current. */
  readonly hoverS: number | null;
  readonly fullS: number | null;
}

/** Plain `pack` and every named pack, in the order in which they were said. */
export const packsOf = onceFor((craft, catalogue): readonly PackFigures[] => {
  const remembered = rememberedIn(craft);
  const plain = tableOf(craft, "pack") ?? NOTHING;
  const named = namedPacks(craft, [catalogue, plain], (section, own) =>
    rememberedOf(craft, catalogue, section, own, plain, remembered),
  );
  return [rememberedOf(craft, catalogue, "pack", plain, plain, remembered), ...named];
});

const namedPacks = answersByNamedPack<PackFigures>();

/** By section: one of many packs is found without going through all. */
const bySection = onceFor(
  (craft, catalogue): ReadonlyMap<string, PackFigures> =>
    new Map(packsOf(craft, catalogue).map((figures) => [figures.section, figures])),
);

/** The figures of plain `pack` or of a named one (`pack/NAME`), as `packsOf` has them; undefined if there is none. */
export function packIn(craft: Craft, catalogue: Catalogue, section: string): PackFigures | undefined {
  return bySection(craft, catalogue).get(section);
}

type Table = ReadonlyMap<string, Setting>;
const NOTHING: Table = new Map();
/** The figures last computed of a section, and the values from which. */
interface Remembered {
  readonly catalogue: Catalogue;
  own: Table;
  plain: Table;
  readonly reads: Reads | null;
  readonly figures: PackFigures;
}
/** By section. */
const rememberedIn = perFile(() => new Map<string, Remembered>());
/** As many as a file can have; more were renamed while they were typed. */
const MOST_REMEMBERED = 6000;

/** The figures of a pack, computed again only if a value that they are made of is another: a shelf may be long. */
function rememberedOf(
  craft: Craft,
  catalogue: Catalogue,
  section: string,
  own: Table,
  plain: Table,
  remembered: Map<string, Remembered>,
): PackFigures {
  const known = remembered.get(section);
  if (known?.catalogue === catalogue) {
    if (known.own === own && known.plain === plain) return known.figures;
    // Of a pack more is said than what its figures are made of.
    if (isStillSo(known.reads, craft) || (sameValues(known.own, own) && sameValues(known.plain, plain))) {
      Object.assign(known, { own, plain });
      return known.figures;
    }
  }
  const { answer: figures, reads } = readsOf(craft, () => packOf(craft, catalogue, section));
  if (remembered.size >= MOST_REMEMBERED) remembered.clear();
  remembered.set(section, { catalogue, own, plain, reads, figures });
  return figures;
}

/** Equal lines share one reading, so that a value is the same where the words are. */
export function sameValues(a: Table, b: Table): boolean {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  for (const name of a.keys()) if (!b.has(name) || b.get(name)!.value !== a.get(name)!.value) return false;
  return true;
}

/** The figures of one pack; a named one (`pack/NAME`) lies over plain `pack`. */
export function packOf(craft: Craft, catalogue: Catalogue, section = "pack"): PackFigures {
  const own = craft.settings.get(section);
  const plain = section === "pack" ? undefined : craft.settings.get("pack");
  const said: ValueOf = (name) => {
    const setting = own?.get(name) ?? plain?.get(name);
    return setting ? setting.value : defaultIn(catalogue, "pack", name);
  };
  const number = (name: string, unit: string) => numberOf(said(name), unit);
  const cellsValue = said("cells");
  const cells = numberOf(cellsValue, "");
  const capacityMah = number("capacity", "mAh");
  const ratingC = number("discharge-rating", "C");
  const [fullCellV, warnCellV, landCellV] = ["full-at", "warn-at", "land-at"].map((name) => number(name, "V/cell")) as [
    number | null,
    number | null,
    number | null,
  ];
  // Six times 4.2 is a hair more than 25.2 in doubles, and a threshold may be compared with just that.
  const ofPack = (volts: number | null) =>
    volts === null || cells === null ? null : Number(packV(volts, cells).toPrecision(12));
  const usableMah = usable(said, capacityMah);
  const hoverA = number("hover-current", "A");
  const fullA = number("full-current", "A");
  return {
    section,
    chemistry: chemistryOf(wordOf(said("chemistry"))),
    cells,
    cellsDetected: cellsValue?.kind === "choice" && cellsValue.word === "detect",
    strings: number("parallel", "") ?? 1,
    capacityMah,
    fullCellV,
    warnCellV,
    landCellV,
    fullV: ofPack(fullCellV),
    warnV: ofPack(warnCellV),
    landV: ofPack(landCellV),
    warnAfterMah: chargeIn(said("warn-after"), capacityMah),
    usableMah,
    ratingC,
    ratedA: capacityMah === null || ratingC === null ? null : ratedCurrentA(capacityMah, ratingC),
    hoverA,
    fullA,
    cellMohm: number("cell-resistance", "mohm"),
    hoverS: timeS(usableMah, hoverA),
    fullS: timeS(usableMah, fullA),
  };
}

function chemistryOf(word: string | null): Chemistry | null {
  return word !== null && word in CHEMISTRIES ? (word as Chemistry) : null;
}

/** A charge that may be said as a share of the capacity. */
function chargeIn(value: Value | null, capacityMah: number | null): number | null {
  const percent = numberOf(value, "%");
  if (percent === null) return numberOf(value, "mAh");
  return capacityMah === null ? null : sharedMah(capacityMah, percent / 100);
}

function usable(said: ValueOf, capacityMah: number | null): number | null {
  if (capacityMah === null) return null;
  const reserveMah = chargeIn(said("reserve"), capacityMah);
  return reserveMah === null ? sharedMah(capacityMah, USUAL_SHARE) : Math.max(0, capacityMah - reserveMah);
}

function timeS(usableMah: number | null, currentA: number | null): number | null {
  return usableMah === null || currentA === null ? null : flightS(usableMah, currentA);
}
