/** The throttle with which a craft hovers: as it is said, and as it may be worked out for its other packs. */
import type { Craft, Setting } from "../../model/craft.ts";
import { answersByNamedPack } from "../../model/each-table.ts";
import { amountIn, integerOf, quantityOf, settingOf } from "../../model/setting-lookup.ts";
import { hoverWith } from "../../numbers/descent.ts";
import type { SettingName } from "../engine/rule.ts";
import { percentOf } from "./throttle.ts";

export interface Hover {
  readonly percent: number;
  /** What it rests on, the main one first. */
  readonly settings: readonly Setting[];
  /** The named pack with which it hovers so; null for the usual one. */
  readonly pack: string | null;
}

const HOVER = "hover-throttle";

/** The settings on which hovers rest that are said, and those on which the others rest besides. */
export const SAID_HOVERS: readonly SettingName[] = ["frame.hover-throttle", "pack.hover-throttle", "link.endpoints"];
export const ESTIMATED_HOVERS: readonly SettingName[] = [
  "frame.mass",
  "frame.mass-dry",
  "pack.cells",
  "pack.pack-mass",
];

/** With the usual pack, and with each named pack of which it is said. Percent of the throttle, ascending. */
export function saidHovers(craft: Craft): Hover[] {
  const usual = usualHover(craft);
  const named = namedPacks(craft).flatMap(({ table, pack }): Hover[] => {
    const own = table.get(HOVER);
    const percent = percentOf(craft, own?.value);
    return own && percent !== null ? [{ percent, settings: [own], pack }] : [];
  });
  return [...(usual ? [usual] : []), ...named].sort((a, b) => a.percent - b.percent);
}

/**
 * With each named pack of which it is not said and whose cells or mass are, worked out from the hover with the
 * usual one: no more than near. Percent of the throttle, ascending.
 */
export function estimatedHovers(craft: Craft): Hover[] {
  const usual = usualHover(craft);
  if (!usual) return [];
  const estimated = namedPacks(craft).flatMap(({ table, pack }): Hover[] => {
    const [cells, mass] = [table.get("cells"), table.get("pack-mass")];
    const usualCells = integerOf(craft, "pack.cells");
    const voltsRatio = usualCells && cells?.value?.kind === "integer" ? cells.value.number / usualCells : null;
    const massRatio = massRatioOf(craft, amountIn(mass, "g"));
    if (table.has(HOVER) || (voltsRatio === null && massRatio === null)) return [];
    const percent = hoverWith(usual.percent, massRatio ?? 1, voltsRatio ?? 1);
    const settings = [cells, mass].filter((each) => each !== undefined);
    return [{ percent, settings: [...settings, ...usual.settings], pack }];
  });
  return estimated.sort((a, b) => a.percent - b.percent);
}

function usualHover(craft: Craft): Hover | null {
  const setting = [settingOf(craft, `pack.${HOVER}`), settingOf(craft, `frame.${HOVER}`)].find((each) => each?.value);
  const percent = percentOf(craft, setting?.value);
  return setting && percent !== null ? { percent, settings: [setting], pack: null } : null;
}

interface NamedPack {
  readonly pack: string;
  readonly table: ReadonlyMap<string, Setting>;
}

const packs = answersByNamedPack<NamedPack>();

function namedPacks(craft: Craft): readonly NamedPack[] {
  return packs(craft, [], (section, table) => ({ pack: section.slice("pack/".length), table }));
}

/** The mass of the craft with another pack, over that with its usual one; null where one is not known. */
function massRatioOf(craft: Craft, packG: number | undefined): number | null {
  if (packG === undefined) return null;
  const [massG, dryG, usualG] = ["frame.mass", "frame.mass-dry", "pack.pack-mass"].map((path) =>
    quantityOf(craft, path, "g"),
  );
  const bareG = dryG ?? (massG !== undefined && usualG !== undefined ? massG - usualG : undefined);
  const wholeG = massG ?? (dryG !== undefined && usualG !== undefined ? dryG + usualG : undefined);
  return bareG === undefined || wholeG === undefined || bareG <= 0 ? null : (bareG + packG) / wholeG;
}
