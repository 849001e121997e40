/** Differences as rows that a page or a list shows. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { DifferenceRow } from "../../protocol/compare.ts";
import { describeName } from "../context/describe.ts";
import { type Difference, differencesOf, nameOf, sectionOf } from "./compare.ts";
import { wordsOf } from "./words.ts";

/** A row with the lines as the core knows them. */
export interface ComparedRow extends Omit<DifferenceRow, "mineAt" | "theirsAt"> {
  readonly mineAt: Source | null;
  readonly theirsAt: Source | null;
}

/** What differs between mine and theirs, riskiest first, each with what the name is and the difference in words. */
export function comparedRows(mine: Craft, theirs: Craft, catalogue: Catalogue): readonly ComparedRow[] {
  return differencesOf(mine, theirs, catalogue).map((difference) => ({
    what: difference.what,
    kind: difference.kind,
    risk: difference.risk,
    summary: summaryOf(difference, catalogue),
    mine: difference.before,
    theirs: difference.after,
    words: wordsOf(difference, mine, theirs, { catalogue }),
    mineAt: difference.beforeAt,
    theirsAt: difference.afterAt,
    notTaken: hasFault(difference.what, theirs) ? FAULTY : null,
  }));
}

const FAULTY = "The line on the other side has a fault, so it has no value to take.";

/** Whether a craft has a name and no value of it, since a line with a fault says it. */
function hasFault(what: string, craft: Craft): boolean {
  const [section, name] = [sectionOf(what), nameOf(what)];
  if (section === "modes" || section === "outputs") return craft[section].get(name)?.condition === null;
  if (section === "controls" || section === "adjust") return craft[section].get(name)?.value === null;
  const placed = placesOf(section, craft)?.get(name);
  if (placed) return placed.value === null;
  const setting = craft.settings.get(section)?.get(name);
  return setting?.items ? setting.items.some(({ value }) => value === null) : setting?.value === null;
}

function placesOf(section: string, { osd, osdSecond }: Craft) {
  if (section === "osd") return osd;
  return section === "osd-second" ? osdSecond : null;
}

function summaryOf({ what, kind }: Difference, catalogue: Catalogue): string {
  const [section, name] = [sectionOf(what), nameOf(what)];
  const known = describeName(catalogue, baseOf(section), name);
  if (known) return known.what;
  switch (kind) {
    case "handset":
      return "The handset that flies the craft.";
    case "control":
      return "A control of the handset.";
    case "output":
      return "What a free switch of the board does on this craft.";
    default:
      return catalogue.section(baseOf(section))?.what ?? "";
  }
}
