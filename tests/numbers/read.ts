/** A craft of some lines, as the readers of numbers take it. */
import { type Catalogue, makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { Craft } from "../../shared/model/craft.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);

/** The craft of these sections and the catalogue that ships: the two things that every reader takes. */
export function craftWith(sections: string): [Craft, Catalogue] {
  return [craftOfFiles({ "jug.fettle": `craft "Jug"\n\n${sections}\n` }, "jug.fettle"), catalogue];
}

/** The craft of one of several files. */
export function craftOfFiles(files: Readonly<Record<string, string>>, path: string): Craft {
  const craft = core.at(memoryFiles(files)).craft(path);
  if (!craft) throw new Error(`${path} is no craft`);
  return craft;
}
