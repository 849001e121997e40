/** One line of the outline of a file. */
import type { EntryKind } from "../../model/script.ts";
import type { Range } from "../../syntax/span.ts";

export interface ScriptSymbol {
  readonly name: string;
  readonly detail: string;
  readonly kind: "header" | "section" | EntryKind;
  /** The whole symbol, with its children. */
  readonly range: Range;
  /** The range of its name. */
  readonly nameRange: Range;
  readonly children: readonly ScriptSymbol[];
}
