/** The effective craft as a read-only script, each line of it linked to the lines that say so. */
import { asUri, encodedPart, titlePart, type Uri } from "./addresses.ts";
import type { LinePlace } from "./findings.ts";

export interface EffectiveText {
  /** The craft's own file, and its name. */
  readonly file: string;
  readonly craft: string;
  readonly text: string;
  readonly lines: readonly {
    readonly line: number;
    /** The columns that name where it is said; of the entry's own name where nothing may stand behind it. */
    readonly start: number;
    readonly end: number;
    readonly sources: readonly LinePlace[];
  }[];
}

/** `fettle/effective`: the effective craft of a document. `craft` picks one where the file is part of several; null where there is none. */
export const EFFECTIVE_REQUEST = "fettle/effective";
export interface EffectiveParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
}

/** The scheme of the address under which a client shows such a text. */
export const EFFECTIVE_SCHEME = "fettle-effective";

/** The address of the effective craft of a file: named after the file, so that a tab says which craft it is; the file itself is the query. */
export function effectiveAddress(file: Uri): Uri {
  const last = /([^/?#]*)(?:[?#].*)?$/.exec(file)?.[1] ?? "";
  let name = last;
  try {
    name = decodeURIComponent(last);
  } catch {
    // An address that is none of an editor's own is shown as it is.
  }
  const title = titlePart(`${name.replace(/\.fettle$/, "")} (effective).fettle`);
  return asUri(`${EFFECTIVE_SCHEME}:/${title}?${encodedPart(file)}`);
}
