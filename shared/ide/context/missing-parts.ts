/** The parts of a craft that are missing, in words: used files that could not be read, and those with errors. */
import type { Craft } from "../../model/craft.ts";
import type { Gap } from "../../model/gaps.ts";
import { NO_SUCH_FILE } from "../../model/uses.ts";
import type { LinePlace } from "../../protocol/findings.ts";
import { lineInWords } from "../../rules/lib/words-of-place.ts";
import { fileNameOf } from "../../text/file-name.ts";

export interface MissingPart extends LinePlace {
  /** As its `use` writes it; the name of the file where some of its lines have errors; null where it cannot be read. */
  readonly path: string | null;
  /** A whole sentence: what is missing, and why. */
  readonly message: string;
  /** Its line in words: `line 8`, `line 3 of habits.fettle`. */
  readonly where: string;
}

/** In merge order; of a file with errors one part, at the first of them. What has not been read yet is no such part. */
export function missingParts(craft: Craft): readonly MissingPart[] {
  const told = new Set<string>();
  return craft.gaps.flatMap((gap): MissingPart[] => {
    const { why, source } = gap;
    if (why === "unread" || (why === "fault" && told.has(source.file))) return [];
    if (why === "fault") told.add(source.file);
    const path = why === "fault" ? fileNameOf(source.file) : gap.path;
    return [{ ...source, path, message: messageOf(gap, path), where: lineInWords(source, craft) }];
  });
}

function messageOf({ why, words, source }: Gap, path: string | null): string {
  const name = path === null ? "A file" : `“${path}”`;
  switch (why) {
    case "missing":
      return `${name} is ${words === NO_SUCH_FILE ? "missing" : "left out"}: ${words}.`;
    case "newer":
      return `${name} is left out: it is written in a newer edition of the language.`;
    case "kind":
      return words === "craft"
        ? `${name} is left out: it is a craft, and no part of another.`
        : `${name} is left out: a handset may use only handsets.`;
    case "cycle":
      return `${name} is left out: it leads back to the file that uses it.`;
    default:
      return `${name} has errors (the first in line ${source.line + 1}), and what those lines were to say is missing.`;
  }
}
