/** Lines of scripts in words. */
import type { Craft, Source } from "../../model/craft.ts";

/** `line 12`, or with its file where that is not the craft's own: `line 12 of habits.fettle`. */
export function lineInWords({ file, line }: Source, craft: Craft): string {
  const name = file.slice(file.lastIndexOf("/") + 1);
  return file === craft.file ? `line ${line + 1}` : `line ${line + 1} of ${name}`;
}
