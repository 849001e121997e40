import type { Craft, Setting } from "../../model/craft.ts";
import { amountIn, settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { CHEMISTRIES, fittingCells } from "../../numbers/pack.ts";
import { type PackFigures, packsOf } from "../../numbers/pack-of.ts";
import { isMeterOff, MOST_RATIO, shownError } from "../../numbers/sensing.ts";
import { calibrationOf } from "../../numbers/sensing-of.ts";
import { settingIn } from "../../numbers/values.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { restingOn, valueLocation } from "../lib/locations.ts";

/** How far a trusted meter, and a charger, may be off. Common practice, no source. */
const METER_SHARE = 0.01;

interface Readings {
  readonly real: Setting | undefined;
  readonly shown: Setting | undefined;
  readonly of: "volts" | "charge";
  readonly unit: string;
  readonly message: (error: string, real: string, shown: string) => string;
  /** The setting that corrects it, in words; null where it is not known. */
  readonly cure: string | null;
}

/** Two readings of one quantity that differ by more than a share; the shown one is at fault. */
function differing(workspace: Workspace, { real, shown, of, unit, message, cure }: Readings): Report[] {
  const [realNumber, shownNumber] = [amountIn(real, unit), amountIn(shown, unit)];
  if (!real || !shown || !realNumber || !shownNumber) return [];
  const error = shownError(shownNumber, realNumber);
  if (!isMeterOff(of, error)) return [];
  const howFar = `${decimalText(Math.abs(error) * 100, 1)} % too ${error > 0 ? "high" : "low"}`;
  const ratio = shownNumber / realNumber;
  const isScale = ratio < MOST_RATIO && ratio > 1 / MOST_RATIO;
  const advice = isScale
    ? `${cure ?? "Correct the scale where your board keeps it"}, then take both readings again.`
    : "That is no matter of scale: look for another fault, or for a slip of the pen.";
  return [
    {
      at: valueLocation(workspace, shown.source),
      message: `${message(howFar, real.text, shown.text)} ${advice}`,
      ...restingOn([real], workspace),
    },
  ];
}

function voltsOff(craft: Craft, workspace: Workspace): Report[] {
  const topKohm = calibrationOf(craft, workspace.catalogue).volts?.topKohm;
  return differing(workspace, {
    real: settingOf(craft, "bench.pack-volts-read"),
    shown: settingOf(craft, "bench.pack-volts-shown"),
    of: "volts",
    unit: "V",
    message: (error, real, shown) =>
      `The craft showed ${shown} where the meter read ${real}, ${error}: its warnings come too ${error.endsWith("low") ? "early" : "late"}.`,
    cure: topKohm === undefined ? null : `A divider-top of ${Number(topKohm.toPrecision(4))} kohm puts it right`,
  });
}

function chargeOff(craft: Craft, workspace: Workspace): Report[] {
  const shuntMohm = calibrationOf(craft, workspace.catalogue).current?.shuntMohm;
  return differing(workspace, {
    real: settingOf(craft, "bench.charge-put-back"),
    shown: settingOf(craft, "bench.charge-counted"),
    of: "charge",
    unit: "mAh",
    message: (error, real, shown) =>
      `The craft counted ${shown} where the charger put back ${real}, ${error}: it warns by charge too ${error.endsWith("low") ? "late" : "early"}.`,
    cure: shuntMohm === undefined ? null : `A shunt of ${Number(shuntMohm.toPrecision(4))} mohm puts it right`,
  });
}

/** The volts between which a cell of a pack lives; of a kind that is not said, the least and the most of all kinds. */
function cellVolts({ chemistry, fullCellV }: PackFigures): { readonly fromV: number; readonly toV: number } {
  const kinds = chemistry ? [CHEMISTRIES[chemistry]] : Object.values(CHEMISTRIES);
  return {
    fromV: Math.min(...kinds.map(({ cutOffV }) => cutOffV)),
    toV: Math.max(fullCellV ?? 0, ...kinds.map(({ chargeLimitV }) => chargeLimitV)),
  };
}

/** Whether a pack of its cells, or of any number where that is not said, may have such volts. */
function mayHave(pack: PackFigures, volts: number): boolean {
  const { fromV, toV } = cellVolts(pack);
  const counts = fittingCells(volts, fromV * (1 - METER_SHARE), toV * (1 + METER_SHARE));
  return pack.cells === null ? counts.length > 0 : counts.includes(pack.cells);
}

/** The packs of which one was measured: of those whose cells are said or counted, else of those of a known kind. */
function measurable(packs: readonly PackFigures[]): readonly PackFigures[] {
  const counted = packs.filter(({ cells, cellsDetected }) => cells !== null || cellsDetected);
  return counted.length > 0 ? counted : packs.filter(({ chemistry }) => chemistry !== null);
}

function noCount(craft: Craft, workspace: Workspace): Report[] {
  const read = settingOf(craft, "bench.pack-volts-read");
  const volts = amountIn(read, "V");
  const packs = measurable(packsOf(craft, workspace.catalogue));
  const [first] = packs;
  if (!read || volts === undefined || !first || packs.some((pack) => mayHave(pack, volts))) return [];
  const { fromV, toV } = cellVolts(first);
  const { cells } = first;
  const bounds = cells === null ? "" : `${decimalText(cells * fromV, 2)} V to ${decimalText(cells * toV, 2)} V`;
  const why =
    packs.length > 1
      ? "no pack of this craft has such volts"
      : cells === null
        ? "no number of its cells has such volts"
        : `a pack of ${cells} such cells has ${bounds}`;
  const settings = packs.flatMap(({ section }) =>
    ["cells", "chemistry"].flatMap((name) => settingIn(craft, section, name) ?? []),
  );
  return [
    {
      at: valueLocation(workspace, read.source),
      message: `The meter read ${read.text}, and ${why}. Look whether the count of cells is right, whether a cell is dead, and what the meter was set to.`,
      ...restingOn([...new Set(settings)], workspace),
    },
  ];
}

export const rule: CraftRule = {
  code: "meter-off",
  severity: "warning",
  scope: "craft",
  summary: "Readings on the bench do not agree: the craft's meter is off, or no count of cells fits the volts.",
  prose:
    "A craft that shows its volts too high warns when the pack is already empty; one that counts too little charge lets the pack be flown down. More than 3 % of volts and 15 % of charge are no matter of parts that are a little off (the project's own figures). Correct the scale, best by the quick fix on the readings, and take both again; and where a measured pack fits no count of its cells, look at the count, at the cells and at the meter.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\npack\n  divider-top 10 kohm\n  divider-bottom 1 kohm\n\nbench\n  pack-volts-read 16.4 V\n  pack-volts-shown 15.6 V\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\npack\n  divider-top 10.5 kohm\n  divider-bottom 1 kohm\n\nbench\n  pack-volts-read 16.4 V\n  pack-volts-shown 16.3 V\n',
    },
  },
  looksAt: {
    settings: [
      "bench.pack-volts-read",
      "bench.pack-volts-shown",
      "bench.charge-put-back",
      "bench.charge-counted",
      "pack.cells",
      "pack.chemistry",
      "pack.full-at",
      "pack.volts-from",
      "pack.divider-top",
      "pack.divider-bottom",
      "pack.current-from",
      "pack.shunt",
    ],
  },
  check: (craft, workspace) => [
    ...voltsOff(craft, workspace),
    ...chargeOff(craft, workspace),
    ...noCount(craft, workspace),
  ],
};
