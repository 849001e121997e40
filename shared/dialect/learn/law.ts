/** By which code a token means a value. */

export type Pairs = readonly (readonly [theirs: string, ours: string])[];

export type Law =
  /** The board writes what a script does; the unit stands on the right. */
  | { readonly kind: "plain"; readonly unit: string }
  /** What stands behind `number` in a code. */
  | { readonly kind: "number"; readonly clauses: string }
  | { readonly kind: "words"; readonly pairs: Pairs }
  | { readonly kind: "letters"; readonly pairs: Pairs }
  /** Items with a mark between. */
  | { readonly kind: "list"; readonly by: string; readonly pairs: Pairs }
  /** Words by bit, in a number spelled so. */
  | {
      readonly kind: "set";
      readonly bits: readonly (readonly [bit: number, ours: string])[];
      readonly spelling: string;
    }
  /** A column and a row in one number. */
  | { readonly kind: "bits"; readonly clauses: string }
  /** Text, with this mark around it or none. */
  | { readonly kind: "text"; readonly within: string; readonly escape: string };
