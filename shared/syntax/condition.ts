/** Conditions as written: `arm when TL is down and not (ch9 above 1500 us)`. */
import type { Cols } from "./span.ts";

export type Subject =
  | (Cols & { readonly kind: "control"; readonly name: string })
  | (Cols & { readonly kind: "channel"; readonly channel: number });

/** A parsed condition. Bounds are in microseconds, as written: not always whole. `in` includes both ends. */
export type Condition = Cols &
  (
    | { readonly kind: "or" | "and"; readonly parts: readonly Condition[] }
    | { readonly kind: "not"; readonly part: Condition }
    | { readonly kind: "always" }
    | { readonly kind: "mode"; readonly name: string }
    | {
        readonly kind: "is";
        readonly control: string;
        readonly controlAt: Cols;
        readonly position: string;
        readonly positionAt: Cols;
        readonly negated: boolean;
      }
    | { readonly kind: "in"; readonly subject: Subject; readonly fromUs: number; readonly toUs: number }
    | { readonly kind: "above" | "below"; readonly subject: Subject; readonly boundUs: number }
  );

/** Every node of a condition, parents before their parts. */
export function* walkCondition(condition: Condition): Generator<Condition> {
  yield condition;
  if (condition.kind === "and" || condition.kind === "or") {
    for (const part of condition.parts) yield* walkCondition(part);
  } else if (condition.kind === "not") {
    yield* walkCondition(condition.part);
  }
}
