/** Where a word is defined. */
import type { Range } from "../../syntax/span.ts";

export interface Definition {
  /** The word at the position. */
  readonly from: Range;
  readonly file: string;
  readonly range: Range;
}
