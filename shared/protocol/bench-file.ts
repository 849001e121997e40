/** The bench list as a file: a page to print, or Markdown. */
import type { Uri } from "./addresses.ts";
import type { BenchShown } from "./bench.ts";
import type { Refused } from "./file-edits.ts";

/** A client that has this command names it as `benchCommand` when it starts the server; stale checks then offer it. */
export const BENCH_COMMAND = "fettle.showBench";

/** `fettle/benchFile`: the bench list of a craft, or of one that uses the file. */
export const BENCH_FILE_REQUEST = "fettle/benchFile";
export interface BenchFileParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
  readonly form: "page" | "markdown";
  readonly shown?: BenchShown | undefined;
  /** What to do where new software wipes the board, in place of the list alone. */
  readonly wiped?: WipedBoard | undefined;
}
export interface WipedBoard {
  /** Of the new software, such as 2026-03-15. */
  readonly day: string;
  /** The text that was saved of the board before; null where none is known. */
  readonly saved: string | null;
}
export type BenchFileResult =
  | {
      readonly kind: "text";
      readonly text: string;
      /** The craft's name. */
      readonly name: string;
      /** Where it would be saved, beside the craft's own file. */
      readonly proposed: Uri;
    }
  | Refused;
