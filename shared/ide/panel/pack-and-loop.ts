/** The packs and the loop of a craft as pictures have them. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { loopOf } from "../../numbers/loop-of.ts";
import { CHEMISTRIES, type VoltageSpan } from "../../numbers/pack.ts";
import { type PackFigures, packsOf } from "../../numbers/pack-of.ts";
import type { LoopPicture, PackMark, PackPicture } from "../../protocol/numbers.ts";
import type { LinePlace } from "../../protocol/panel.ts";
import { positive } from "./drawable-figure.ts";

/** Every pack of which the craft says something to draw: a threshold, or what is in it. */
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
      // A default stands in for reckoning; it is no threshold that anybody set.
      return cellV === null || at === null ? [] : [{ name, cellV, usual: usual ? bandOf(usual) : null, at }];
    }),
    capacityMah: positive(figures.capacityMah),
    usableMah: positive(figures.usableMah),
    hoverS: positive(figures.hoverS),
    fullS: positive(figures.fullS),
    at: placeOf(craft, section, "capacity") ?? placeOf(craft, section, "cells") ?? placeOf(craft, section, "chemistry"),
  };
}

function bandOf({ from, to }: VoltageSpan): PackMark["usual"] {
  return { fromCellV: from, toCellV: to };
}

/** The line of a setting; a named pack lies over the plain one. */
function placeOf(craft: Craft, section: string, name: string): LinePlace | null {
  return lineOf(craft, section, name) ?? lineOf(craft, "pack", name);
}

function lineOf(craft: Craft, section: string, name: string): LinePlace | null {
  return craft.settings.get(section)?.get(name)?.source ?? null;
}

/** How the command to the motors fits into the loop; null where that is not a digital one, or its figures are not known. */
export function loopPictureOf(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): LoopPicture | null {
  const { budget, gyro, pauseUs } = loopOf(craft, catalogue);
  // A rate of nought, which is an error of its own, leaves a round without an end.
  if (!budget || positive(budget.roundUs) === null || positive(budget.frameUs) === null) return null;
  if (pauseUs === null || pauseUs < 0 || pauseUs > budget.frameUs) return null;
  return {
    roundUs: budget.roundUs,
    frameUs: budget.frameUs,
    pauseUs,
    gyroRatio: positive(gyro?.ratio ?? null),
    at: lineOf(craft, "sensors", "loop-rate"),
    gyroAt: lineOf(craft, "sensors", "gyro-rate"),
    commandAt: lineOf(craft, "motors", "esc-rate") ?? lineOf(craft, "motors", "esc-signal"),
  };
}
