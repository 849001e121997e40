/** Packs and loop of a craft, as the panel draws them. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { loopOf } from "../../numbers/loop-of.ts";
import { CHEMISTRIES, type VoltageSpan } from "../../numbers/pack.ts";
import { type PackFigures, packsOf } from "../../numbers/pack-of.ts";
import type { LoopPicture, PackMark, PackPicture } from "../../protocol/numbers.ts";
import type { LinePlace } from "../../protocol/panel.ts";
import { positive } from "./drawable-figure.ts";

/** Every pack whose section the craft has. */
export function packPicturesOf(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): PackPicture[] {
  return packsOf(craft, catalogue)
    .filter(({ section }) => craft.settings.has(section))
    .map((figures) => packPictureOf(craft, figures));
}

function packPictureOf(craft: Craft, figures: PackFigures): PackPicture {
  const { section, chemistry } = figures;
  const facts = chemistry && CHEMISTRIES[chemistry];
  const thresholds = [
    ["full-at", figures.fullCellV, facts?.usualV.full],
    ["warn-at", figures.warnCellV, facts?.usualV.warn],
    ["land-at", figures.landCellV, facts?.usualV.land],
  ] as const;
  return {
    section,
    chemistry,
    cells: positive(figures.cells),
    bears: facts && { fromCellV: facts.cutOffV, toCellV: facts.chargeLimitV },
    marks: thresholds.flatMap(([name, cellV, usual]): PackMark[] => {
      const at = placeOf(craft, section, name);
      // A default is used in computations only; it is no threshold that the pilot set.
      return cellV === null || at === null ? [] : [{ name, cellV, usual: usual ? bandOf(usual) : null, at }];
    }),
    capacityMah: positive(figures.capacityMah),
    usableMah: positive(figures.usableMah),
    hoverS: positive(figures.hoverS),
    fullS: positive(figures.fullS),
    at: placeOf(craft, section, "capacity") ?? placeOf(craft, section, "cells") ?? placeOf(craft, section, "chemistry"),
    worst: null,
  };
}

function bandOf({ from, to }: VoltageSpan): PackMark["usual"] {
  return { fromCellV: from, toCellV: to };
}

/** The line of a setting; a named pack inherits from the plain one. */
function placeOf(craft: Craft, section: string, name: string): LinePlace | null {
  return lineOf(craft, section, name) ?? lineOf(craft, "pack", name);
}

function lineOf(craft: Craft, section: string, name: string): LinePlace | null {
  return craft.settings.get(section)?.get(name)?.source ?? null;
}

/** How the motor command fits into the loop; null where the command is not digital, or a figure is not known. */
export function loopPictureOf(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): LoopPicture | null {
  const { budget, gyro, pauseUs, wire } = loopOf(craft, catalogue);
  // A rate of zero, which is reported as an error elsewhere, gives an infinite period.
  if (!budget || positive(budget.roundUs) === null || positive(budget.frameUs) === null) return null;
  if (pauseUs === null || pauseUs < 0 || pauseUs > budget.frameUs) return null;
  return {
    roundUs: budget.roundUs,
    frameUs: budget.frameUs,
    pauseUs,
    answerUs: wire?.answers === "same-wire" ? budget.answerUs : null,
    gyroRatio: positive(gyro?.ratio ?? null),
    at: lineOf(craft, "sensors", "loop-rate"),
    gyroAt: lineOf(craft, "sensors", "gyro-rate"),
    commandAt: lineOf(craft, "motors", "esc-rate") ?? lineOf(craft, "motors", "esc-signal"),
  };
}
