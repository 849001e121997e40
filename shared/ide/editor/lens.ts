/** Words above a line. */
import type { LensAction } from "../../protocol/lenses.ts";
import type { Range } from "../../syntax/span.ts";

export interface Lens {
  readonly range: Range;
  /** As in “on in 2 of 12 states; at rest: off”. */
  readonly title: string;
  /** What a click leads to; null for words alone. */
  readonly action: LensAction | null;
}
