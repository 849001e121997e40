/** The files that a script names as its board's: the dialect of the board's text, and that text as it was last saved. */
import type { FileAnswer, FilePath } from "./files.ts";
import type { Entry, Script } from "./script.ts";
import { resolvePath } from "./uses.ts";

export interface BoardFile {
  readonly entry: Entry;
  readonly what: "dialect" | "text";
  /** As written. */
  readonly path: string;
  /** Null where the path is absolute or leads above the root. */
  readonly file: FilePath | null;
}

/** The lines `dialect` and `text` of a script's section `board` that can be read, in order. */
export function boardFilesIn(script: Script): readonly BoardFile[] {
  const found: BoardFile[] = [];
  for (const { about, entries } of script.readings) {
    if (about.section !== "board") continue;
    for (const entry of entries) {
      if (entry.value?.kind !== "text") continue;
      if (entry.name !== "dialect" && entry.name !== "text") continue;
      const path = entry.value.text;
      found.push({ entry, what: entry.name, path, file: resolvePath(script.file, path) });
    }
  }
  return found;
}

/** Why a file that is looked for is not there as text, as it continues “… cannot be used: ”; null where it is, or where nobody has looked. */
export function whyNoText(answer: FileAnswer | undefined): string | null {
  switch (answer?.kind) {
    case "missing":
      return "there is no such file";
    case "outside":
      return "it lies outside the workspace";
    case "unreadable":
      return answer.why;
    default:
      return null;
  }
}
