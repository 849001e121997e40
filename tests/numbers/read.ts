/** A craft of some lines, as the readers of numbers take it. */
import { type Catalogue, makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { Craft } from "../../shared/model/craft.ts";
import { craftOf } from "../model/effective.ts";

const catalogue = makeCatalogue();

/** The craft of these sections and the catalogue that ships: the two things that every reader takes. */
export function craftWith(sections: string): [Craft, Catalogue] {
  return [craftOf({ "jug.fettle": `craft "Jug"\n\n${sections}\n` }), catalogue];
}
