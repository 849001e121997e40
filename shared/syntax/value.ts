/** Values as parsed from a line, each in the unit in which it was written, with its columns. */
import type { Condition } from "./condition.ts";
import type { Cols } from "./span.ts";

/** `unit` is a symbol of the catalogue, or "" for a bare number. `digits` is the number as written. */
export interface Quantity extends Cols {
  readonly kind: "quantity";
  readonly number: number;
  readonly digits: string;
  readonly unit: string;
}

export type Anchor = "left" | "centre" | "right" | "top" | "middle" | "bottom";

/** One axis of a place: an offset in cells from an anchor or, without one, from the left or the top. */
export interface Axis extends Cols {
  readonly anchor: Anchor | null;
  readonly offset: number;
}

/** One position of a switch, selector or button of a handset. */
export interface ControlPosition extends Cols {
  readonly name: string;
  readonly nameAt: Cols;
  readonly pulseUs: number;
  readonly pulseAt: Cols;
}

/** The sides of a handset, and its faces on each: `shoulder` is the edge under the index fingers, `face` lies before the eyes. */
export const SIDES = ["left", "right", "middle"] as const;
export const FACES = ["shoulder", "face", "back"] as const;

/** Where the hand finds a control on its handset; `face` is null where only the side is said. */
export interface ControlPlace {
  readonly side: (typeof SIDES)[number];
  readonly face: (typeof FACES)[number] | null;
}

export type ControlKind = "switch" | "selector" | "button" | "dial";

export interface ControlValue extends Cols {
  readonly kind: "control";
  readonly control: ControlKind;
  readonly channel: number;
  readonly channelAt: Cols;
  /** Empty for a dial. */
  readonly positions: readonly ControlPosition[];
  /** The name of the position in which it rests; null for a dial. */
  readonly rest: string | null;
  /** A dial's range, from its low stop to its high stop: it may fall. Null for the others. */
  readonly fromUs: number | null;
  readonly toUs: number | null;
  /** Null where the script does not say it. */
  readonly lies: ControlPlace | null;
}

export type Value =
  | Quantity
  | (Cols & { readonly kind: "integer"; readonly number: number })
  | (Cols & { readonly kind: "choice"; readonly word: string })
  | (Cols & { readonly kind: "yes-no"; readonly yes: boolean })
  | (Cols & { readonly kind: "text"; readonly text: string })
  | (Cols & { readonly kind: "date"; readonly date: string })
  | (Cols & { readonly kind: "order"; readonly words: readonly string[] })
  | (Cols & { readonly kind: "range"; readonly from: Quantity; readonly to: Quantity })
  | (Cols & { readonly kind: "size"; readonly columns: number; readonly rows: number })
  | (Cols & { readonly kind: "cell"; readonly column: Axis; readonly row: Axis })
  | (Cols & { readonly kind: "colour"; readonly colour: string; readonly named: boolean })
  | (Cols & { readonly kind: "list"; readonly items: readonly Value[] })
  | (Cols & { readonly kind: "fields"; readonly fields: readonly Field[] })
  | (Cols & { readonly kind: "condition"; readonly condition: Condition })
  | (Cols & {
      readonly kind: "follows";
      readonly dial: string;
      readonly dialAt: Cols;
      readonly from: Value;
      readonly to: Value;
    })
  | ControlValue;

export interface Field {
  readonly name: string;
  readonly nameAt: Cols;
  readonly value: Value;
}

export type ValueOf<K extends Value["kind"]> = Extract<Value, { kind: K }>;
