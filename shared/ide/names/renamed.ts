/** What comes of giving something another name. */
import type { FilePath } from "../../model/files.ts";
import type { Range } from "../../syntax/span.ts";
import type { Move } from "../edits/use-lines.ts";

export interface NameEdit {
  readonly file: FilePath;
  readonly range: Range;
  readonly text: string;
}

export interface Refusal {
  readonly kind: "refused";
  /** For the pilot, in whole sentences. */
  readonly message: string;
}

export type Renamed =
  | {
      readonly kind: "renamed";
      readonly edits: readonly NameEdit[];
      /** Where the name is a path, the file that is moved once the edits are made. */
      readonly move: Move | null;
    }
  | Refusal;
