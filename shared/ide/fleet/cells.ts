/** The cells of one table, and what most craft have in each column. */
import type { Source } from "../../model/craft.ts";
import type { FleetCell, FleetColumn, FleetTable } from "../../protocol/fleet.ts";

/** A cell before it is held against those of other craft. */
export interface Draft {
  readonly text: string;
  /** Equal for cells that say the same, however they are written; null for one that has no say in what most craft have. */
  readonly meaning: string | null;
  readonly at: Source | null;
}

export const NOTHING: Draft = { text: "", meaning: null, at: null };

/** Of something that a missing file may say. */
export const NOT_KNOWN = "not known";

/** What stands in one craft's row, by the key of the column. */
export interface DraftRow {
  readonly craft: number;
  readonly cells: ReadonlyMap<string, Draft>;
}

export interface DraftColumn extends FleetColumn {
  readonly key: string;
}

/** The table of these rows; a column in which nothing is known of any craft is left out. `nameOf` gives the name of a file. */
export function tableOf(
  title: string,
  columns: readonly DraftColumn[],
  rows: readonly DraftRow[],
  nameOf: (file: string) => string,
): FleetTable {
  const isKnown = ({ text }: Draft) => text !== "" && text !== NOT_KNOWN;
  const said = columns.filter(({ key }) => rows.some(({ cells }) => isKnown(cells.get(key) ?? NOTHING)));
  const most = said.map(({ key }) => mostOf(rows.map(({ cells }) => cells.get(key) ?? NOTHING)));
  return {
    title,
    columns: said.map(({ name, what }) => ({ name, what })),
    rows: rows.map(({ craft, cells }) => ({
      craft,
      cells: said.map(({ key }, i) => cellOf(cells.get(key) ?? NOTHING, most[i]!, nameOf)),
    })),
  };
}

function cellOf({ text, meaning, at }: Draft, most: Draft | null, nameOf: (file: string) => string): FleetCell {
  return {
    text,
    most: most !== null && meaning !== null && meaning !== most.meaning ? most.text : null,
    at: at && { file: nameOf(at.file), line: at.line },
  };
}

/** The first of the cells that a strict majority of those with a say agree with; null without such a majority. */
function mostOf(drafts: readonly Draft[]): Draft | null {
  const counts = new Map<string, { readonly first: Draft; count: number }>();
  let all = 0;
  for (const draft of drafts) {
    if (draft.meaning === null) continue;
    all++;
    const known = counts.get(draft.meaning);
    if (known) known.count++;
    else counts.set(draft.meaning, { first: draft, count: 1 });
  }
  for (const { first, count } of counts.values()) if (2 * count > all) return first;
  return null;
}
