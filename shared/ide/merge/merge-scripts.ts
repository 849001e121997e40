/** Merges craft, layers and handsets: every statement by itself, and what comes out held to what the sides say. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { ScriptReader } from "../../model/read-script.ts";
import type { Script } from "../../model/script.ts";
import { clashesIn, noClashes } from "./clashes.ts";
import type { Document, Unit } from "./document.ts";
import { faultsIn, isOrdered } from "./held.ts";
import { matchDocuments, SIDES, type Side } from "./match.ts";
import { outcomeOf, unitsOf } from "./outcome.ts";
import { placed } from "./place.ts";
import { type Marks, type Piece, textOf } from "./rows.ts";
import { isListed, meaningOfUnits } from "./said.ts";
import { saidOf } from "./sides.ts";

/** So often what does not hold is made a conflict, before all of the file is one. */
const MOST_TRIES = 5;

interface Sides {
  readonly documents: Readonly<Record<Side, Document>>;
  readonly scripts: Readonly<Record<Side, Script>>;
  readonly catalogue: Catalogue;
  /** Has read the scripts, so that it knows most lines of the result. */
  readonly reader: ScriptReader;
  readonly style: Marks["style"];
}

/** The pieces of a merge by statements; null where not even conflicts make something of it that the sides say. */
export function mergeScripts({ documents, scripts, catalogue, reader, style }: Sides): readonly Piece[] | null {
  const matching = matchDocuments(documents, (section, name) => isListed(section, name, catalogue));
  const meaning = meaningOfUnits(SIDES.map((side) => ({ document: documents[side], script: scripts[side] })));
  const isSame = (a: Unit, b: Unit) => meaning(a) === meaning(b);
  const outcomes = new Map(matching.matches.map((match) => [match, outcomeOf(unitsOf(match), isSame, style)]));
  const said = saidOf(scripts, documents, catalogue);
  const clashes = noClashes();
  clashesIn(matching, outcomes, said, isSame, clashes);
  const merging = {
    matching,
    documents,
    outcomes,
    clashes,
    isSame,
    style,
    isOrdered,
  };
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const result = placed(merging);
    const text = textOf(result.pieces, "\n", true, TRIAL);
    if (!faultsIn(result, reader.read("merged", text, true), matching, said, catalogue, clashes)) return result.pieces;
  }
  return null;
}

/** Marks that the parser knows: of a conflict it reads ours. */
const TRIAL: Marks = { ours: "", base: "", theirs: "", markerSize: 7, style: "merge" };
