/** The fleet as it crosses: a table of a thousand craft says the same few texts and files again and again. */
import type { Uri } from "./addresses.ts";
import type { LinePlace } from "./findings.ts";
import type { Fleet, FleetCell, FleetColumn, FleetCraft, FleetTable, FleetVideo } from "./fleet.ts";
import type { FromTab, TabRepair, ToTab } from "./tab-messages.ts";

/** `fettle/fleet`: all craft of the workspace side by side. */
export const FLEET_REQUEST = "fettle/fleet";
export interface FleetParams {
  /** The id of the last answer, where it is still at hand. */
  readonly known: string | null;
}
/** Null where it could not be worked out. */
export type FleetResult = {
  readonly id: string;
  /** Null where nothing has changed since the answer that is known. */
  readonly fleet: PackedFleet | null;
} | null;

export interface PackedTable {
  readonly title: string;
  readonly columns: readonly FleetColumn[];
  /** Of each craft its index, and of each of its cells four numbers: text, what most have, file, line. */
  readonly rows: readonly (readonly number[])[];
}

/** Texts and files stand once, in lists; where there is none the number is `NONE`. */
export interface PackedFleet {
  readonly texts: readonly string[];
  readonly files: readonly Uri[];
  /** The files as addresses. */
  readonly craft: readonly FleetCraft[];
  readonly controls: readonly PackedTable[];
  readonly settings: PackedTable;
  readonly layers: PackedTable;
  readonly checks: PackedTable;
  readonly video: Omit<FleetVideo, "table"> & { readonly table: PackedTable };
  readonly missing: Fleet["missing"];
}

const NONE = -1;
const CELL = 4;

/** `toUri` gives the address of a file of the fleet. */
export function packFleet(fleet: Fleet, toUri: (file: string) => Uri): PackedFleet {
  const texts = makeList<string>();
  const files = makeList<string>();
  const packed = ({ title, columns, rows }: FleetTable): PackedTable => ({
    title,
    columns,
    rows: rows.map(({ craft, cells }) => {
      const row = [craft];
      for (const { text, most, at } of cells)
        row.push(
          texts.at(text),
          most === null ? NONE : texts.at(most),
          at ? files.at(at.file) : NONE,
          at?.line ?? NONE,
        );
      return row;
    }),
  });
  const uris = new Map<string, Uri>();
  const uriOf = (file: string): Uri => {
    const known = uris.get(file) ?? toUri(file);
    uris.set(file, known);
    return known;
  };
  const tables = {
    controls: fleet.controls.map(packed),
    settings: packed(fleet.settings),
    layers: packed(fleet.layers),
    checks: packed(fleet.checks),
    video: { ...fleet.video, table: packed(fleet.video.table) },
  };
  return {
    ...tables,
    texts: texts.all,
    files: files.all.map(uriOf),
    craft: fleet.craft.map(({ file, name, handset }) => ({
      file: uriOf(file),
      name,
      handset: handset && { name: handset.name, file: uriOf(handset.file) },
    })),
    missing: fleet.missing.map(({ file, why }) => ({ file: uriOf(file), why })),
  };
}

/** How many cells a row has. */
export function cellsIn(row: readonly number[]): number {
  return (row.length - 1) / CELL;
}

export function craftOfRow(row: readonly number[]): number {
  return row[0]!;
}

/** Whether a cell is other than on most craft. */
export function cellDiffers(row: readonly number[], cell: number): boolean {
  return row[1 + cell * CELL + 1] !== NONE;
}

export function cellText({ texts }: PackedFleet, row: readonly number[], cell: number): string {
  return texts[row[1 + cell * CELL]!] ?? "";
}

/** A cell as it was packed, its file as an address. */
export function cellAt(fleet: PackedFleet, row: readonly number[], cell: number): FleetCell {
  const [text, most, file, line] = row.slice(1 + cell * CELL, 1 + (cell + 1) * CELL) as [
    number,
    number,
    number,
    number,
  ];
  const at: LinePlace | null = file === NONE ? null : { file: fleet.files[file]!, line };
  return { text: fleet.texts[text]!, most: most === NONE ? null : fleet.texts[most]!, at };
}

function makeList<T>(): { readonly all: T[]; at(value: T): number } {
  const all: T[] = [];
  const known = new Map<T, number>();
  return {
    all,
    at(value) {
      const found = known.get(value);
      if (found !== undefined) return found;
      known.set(value, all.length);
      return all.push(value) - 1;
    },
  };
}

/** What a page asks of the fleet beyond its table. */
export type FleetAction = "open-wide" | "change-habit" | "make-alike";

export type ToFleetTab = ToTab<FleetAbout, PackedFleet>;

/** There is one fleet. */
export interface FleetAbout {
  readonly of: "workspace";
}

export type FromFleetTab =
  | FromTab
  | { readonly kind: "ready" }
  | { readonly kind: "run"; readonly action: FleetAction | TabRepair };
