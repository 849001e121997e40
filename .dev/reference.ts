/** The reference of the shipped catalogue, for the script that writes it. */
import { makeCatalogue } from "../shared/catalogue/catalogue.ts";
import { type ReferenceFile, referenceOf } from "../shared/ide/reference/reference.ts";

/** Its files, with paths relative to the folder of the reference. */
export function referenceFiles(): ReferenceFile[] {
  return referenceOf(makeCatalogue());
}
