/** The parts of a craft that are missing, as the reports of the command line have them. */
import type { Craft } from "../../model/craft.ts";
import { missingParts } from "../context/missing-parts.ts";

export interface ReportedMissing {
  /** As its “use” writes it, or the name of the file that has errors; null where the name cannot be read. */
  readonly path: string | null;
  readonly message: string;
  readonly file: string;
  /** From 0. */
  readonly line: number;
}

/** A member `missing`, or none where the craft is whole. `nameOf` gives the name under which a file is reported. */
export function missingReport(
  craft: Craft,
  nameOf: (file: string) => string,
): { readonly missing?: readonly ReportedMissing[] } {
  const parts = missingParts(craft);
  if (parts.length === 0) return {};
  return { missing: parts.map(({ path, message, file, line }) => ({ path, message, file: nameOf(file), line })) };
}
