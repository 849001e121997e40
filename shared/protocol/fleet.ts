/** All craft of a workspace side by side: plain data, made by the core; whoever shows it computes nothing. */
import type { LinePlace } from "./findings.ts";

/** What one craft says of one thing. */
export interface FleetCell {
  /** “” where the craft says nothing of it. */
  readonly text: string;
  /** What most craft have here, where this one has something else; null where it is as on most, or where there is no “most”. */
  readonly most: string | null;
  readonly at: LinePlace | null;
}

export interface FleetColumn {
  /** Such as `TL`, or `pack.cells`. */
  readonly name: string;
  /** A few words on it, such as “left shoulder”; null where the name says it. */
  readonly what: string | null;
}

/** The same columns for each of some craft. */
export interface FleetTable {
  readonly title: string;
  readonly columns: readonly FleetColumn[];
  /** One for each craft, in the order of `Fleet.craft`, those that have no part in this table left out. */
  readonly rows: readonly { readonly craft: number; readonly cells: readonly FleetCell[] }[];
}

export interface FleetCraft {
  readonly file: string;
  readonly name: string;
  /** The handset's name and file; null where the craft has none. */
  readonly handset: { readonly name: string; readonly file: string } | null;
}

/** Something about the video channels of craft that are flown together. */
export interface FleetVideoConflict {
  readonly kind: "overlap" | "product";
  /** In a sentence. */
  readonly message: string;
  /** Indices of `Fleet.craft`: the one that is disturbed first. */
  readonly craft: readonly number[];
}

export interface FleetMove {
  readonly craft: number;
  readonly fromMhz: number;
  readonly toMhz: number;
  /** What is to be known of the new frequency, such as “its spare frequency”; null where there is nothing. */
  readonly note: string | null;
}

export interface FleetVideo {
  /** Craft, frequency, what of the picture: columns of their own. */
  readonly table: FleetTable;
  /** The craft that were named to be flown together, as indices. Without any nothing is said of conflicts. */
  readonly together: readonly number[];
  readonly conflicts: readonly FleetVideoConflict[];
  /** The changes by which nothing is left in the way; null where there is no such plan, empty where none is needed. */
  readonly plan: readonly FleetMove[] | null;
  /** Why there is no plan, and what to do then, in a sentence; null where there is one. */
  readonly noPlan: string | null;
}

export interface Fleet {
  readonly craft: readonly FleetCraft[];
  /** Craft × controls: one table for each handset. */
  readonly controls: readonly FleetTable[];
  readonly settings: FleetTable;
  readonly layers: FleetTable;
  readonly checks: FleetTable;
  readonly video: FleetVideo;
  /** Files that are no readable craft, and why. */
  readonly missing: readonly { readonly file: string; readonly why: string }[];
}
