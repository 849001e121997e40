/** The rows of a base by what they say and by their left side: what is asked for each entry of a craft. */
import type { Left } from "../dialect.ts";
import { type Draft, namesSaid, type Row, rowsOf } from "./draft.ts";

interface RowIndex {
  readonly byName: ReadonlyMap<string, readonly Row[]>;
  readonly byLeft: ReadonlyMap<Left, readonly Row[]>;
}

/** While lines are chosen, none is added and what they say stays; some only go. */
const indexes = new WeakMap<Draft, RowIndex>();

function indexOf(draft: Draft): RowIndex {
  let index = indexes.get(draft);
  if (!index) {
    const [byName, byLeft] = [new Map<string, Row[]>(), new Map<Left, Row[]>()];
    for (const row of rowsOf(draft)) {
      if (row.parse.kind !== "fits") continue;
      for (const name of new Set(namesSaid(row))) put(byName, name, row);
      put(byLeft, row.parse.left, row);
    }
    index = { byName, byLeft };
    indexes.set(draft, index);
  }
  return index;
}

function put<K>(map: Map<K, Row[]>, key: K, row: Row): void {
  const rows = map.get(key);
  if (rows) rows.push(row);
  else map.set(key, [row]);
}

function isThere({ status }: Row): boolean {
  return status !== "gone";
}

/** The lines that say a name, in order. */
export function rowsNaming(draft: Draft, name: string): readonly Row[] {
  return (indexOf(draft).byName.get(name) ?? []).filter(isThere);
}

/** The lines of a left side, in order. */
export function rowsOfLeft(draft: Draft, left: Left): readonly Row[] {
  return (indexOf(draft).byLeft.get(left) ?? []).filter(isThere);
}
