/** A formula of a dialect, once parsed: `10 * ({s} * stick + {e} * stick ^ 5)`. It is evaluated, never run as code. */
import type { Cols } from "../../syntax/span.ts";

export type Formula = Cols &
  (
    | { readonly kind: "number"; readonly number: number }
    /** The stick, from -1 to 1. */
    | { readonly kind: "stick" }
    | { readonly kind: "slot"; readonly slot: string }
    | { readonly kind: "negative"; readonly of: Formula }
    | { readonly kind: "two"; readonly operator: "+" | "-" | "*" | "/" | "^"; readonly a: Formula; readonly b: Formula }
    | { readonly kind: "call"; readonly name: "abs" | "sign" | "min" | "max"; readonly of: readonly Formula[] }
  );
