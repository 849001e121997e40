/** Where an offer comes from another board, size, pack, handset, picture or region: a sentence each, only of what both say. */
import { convert } from "../../catalogue/units.ts";
import type { Craft } from "../../model/craft.ts";
import { NAMED_GRIDS } from "../../protocol/osd.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { Value } from "../../syntax/value.ts";
import { joinWithAnd } from "../../text/list.ts";
import { meaningOf } from "../compare/meaning.ts";
import type { Offer } from "./offer.ts";

/** Gives what is said of a setting; undefined where nothing is, or where it was not understood. */
type Said = (section: string, name: string) => Value | undefined;

/** A warning of two values of one setting. */
interface Contrast {
  readonly section: string;
  readonly name: string;
  /** Whether they are far enough apart to matter; the same value never is. */
  readonly matters?: (theirs: Value, mine: Value) => boolean;
  readonly words: (theirs: string, mine: string) => string;
}

const CONTRASTS: readonly Contrast[] = [
  {
    section: "board",
    name: "model",
    words: (a, b) =>
      `It is written for another board (${a}, yours is ${b}): ports, mounts and meters are those of that board, and lines kept as board text may mean something else on yours.`,
  },
  {
    section: "board",
    name: "text-edition",
    words: (a, b) =>
      `Its board runs another edition of its software (${a}, yours ${b}): lines kept as board text may mean something else on yours.`,
  },
  {
    section: "frame",
    name: "motors",
    words: (a, b) =>
      `It is written for ${a} motors, and yours has ${b}: places, directions and gains of motors do not fit.`,
  },
  {
    section: "frame",
    name: "propeller-diameter",
    matters: (a, b) => isFar(a, b, "in", 1.15),
    words: (a, b) =>
      `It is written for propellers of ${a}, and yours are ${b}: gains, filters, idle and hovering throttle of one size are wrong on another.`,
  },
  {
    section: "frame",
    name: "mass",
    matters: (a, b) => isFar(a, b, "g", 1.4),
    words: (a, b) =>
      `It is written for a craft of ${a}, and yours weighs ${b}: what depends on the hovering throttle, such as a descent after a lost signal, is another.`,
  },
  {
    section: "motors",
    name: "kv",
    matters: (a, b) => isFar(a, b, "rpm/V", 1.2),
    words: (a, b) =>
      `Its motors turn at ${a}, and yours at ${b}: gains, idle and limits of one are wrong on the other.`,
  },
  {
    section: "pack",
    name: "chemistry",
    words: (a, b) =>
      `Its pack is ${a}, and yours is ${b}: the volts at which a cell is full, low and empty are others, and the wrong ones ruin a pack or set it on fire.`,
  },
  {
    section: "pack",
    name: "cells",
    words: (a, b) =>
      `Its pack has ${a} ${a === "1" ? "cell" : "cells"}, and yours ${b}: volts of the whole pack do not fit, and the motors turn faster or slower, so gains and limits do not fit either.`,
  },
  {
    section: "link",
    name: "band",
    matters: (a, b) => isFar(a, b, "MHz", 1.02),
    words: (a, b) =>
      `Its link is at ${a}, and yours at ${b}: receiver, antennas and what one may send there are others.`,
  },
  {
    section: "link",
    name: "region",
    words: (a, b) =>
      `Its link follows the rules of another region (${a}, yours ${b}): what may be sent there may be forbidden where you fly.`,
  },
  {
    section: "video",
    name: "region",
    words: (a, b) =>
      `Its video follows the rules of another region (${a}, yours ${b}): frequencies and powers that are allowed there may be forbidden where you fly.`,
  },
  {
    section: "video",
    name: "signal",
    words: (a, b) => `Its picture comes by ${a} video, and yours by ${b}: frequencies, powers and grids are others.`,
  },
];

/** Sentences about where an offer comes from. `unlike`: controls of theirs that the craft does not have so. */
export function warningsOf(mine: Craft, offer: Offer, unlike: readonly string[]): readonly string[] {
  const here = saidOn(mine);
  const there = saidIn(offer);
  const found = CONTRASTS.flatMap(({ section, name, matters, words }) => {
    const [a, b] = [there(section, name), here(section, name)];
    if (!a || !b || isSame(a, b) || matters?.(a, b) === false) return [];
    return words(shown(a), shown(b));
  });
  return [...found, ...ofGrids(there, here), ...ofHandsets(mine, offer, unlike), ...offer.notes];
}

/** Whether both sides say a chemistry, or cells of the OSD, and not the same. */
export function unlikeParts(
  mine: Craft,
  offer: Offer,
): { readonly isOtherChemistry: boolean; readonly isOtherGrid: boolean } {
  const [here, there] = [saidOn(mine), saidIn(offer)];
  const [a, b] = [there("pack", "chemistry"), here("pack", "chemistry")];
  const [one, other] = [gridOf(there), gridOf(here)];
  return {
    isOtherChemistry: a !== undefined && b !== undefined && !isSame(a, b),
    isOtherGrid: one !== null && other !== null && one !== other,
  };
}

function saidOn(craft: Craft): Said {
  return (section, name) => craft.settings.get(section)?.get(name)?.value ?? undefined;
}

function saidIn({ script }: Offer): Said {
  const values = new Map(script.entries.map(({ section, name, value }) => [`${section}.${name}`, value]));
  return (section, name) => values.get(`${section}.${name}`) ?? undefined;
}

function shown(value: Value): string {
  return value.kind === "text" ? `“${value.text}”` : printValue(value);
}

function isSame(a: Value, b: Value): boolean {
  return meaningOf(a, "") === meaningOf(b, "");
}

/** Whether one is larger than the other by this factor at least. */
function isFar(a: Value, b: Value, unit: string, factor: number): boolean {
  if (a.kind !== "quantity" || b.kind !== "quantity") return true;
  const [one, other] = [convert(a.number, a.unit, unit), convert(b.number, b.unit, unit)];
  if (one === undefined || other === undefined) return true;
  return Math.max(one, other) >= Math.min(one, other) * factor;
}

function ofGrids(there: Said, here: Said): readonly string[] {
  const [a, b] = [gridOf(there), gridOf(here)];
  return a === null || b === null || a === b
    ? []
    : [
        `Its OSD is drawn on ${a} cells, and yours on ${b}: what stands at an edge there may lie off your picture, or on top of something else.`,
      ];
}

/** The cells of the OSD as `53 x 20`; null where they are not said. */
function gridOf(said: Said): string | null {
  const grid = said("osd", "grid");
  if (grid?.kind === "size") return `${grid.columns} x ${grid.rows}`;
  if (grid?.kind !== "choice" || !Object.hasOwn(NAMED_GRIDS, grid.word)) return null;
  const named = NAMED_GRIDS[grid.word];
  return named ? `${named.columns} x ${named.rows}` : null;
}

function ofHandsets(mine: Craft, offer: Offer, unlike: readonly string[]): readonly string[] {
  if (unlike.length > 0) {
    const them = unlike.length === 1 ? "it" : "them";
    return [
      `It is written for another handset, with ${joinWithAnd(unlike)}: your handset does not have ${them} so. See below what stands for ${them}.`,
    ];
  }
  const other = offer.handset;
  return other !== null && mine.handset && other !== mine.handset.name
    ? [
        `It is written for the handset “${other}”, and your craft uses “${mine.handset.name}”: look at each switch before you fly.`,
      ]
    : [];
}
