/** Which columns of a table go side by side on a page, and how wide each is. Widths are in characters. */
import type { FleetTable } from "../../protocol/fleet.ts";

export interface TablePart {
  readonly columns: readonly { readonly at: number; readonly share: number }[];
  readonly nameShare: number;
  /** How much of the page's width it takes, and each column of that, in percent. */
  readonly share: number;
  /** Characters below which it would not be read any more. */
  readonly leastCh: number;
}

/**
 * Characters across: letter paper on its side is the narrower one, 279.4 mm (ANSI/ASME Y14.1) less two margins of 14 mm,
 * and a letter of 8 pt is some 1.55 mm wide on the average of the usual sans serifs.
 */
const PAGE_CH = 160;
const NAME_CH = { least: 12, most: 24 } as const;
const COLUMN_CH = { least: 7, most: 30 } as const;
/** What the cell's own edges take. */
const EDGES_CH = 3;
/** Columns are made that much narrower where a part less comes of it. */
const SQUEEZE = 1.1;
/** A part that takes this much of the page takes all of it. */
const WIDEN_FROM = 0.55;
/** A longer text is broken into about so many lines. */
const LINES = 3;

/** The columns of a table in parts, in order; each column in one, and in each at least one. */
export function partsThatFit({ columns, rows }: FleetTable): TablePart[] {
  const names = NAME_CH.most + EDGES_CH;
  const wide = columns.map(({ name, what }, at) => {
    const heads = [name, what ?? ""].map((text) => ({ text, pieces: text.split(HEAD_BREAKS) }));
    const texts = rows.flatMap(({ cells }) => {
      const { text, most } = cells[at]!;
      return most === null ? [asRead(text)] : [asRead(`≠ ${text}`, BOLD), asRead(`most: ${most}`)];
    });
    return widthFor([...heads, ...texts], COLUMN_CH) + EDGES_CH;
  });
  return evenly(wide, SQUEEZE * PAGE_CH - names).map((those) => {
    const whole = names + those.reduce((sum, at) => sum + wide[at]!, 0);
    const share = (width: number) => rounded((100 * width) / whole);
    return {
      columns: those.map((at) => ({ at, share: share(wide[at]!) })),
      nameShare: share(names),
      share: whole > WIDEN_FROM * PAGE_CH ? 100 : rounded((100 * whole) / PAGE_CH),
      leastCh: Math.ceil(0.8 * whole),
    };
  });
}

/** As few parts as there can be, and then as even as they can be. */
function evenly(wide: readonly number[], room: number): number[][] {
  let parts = greedily(wide, room);
  for (let less = room - 1; less > 0; less--) {
    const narrower = greedily(wide, less);
    if (narrower.length > parts.length) break;
    parts = narrower;
  }
  return parts;
}

function greedily(wide: readonly number[], room: number): number[][] {
  const parts: number[][] = [];
  let taken = Number.POSITIVE_INFINITY;
  wide.forEach((width, at) => {
    if (taken + width > room) {
      parts.push([]);
      taken = 0;
    }
    parts.at(-1)!.push(at);
    taken += width;
  });
  return parts;
}

/** A line may break inside a name or a path behind these signs. */
export const BREAKS = /(?<=[./-])/;
const HEAD_BREAKS = /\s+|(?<=[./-])/;

interface Measured {
  readonly text: string;
  /** What stays on one line. */
  readonly pieces: readonly string[];
  readonly stretch?: number;
}

/** A bold letter is some eighth wider. */
const BOLD = 1.125;
/** A figure with its unit stays together. */
const TOGETHER_MOST = 13;

function asRead(text: string, stretch = 1): Measured {
  return { text, stretch, pieces: text.length <= TOGETHER_MOST ? [text] : text.split(/\s+/) };
}

/** Wide enough for the longest piece, and for the longest text in a few lines. */
function widthFor(
  texts: readonly Measured[],
  { least, most }: { readonly least: number; readonly most: number },
): number {
  let widest: number = least;
  for (const { text, pieces, stretch = 1 } of texts) {
    widest = Math.max(widest, (stretch * text.length) / LINES);
    for (const piece of pieces) widest = Math.max(widest, stretch * piece.length);
    if (widest >= most) return most;
  }
  return Math.ceil(widest);
}

function rounded(share: number): number {
  return Math.round(share * 100) / 100;
}
