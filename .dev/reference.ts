/** The reference of what ships, for the script that writes it. */
import { makeCatalogue } from "../shared/catalogue/catalogue.ts";
import { type ReferenceFile, referenceOf } from "../shared/ide/reference/reference.ts";

/** Every file of it, with its path below the folder of the reference. */
export function referenceFiles(): ReferenceFile[] {
  return referenceOf(makeCatalogue());
}
