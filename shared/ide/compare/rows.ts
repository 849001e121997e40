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
    notTaken: null,
  }));
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
