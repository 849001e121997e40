/** The rows of a review: one for each name that an offer says or takes away, and for what was not understood. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft, Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { DifferenceKind } from "../../protocol/compare.ts";
import type { ReviewClass, ReviewRow } from "../../protocol/review.ts";
import { type Difference, sectionOf } from "../compare/compare.ts";
import { wordsOf } from "../compare/words.ts";
import { dangerOf, natureOf } from "./danger.ts";
import type { Offer, Unknown } from "./offer.ts";
import { idleDrops, namesSaid, saidOf } from "./said.ts";

/** A row before it is known whether it is chosen and what is found in the result. */
export interface Row {
  readonly what: string;
  readonly class: ReviewClass;
  readonly kind: DifferenceKind | null;
  readonly nature: ReviewRow["nature"];
  readonly lines: readonly number[];
  readonly mine: string | null;
  readonly theirs: string | null;
  readonly words: string;
  readonly mineAt: Source | null;
  readonly notTaken: string | null;
  /** The lines to keep as board text, of a row that was not understood. */
  readonly unknown: Unknown | null;
}

/** A craft with the offer laid over it, and what differs then. */
export interface Laid {
  readonly craft: Craft;
  readonly differences: ReadonlyMap<string, Difference>;
}

export interface RowScope {
  readonly workspace: Workspace;
  readonly mine: Craft;
  readonly offer: Offer;
  /** As if all were adopted that is not of a handset. */
  readonly laid: Laid;
  /** The same with what the offer says of a handset. */
  readonly whole: Laid;
}

/** True for a name that belongs to a handset. */
export function isOfHandset(what: string): boolean {
  return ["controls", "transmitter", "handset"].includes(sectionOf(what));
}

export function rowsOf(scope: RowScope): readonly Row[] {
  const { mine, offer, workspace } = scope;
  const said = namesSaid(offer.script, mine).map(({ what, lines, isTaken }) => {
    const laid = isOfHandset(what) ? scope.whole : scope.laid;
    return rowOf(what, isTaken, offered(offer, lines), mine, laid, workspace);
  });
  const idle = idleDrops(offer.script, mine).map(({ line, section }) => idleRow(offered(offer, [line]), section));
  return [...said, ...idle, ...offer.unknown.map(unknownRow)];
}

function offered(offer: Offer, lines: readonly number[]): readonly number[] {
  return lines.flatMap((line) => offer.linesOf(line));
}

function rowOf(
  what: string,
  isTaken: boolean,
  lines: readonly number[],
  mine: Craft,
  laid: Laid,
  workspace: Workspace,
): Row {
  const [own, other] = [saidOf(mine, what), saidOf(laid.craft, what)];
  const difference = laid.differences.get(what);
  const danger = difference ? dangerOf(what) : null;
  return {
    what,
    class: !difference ? "same" : danger === null ? "differs" : "dangerous",
    kind: difference?.kind ?? kindOf(what, workspace.catalogue),
    nature: natureOf(what, workspace.catalogue),
    lines,
    mine: own?.text ?? null,
    theirs: other?.text ?? null,
    words: difference
      ? sentences(wordsOf(difference, mine, laid.craft, workspace), danger)
      : isTaken
        ? "Your craft does not have it either."
        : "Your craft says the same.",
    mineAt: own?.source ?? null,
    notTaken: null,
    unknown: null,
  };
}

/** What differs, as a sentence, and why it matters. */
export function sentences(words: string, reason: string | null): string {
  const sentence = `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
  // A name of the script keeps its small letter.
  const first = /^[a-z][a-z0-9-]*\b/.test(words) ? words : sentence;
  return `${/[.!?]$/.test(first) ? first : `${first}.`}${reason === null ? "" : ` ${reason}`}`;
}

function kindOf(what: string, catalogue: Catalogue): DifferenceKind {
  const section = sectionOf(what);
  switch (catalogue.section(section)?.holds) {
    case "modes":
      return "mode";
    case "outputs":
      return "output";
    case "controls":
      return "control";
    case "places":
      return catalogue.setting(section, what.slice(section.length + 1)) ? "setting" : "osd";
    default:
      return section === "transmitter" ? "handset" : "setting";
  }
}

function idleRow(lines: readonly number[], section: string): Row {
  return {
    ...NO_VALUES,
    what: `line ${lines[0]! + 1}`,
    class: "same",
    lines,
    words: `It takes away all of “${section}”, of which your craft has nothing.`,
    notTaken: null,
    unknown: null,
  };
}

function unknownRow(unknown: Unknown): Row {
  return {
    ...NO_VALUES,
    what: `line ${unknown.lines[0]! + 1}`,
    class: "unknown",
    lines: unknown.lines,
    words: unknown.reason,
    notTaken: unknown.notKept,
    unknown,
  };
}

const NO_VALUES = { kind: null, nature: null, mine: null, theirs: null, mineAt: null };
