/** Which layers and which handset each craft uses, and in which order they are merged. */
import type { Craft, Source } from "../../model/craft.ts";
import type { FleetTable } from "../../protocol/fleet.ts";
import { type DraftRow, tableOf } from "./cells.ts";

/** A file that a craft uses, with the line of the craft that leads to it. */
export interface UsedFile {
  readonly file: string;
  readonly name: string;
  readonly at: Source;
}

/** The files of a craft besides its own, in the order in which they are merged: what comes later wins. */
export function usedFiles(craft: Craft): UsedFile[] {
  return craft.scripts.flatMap(({ file, name }) =>
    file === craft.file ? [] : { file, name, at: craft.answersFor({ file, line: 0 }) },
  );
}

/** In each cell the place of the file, from 1; marked where most craft that have both files merge them the other way round. */
export function layersTable(
  used: readonly (readonly UsedFile[])[],
  { nameOf, titleOf }: Readonly<Record<"nameOf" | "titleOf", (file: string) => string>>,
): FleetTable {
  const headOf = ({ name, file }: UsedFile) => (name === "" ? titleOf(file) : name);
  const columns = columnsOf(used);
  const rows = used.map(
    (files, craft): DraftRow => ({
      craft,
      cells: new Map(files.map(({ file, at }, i) => [file, { text: String(i + 1), meaning: null, at }])),
    }),
  );
  const heads = columns.map((each) => ({ key: each.file, name: headOf(each), what: titleOf(each.file) }));
  const table = tableOf("Layers, in the order in which they are merged", heads, rows, nameOf);
  const places = new Map(columns.map(({ file }, i) => [file, i]));
  const odd = unusualOrders(used.map((files) => files.map(({ file }) => places.get(file)!)));
  return {
    ...table,
    rows: table.rows.map((row) => ({
      ...row,
      cells: row.cells.map((cell, i) => {
        const other = odd[row.craft]!.get(i);
        return other === undefined ? cell : { ...cell, most: `after ${headOf(columns[other]!)}` };
      }),
    })),
  };
}

/** Each file once, those that most craft use first. */
function columnsOf(used: readonly (readonly UsedFile[])[]): UsedFile[] {
  const counts = new Map<string, { readonly first: UsedFile; count: number }>();
  for (const each of used.flat()) {
    const known = counts.get(each.file);
    if (known) known.count++;
    else counts.set(each.file, { first: each, count: 1 });
  }
  return [...counts.values()]
    .sort((a, b) => b.count - a.count || (a.first.file < b.first.file ? -1 : 1))
    .map(({ first }) => first);
}

/** For each craft, by a file that stands before another one, that other one, where most craft have them the other way round. */
function unusualOrders(orders: readonly (readonly number[])[]): ReadonlyMap<number, number>[] {
  const counts = new Map<string, number>();
  const pairsOf = (order: readonly number[]) =>
    order.flatMap((before, i) => order.slice(i + 1).map((after) => [before, after] as const));
  for (const order of orders)
    for (const [before, after] of pairsOf(order)) {
      const key = `${before} ${after}`;
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
  return orders.map((order) => {
    const odd = new Map<number, number>();
    for (const [before, after] of pairsOf(order))
      if ((counts.get(`${after} ${before}`) ?? 0) > counts.get(`${before} ${after}`)! && !odd.has(before))
        odd.set(before, after);
    return odd;
  });
}
