/** Links in a hover: to the lines that a value comes from, and to the page of a name. */
import type { Source } from "../../model/craft.ts";
import { pathBetween } from "../../model/uses.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { plainText } from "../../text/plain-text.ts";
import type { PageName } from "../reference/page-names.ts";

/** Where links lead on this client; null where it cannot follow one. */
export interface LinkTargets {
  readonly line: (source: Source) => string | null;
  readonly page: (page: PageName) => string | null;
  /** Writes the value of a line into the file of a craft. */
  readonly override?: (source: Source, craft: string) => string | null;
}

/** For a client that can follow none: all that is known then stands in the hover itself. */
export const NO_LINKS: LinkTargets = { line: () => null, page: () => null };

/** A line as FILE:LINE, counted from 1 and seen from the file `from`: a link where the client can follow it. */
export function lineLink(source: Source, from: string, { line }: LinkTargets): string {
  const file = source.file === from ? fileNameOf(from) : pathBetween(from, source.file);
  return linked(`${plainText(file)}:${source.line + 1}`, line(source));
}

/** A file by its path from the file `from`: a link to its first line. */
export function fileLink(file: string, from: string, { line }: LinkTargets): string {
  return linked(plainText(pathBetween(from, file)), line({ file, line: 0 }));
}

/** The link to the page of a name; null where there is none. */
export function pageLink(page: PageName, { page: addressOf }: LinkTargets): string | null {
  const address = addressOf(page);
  return address === null ? null : linked(`Explain ${plainText(page.name)}`, address);
}

/** Text as a link, where there is somewhere to lead. */
export function linked(text: string, address: string | null): string {
  // A bracket in the address would end the link.
  return address === null ? text : `[${text}](${address.replaceAll("(", "%28").replaceAll(")", "%29")})`;
}
