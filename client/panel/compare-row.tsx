/** One difference: in words, with the value on either side, and the choice between them. */
import type { DifferenceRow } from "../../shared/protocol/compare.ts";
import { FactName, type Reach, SideValue } from "./fact-parts.tsx";
import { leadOf, pageOfRow } from "./fact-words.ts";

interface Props {
  readonly row: DifferenceRow;
  readonly names: { readonly mine: string; readonly theirs: string };
  readonly tab: Reach;
  /** Decided: it stays as it is here. */
  readonly isKept: boolean;
  readonly take: () => void;
  readonly settle: () => void;
}

/** What a decision is about: this difference as it is now, so that another one is decided anew. */
export function decisionOf({ what, mine, theirs }: DifferenceRow): string {
  return JSON.stringify([what, mine, theirs]);
}

/** The row of one difference. */
export function CompareRow({ row, names, tab, isKept, take, settle }: Props) {
  const { what, kind, summary, words, mine, theirs, mineAt, theirsAt, notTaken } = row;
  const [lead, rest] = leadOf(words);
  return (
    <li class="fact" data-row={what}>
      <div class="fact-text">
        <h3>{lead}</h3>
        {rest !== "" && <p>{rest}</p>}
        <FactName what={what} page={pageOfRow(what, kind)} aside={summary} tab={tab} />
        <dl class="sides">
          <SideValue of={names.mine} value={mine} at={mineAt} none="says nothing" tab={tab} />
          <SideValue of={names.theirs} value={theirs} at={theirsAt} none="says nothing" tab={tab} />
        </dl>
        {notTaken !== null && <p class="why-not">Not to be taken from here: {notTaken}</p>}
      </div>
      <p class="fact-tools">
        {notTaken === null && (
          <button type="button" tabIndex={tab} aria-label={`${takeLabel(row)}: ${what}`} onClick={take}>
            {takeLabel(row)}
          </button>
        )}
        <button
          type="button"
          tabIndex={tab}
          aria-label={`${isKept ? "Decide again" : "Keep mine"}: ${what}`}
          onClick={settle}
        >
          {isKept ? "Decide again" : "Keep mine"}
        </button>
      </p>
    </li>
  );
}

function takeLabel({ mine, theirs }: DifferenceRow): string {
  if (theirs === null) return "Take theirs: remove it";
  return mine === null ? "Take theirs: add it" : "Take theirs";
}
