/** What is to be known of a craft's board text before it is sent, the gravest first, each with the craft's line. */

import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Written } from "../../dialect/write/written.ts";
import type { Craft, Source } from "../../model/craft.ts";
import { effectiveEntryIn } from "../context/effective-entry.ts";
import { saidIn } from "./line-words.ts";

export interface Remark {
  readonly kind: "cannot" | "by-hand" | "rounded" | "curve" | "filled" | "unsaid" | "only-base" | "note";
  readonly what: string;
  readonly words: string;
  readonly at: Source | null;
}

/** Nobody feels less than this. */
const LEAST_DEG_S = 0.1;

export function remarksOn(written: Written, craft: Craft, catalogue: Catalogue): readonly Remark[] {
  const made = (kind: Remark["kind"], what: string, words: string): Remark => ({
    kind,
    what,
    words,
    at: lineOf(craft, catalogue, what),
  });
  return [
    ...written.cannot.map(({ what, why, positions }) => made("cannot", what, why + stateInWords(positions))),
    ...written.byHand.map((what) => made("by-hand", what, "the board cannot be told to forget it")),
    ...written.rounded.map(({ what, said, written: to }) => made("rounded", what, `${said} becomes ${to}`)),
    ...written.curves
      .filter(({ deviationDegS }) => deviationDegS >= LEAST_DEG_S)
      .map(({ what, deviationDegS }) =>
        made("curve", what, `at most ${Number(deviationDegS.toPrecision(2))} deg/s beside it`),
      ),
    ...written.filled.map(({ what, value, why }) => made("filled", what, `${value}: ${why}`)),
    ...written.unsaid.map((what) => made("unsaid", what, "the dialect has no line for it")),
    ...written.onlyBase.map((what) => made("only-base", what, "stays as the board has it")),
    ...written.notes.map((note) => made("note", "", note)),
  ];
}

function stateInWords(positions: Written["cannot"][number]["positions"]): string {
  const all = Object.entries(positions ?? {}).map(
    ([control, at]) => `${control} ${at}${typeof at === "number" ? " us" : ""}`,
  );
  return all.length === 0 ? "" : ` (with ${all.join(", ")})`;
}

/** The craft's line of `SECTION NAME`; null where it says nothing of that. */
function lineOf(craft: Craft, catalogue: Catalogue, what: string): Source | null {
  const said = saidIn(catalogue, what);
  return (said && effectiveEntryIn(craft, said)?.sources.at(-1)?.source) ?? null;
}

/** How many lines a text has. */
export function lineCount(text: string): number {
  return text === "" ? 0 : text.replace(/(?:\r\n|\r|\n)$/, "").split(/\r\n|\r|\n/).length;
}
