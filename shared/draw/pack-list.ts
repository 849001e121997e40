/** Many packs: which are drawn at once, and which of the others a search finds. */
import type { PackPicture } from "../protocol/numbers.ts";
import type { LinePlace } from "../protocol/panel.ts";
import { packFacts, packName } from "./pack.ts";

/** Up to so many are all drawn. */
const ALL_DRAWN = 4;
/** Of more than that so many are drawn, and the others are listed. */
const FOREMOST = 2;

/** A hint is no reason to come first. */
const RANK = { error: 0, warning: 1, info: 2, hint: 2, none: 2 } as const;

export interface PackList {
  readonly drawn: readonly PackPicture[];
  /** In the script's order. */
  readonly listed: readonly PackPicture[];
}

/**
 * Divides packs into those that are drawn and those that are listed. Of many, the one at the cursor is drawn first,
 * then the worst by their findings, then the script's first.
 */
export function packListOf(packs: readonly PackPicture[], cursor: LinePlace | null): PackList {
  if (packs.length <= ALL_DRAWN) return { drawn: packs, listed: [] };
  const rankOf = (pack: PackPicture) => (isAt(pack, cursor) ? -1 : RANK[pack.worst ?? "none"]);
  const ranked = [...packs].sort((a, b) => rankOf(a) - rankOf(b));
  const drawn = ranked.slice(0, FOREMOST);
  return { drawn, listed: packs.filter((pack) => !drawn.includes(pack)) };
}

function isAt({ at, marks }: PackPicture, cursor: LinePlace | null): boolean {
  if (!cursor) return false;
  return [at, ...marks.map((mark) => mark.at)].some((each) => each?.file === cursor.file && each.line === cursor.line);
}

/** The packs whose name or facts have every word of a search; all for an empty one. */
export function packsFound(packs: readonly PackPicture[], search: string): readonly PackPicture[] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return packs;
  return packs.filter((pack) => {
    const text = packLine(pack).toLowerCase();
    return words.every((word) => text.includes(word));
  });
}

/** A pack on one line: “long, 6 cells, 1100 mAh; has an error”. */
export function packLine(pack: PackPicture): string {
  const facts = packFacts(pack);
  const found = { error: "; has an error", warning: "; has a warning", info: "", hint: "" }[pack.worst ?? "hint"];
  return `${packName(pack)}${facts === "" ? "" : `, ${facts}`}${found}`;
}

/** How many packs there are, and of how many something is found: “500 packs, 2 of them with an error or a warning”. */
export function packsInWords(packs: readonly PackPicture[]): string {
  const bad = packs.filter(({ worst }) => worst === "error" || worst === "warning").length;
  return `${packs.length} packs${bad === 0 ? "" : `, ${bad} of them with an error or a warning`}`;
}
