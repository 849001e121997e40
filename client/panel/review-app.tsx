/** The tab of a review: what a text would change on a craft, line by line, and what would be found in the result. */
import { useRef, useState } from "preact/hooks";
import type { HiddenCharacter, ReviewResult, ReviewRow } from "../../shared/protocol/review.ts";
import type { FromReview, ReviewChoice, Reviewed, ToReview } from "../../shared/protocol/review-messages.ts";
import type { Told, ToTab } from "../../shared/protocol/tab-messages.ts";
import { OutOfDate, Waiting } from "./fact-parts.tsx";
import { editorApi } from "./host.ts";
import { HiddenList, Mapping, MeasureList, Result } from "./review-aside.tsx";
import { AdoptBar } from "./review-bar.tsx";
import { ReviewGroups } from "./review-groups.tsx";
import { useRowKeys } from "./row-keys.ts";
import { useTabAnswer } from "./tab-answer.ts";
import { loadTabState, saveTabState } from "./tab-page.ts";

const nothingChosen: ReviewChoice = { chosen: null, mapping: {}, into: null, dialect: "" };
/** What of it survives when the page is closed. */
const initial = { choice: nothingChosen };

/** What only this page is told. */
type More = Exclude<ToReview, ToTab<Reviewed, ReviewResult>>;

type Review = Extract<ReviewResult, { kind: "review" }>;

function post(message: FromReview): void {
  editorApi.postMessage(message);
}

/** The whole page. It keeps what the pilot chose; what comes of it is in each result. */
export function ReviewApp() {
  const [choice, setChoice] = useState<ReviewChoice>(loadTabState(initial).choice);
  const { about, result, told, failed } = useTabAnswer<Reviewed, ReviewResult, FromReview, More>(
    { kind: "ready", choice },
    ({ whats }) => choose({ chosen: chosenIn(now.current).filter((what) => !whats.includes(what)) }),
  );
  // What the host says is heard by the page as it was first drawn.
  const now = useRef({ choice, result });
  now.current = { choice, result };

  const choose = (some: Partial<ReviewChoice>) => {
    const next = { ...now.current.choice, ...some };
    now.current.choice = next;
    saveTabState({ choice: next });
    setChoice(next);
    post({ kind: "choose", choice: next });
  };

  return (
    <>
      {failed && <OutOfDate />}
      {result === null && !failed && <Waiting words="Reading it…" />}
      {result?.kind === "refused" && <Nothing title="Nothing to review" why={result.message} hidden={[]} />}
      {result?.kind === "no-script" && (
        <Nothing title="This is no script" why={result.looksLike} hidden={result.hidden} />
      )}
      {result?.kind === "review" && (
        <Shown
          result={result}
          isText={about?.offer.kind === "text"}
          purpose={about?.purpose ?? "review"}
          choice={choice}
          choose={choose}
          told={told}
        />
      )}
    </>
  );
}

/** The rows that are chosen: what the pilot said, else what the result proposes; of rows that can be adopted. */
function chosenIn({
  choice,
  result,
}: {
  readonly choice: ReviewChoice;
  readonly result: ReviewResult | null;
}): string[] {
  const rows = result?.kind === "review" ? result.rows : [];
  return adoptable(rows)
    .filter(({ what, chosen }) => (choice.chosen ? choice.chosen.includes(what) : chosen))
    .map(({ what }) => what);
}

function adoptable(rows: readonly ReviewRow[]): readonly ReviewRow[] {
  return rows.filter((row) => row.class !== "same" && row.notTaken === null);
}

interface NothingProps {
  readonly title: string;
  readonly why: string;
  readonly hidden: readonly HiddenCharacter[];
}

function Nothing({ title, why, hidden }: NothingProps) {
  return (
    <>
      <h1>{title}</h1>
      <p>{why}</p>
      <HiddenList hidden={hidden} file={null} />
      <p class="tools">
        <button type="button" class="first" onClick={() => post({ kind: "run", action: "clipboard" })}>
          Look into the clipboard again
        </button>
      </p>
    </>
  );
}

interface ShownProps {
  readonly result: Review;
  /** Whether the offer is a text, which is called by words such as “the pasted text”. */
  readonly isText: boolean;
  readonly purpose: Reviewed["purpose"];
  readonly choice: ReviewChoice;
  readonly choose: (some: Partial<ReviewChoice>) => void;
  readonly told: Told | null;
}

function Shown({ result, isText, purpose, choice, choose, told }: ShownProps) {
  const { mine, theirs, rows, warnings, hidden, mapping, measure } = result;
  const root = useRef<HTMLDivElement>(null);
  const keys = useRowKeys(
    rows.map(({ what }) => what),
    root,
  );
  const canBeAdopted = adoptable(rows);
  const chosen = chosenIn({ choice, result });
  const adopt = (whats: readonly string[]) => post({ kind: "adopt", choice: { ...choice, chosen: whats }, whats });
  return (
    <div class="review" ref={root} {...keys.within}>
      <header>
        <h1 tabIndex={-1} class={isText ? "begins" : ""}>
          {theirs.name} <span class="quiet">{purpose === "carry" ? "carried over to" : "held against"}</span>{" "}
          {mine.name}
        </h1>
        {canBeAdopted.length === 0 && (
          <p class="sum">
            {rows.every((row) => row.class === "same")
              ? `Nothing differs: all that it says is so on ${mine.name} already.`
              : "Nothing of it can be adopted."}
          </p>
        )}
        {warnings.map((warning) => (
          <p class="warning" key={warning}>
            {warning}
          </p>
        ))}
        <HiddenList hidden={hidden} file={theirs.uri} />
        <Mapping rows={mapping} change={(from, to) => choose({ mapping: { ...choice.mapping, [from]: to } })} />
      </header>
      <div class="review-body">
        <ReviewGroups
          rows={rows}
          names={{ mine: mine.name, theirs: purpose === "carry" ? theirs.name : "Then" }}
          purpose={purpose}
          offer={purpose === "carry" ? null : theirs.uri}
          chosen={chosen}
          choose={(whats) => choose({ chosen: whats })}
          adopt={(what) => adopt([what])}
          current={keys.current}
          findings={result.findings}
        />
        <aside class="review-side" aria-label="What comes of it">
          <Result result={result} chosen={chosen.length} show={(what) => focusRow(root.current, what)} />
          <MeasureList measure={measure} craft={mine.name} />
        </aside>
      </div>
      <AdoptBar
        result={result}
        chosen={chosen}
        choice={choice}
        choose={choose}
        adopt={() => adopt(chosen)}
        canAdopt={canBeAdopted.length > 0}
        told={told}
      />
    </div>
  );
}

function focusRow(root: HTMLElement | null, what: string): void {
  for (const row of root?.querySelectorAll<HTMLElement>("[data-row]") ?? []) {
    if (row.dataset.row !== what) continue;
    const folded = row.closest("details");
    if (folded) folded.open = true;
    row.querySelector<HTMLElement>("input, button")?.focus();
    row.scrollIntoView({ block: "center" });
  }
}
