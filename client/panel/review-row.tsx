/** One row of a review: what it would do, in words and as it is written, and whether it is chosen. */
import type { Finding } from "../../shared/protocol/findings.ts";
import type { ReviewRow as Row } from "../../shared/protocol/review.ts";
import { FactName, type Reach, SideValue } from "./fact-parts.tsx";
import { leadOf, pageOfRow } from "./fact-words.ts";
import { editorApi } from "./host.ts";

interface Props {
  readonly row: Row;
  readonly names: { readonly mine: string; readonly theirs: string };
  readonly offer: string | null;
  readonly tab: Reach;
  readonly isChosen: boolean;
  readonly toggle: () => void;
  readonly adopt: () => void;
  /** What the rules find in the result on account of it. */
  readonly brings: readonly Finding[];
}

/** The row of one name that the offered text says. */
export function ReviewRow({ row, names, offer, tab, isChosen, toggle, adopt, brings }: Props) {
  const { what, kind, nature, words, mine, theirs, mineAt, notTaken } = row;
  const isSame = row.class === "same";
  const isUnknown = row.class === "unknown";
  const canBeChosen = !isSame && notTaken === null;
  const id = `row-${what}`;
  // What can hurt somebody is no matter of taste, though which switch arms is one.
  const aside = row.class === "dangerous" && nature === "taste" ? "" : (nature ?? "");
  const [lead, rest] = leadOf(words);
  return (
    <li class={`fact ${isChosen ? "is-chosen" : ""}`} data-row={what}>
      <div class="fact-text">
        <h3>
          {canBeChosen && <input type="checkbox" id={id} checked={isChosen} tabIndex={tab} onChange={toggle} />}
          {canBeChosen ? <label for={id}>{lead}</label> : lead}
        </h3>
        {rest !== "" && <p>{rest}</p>}
        {!isUnknown && <FactName what={what} page={pageOfRow(what, kind)} aside={aside} tab={tab} />}
        {!isSame && !isUnknown && (
          <dl class="sides">
            <SideValue of={names.mine} value={mine} at={mineAt} none="says nothing" tab={tab} />
            <SideValue of={names.theirs} value={theirs} at={null} none="is gone" tab={tab} />
          </dl>
        )}
        {offer !== null && <Written row={row} offer={offer} tab={tab} />}
        {brings.map(({ message, severity }) => (
          <p class={`finding ${severity}`} key={message}>
            New {severity}: {message}
          </p>
        ))}
        {notTaken !== null && <p class="why-not">Not to be adopted: {notTaken}</p>}
      </div>
      {canBeChosen && !isUnknown && (
        <p class="fact-tools">
          <button type="button" tabIndex={tab} aria-label={`Adopt this one: ${what}`} onClick={adopt}>
            Adopt this one
          </button>
        </p>
      )}
    </li>
  );
}

/** The lines as they stand in the offered text; their numbers lead there. */
function Written({ row: { lines, written }, offer, tab }: Pick<Props, "row" | "tab"> & { readonly offer: string }) {
  const [first] = lines;
  if (first === undefined) return null;
  const where = lines.length === 1 ? `Line ${first + 1}` : `Lines ${lines.map((line) => line + 1).join(", ")}`;
  return (
    <div class="written">
      <button
        type="button"
        class="link plain quiet"
        tabIndex={tab}
        onClick={() => editorApi.postMessage({ kind: "open", at: { file: offer, line: first } })}
      >
        {where}
      </button>
      <pre>{unindented(written)}</pre>
    </div>
  );
}

/** Without the blanks by which it stands in its section: they say nothing here. */
function unindented(written: string): string {
  return written.replaceAll(/^[ \t]+/gm, "");
}
