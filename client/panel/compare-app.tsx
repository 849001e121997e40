/** The tab of a comparison: what differs between two craft, riskiest first, and what is to be done with each. */
import type { ComponentChildren } from "preact";
import { useRef, useState } from "preact/hooks";
import type { CompareResult, DifferenceRow, Risk } from "../../shared/protocol/compare.ts";
import type { Compared, ComparisonAction, FromComparison } from "../../shared/protocol/compare-messages.ts";
import { CompareRow, decisionOf } from "./compare-row.tsx";
import { OutOfDate, ToldLine, Waiting } from "./fact-parts.tsx";
import { counted } from "./fact-words.ts";
import { editorApi } from "./host.ts";
import { useRowKeys } from "./row-keys.ts";
import { useTabAnswer } from "./tab-answer.ts";
import { loadTabState, saveTabState } from "./tab-page.ts";

/** What of it survives when the page is closed. */
interface Kept {
  /** The differences that stay as they are here, by what they say: one that changes is shown again. */
  readonly kept: readonly string[];
}

const initial: Kept = { kept: [] };

type Differences = Extract<CompareResult, { kind: "differences" }>;

const RISKS: readonly { readonly risk: Risk; readonly title: string; readonly why: string }[] = [
  {
    risk: "high",
    title: "High risk",
    why: "Arming, a lost signal, motors or the link: try it with the propellers off.",
  },
  { risk: "medium", title: "Medium risk", why: "It flies, warns or answers otherwise." },
  { risk: "low", title: "Low risk", why: "Looks and habits." },
];

function post(message: FromComparison): void {
  editorApi.postMessage(message);
}

const run = (action: ComparisonAction) => () => post({ kind: "run", action });

/** The whole page. It keeps what was decided; every difference comes with each result. */
export function CompareApp() {
  const { about, result, told, failed } = useTabAnswer<Compared, CompareResult, FromComparison>({ kind: "ready" });
  const [kept, setKept] = useState<readonly string[]>(loadTabState(initial).kept);

  const decide = (next: readonly string[]) => {
    saveTabState({ kept: next });
    setKept(next);
  };
  return (
    <>
      {failed && <OutOfDate />}
      {result === null && !failed && <Waiting words="Comparing…" />}
      {result?.kind === "refused" && <Refused message={result.message} />}
      {result?.kind === "differences" && (
        <Report result={result} canSwap={about?.other.kind === "file"} kept={kept} decide={decide}>
          <ToldLine told={told} />
        </Report>
      )}
    </>
  );
}

function Refused({ message }: { readonly message: string }) {
  return (
    <>
      <h1>Nothing to compare</h1>
      <p>{message}</p>
      <p class="tools">
        <button type="button" class="first" onClick={run("compare-other")}>
          Compare with something else…
        </button>
      </p>
    </>
  );
}

interface ReportProps {
  readonly result: Differences;
  readonly canSwap: boolean;
  readonly kept: readonly string[];
  readonly decide: (kept: readonly string[]) => void;
  readonly children: ComponentChildren;
}

function Report({ result, canSwap, kept, decide, children }: ReportProps) {
  const { mine, theirs, rows, notes } = result;
  const root = useRef<HTMLDivElement>(null);
  const open = rows.filter((row) => !kept.includes(decisionOf(row)));
  const settled = rows.filter((row) => kept.includes(decisionOf(row)));
  const keys = useRowKeys(
    [...open, ...settled].map(({ what }) => what),
    root,
  );
  const take = (whats: readonly string[]) => post({ kind: "take", whats });
  const rowsOf = (some: readonly DifferenceRow[], isKept: boolean) => {
    const current = keys.current(some.map(({ what }) => what));
    return (
      <ul class="facts">
        {some.map((row) => (
          <CompareRow
            key={row.what}
            row={row}
            names={{ mine: mine.name, theirs: theirs.name }}
            tab={row.what === current ? 0 : -1}
            isKept={isKept}
            take={() => take([row.what])}
            settle={() => decide(isKept ? kept.filter((each) => each !== decisionOf(row)) : [...kept, decisionOf(row)])}
          />
        ))}
      </ul>
    );
  };
  return (
    <div ref={root} {...keys.within}>
      <h1 tabIndex={-1}>
        {mine.name} <span class="quiet">beside</span> {theirs.name}
      </h1>
      <p role="status" class="sum">
        {sumOf(open, settled.length)}
      </p>
      {notes.length > 0 && (
        <ul class="list notes">
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      <p class="tools">
        <button type="button" onClick={run("native-diff")}>
          Text beside text
        </button>
        <button type="button" onClick={run("overlay")}>
          Show both in the panel
        </button>
        {canSwap && (
          <button type="button" onClick={run("swap")}>
            Swap sides
          </button>
        )}
      </p>
      {children}
      {RISKS.map(({ risk, title, why }) => {
        const some = open.filter((row) => row.risk === risk);
        if (some.length === 0) return null;
        const taken = some.filter(({ notTaken }) => notTaken === null).map(({ what }) => what);
        return (
          <section key={risk} class={`group ${risk}`} aria-labelledby={`group-${risk}`}>
            <div class="group-head">
              <h2 id={`group-${risk}`}>
                {title}: {some.length}
              </h2>
              {risk !== "high" && taken.length > 1 && (
                <button type="button" onClick={() => take(taken)}>
                  Take these {taken.length}
                </button>
              )}
            </div>
            <p class="quiet">{why}</p>
            {rowsOf(some, false)}
          </section>
        );
      })}
      {settled.length > 0 && (
        <details class="group settled">
          <summary>
            Kept as it is on {mine.name}: {settled.length}
          </summary>
          {rowsOf(settled, true)}
        </details>
      )}
    </div>
  );
}

/** How many differences are left, in words. */
function sumOf(open: readonly DifferenceRow[], settled: number): string {
  const keptToo = settled === 0 ? "" : ` ${settled === 1 ? "One more is" : `${settled} more are`} kept as here.`;
  if (open.length === 0)
    return settled === 0
      ? "No difference: both set up the same craft. Their layout, order, units and notes may differ."
      : `Nothing is left to decide.${keptToo}`;
  const byRisk = RISKS.flatMap(({ risk, title }) => {
    const count = open.filter((row) => row.risk === risk).length;
    return count === 0 ? [] : [`${count} of ${title.toLowerCase()}`];
  });
  return `${sentence(counted(open.length, "difference"))}: ${byRisk.join(", ")}.${keptToo}`;
}

function sentence(words: string): string {
  return words[0]!.toUpperCase() + words.slice(1);
}
