/** What stands around the rows of a review: characters that do not show, the controls, the result, what has to be measured. */
import type { HiddenCharacter, MeasureRow, ReviewResult } from "../../shared/protocol/review.ts";
import { counted } from "./fact-words.ts";
import { editorApi } from "./host.ts";

type Review = Extract<ReviewResult, { kind: "review" }>;

const open = (file: string, line: number) => () => editorApi.postMessage({ kind: "open", at: { file, line } });

/** Characters that do not show, or show as others; `file` is the address of the text, if its lines can be shown. */
export function HiddenList({
  hidden,
  file,
}: {
  readonly hidden: readonly HiddenCharacter[];
  readonly file: string | null;
}) {
  if (hidden.length === 0) return null;
  return (
    <section class="warning" aria-labelledby="hidden">
      <h2 id="hidden">Not what it seems: {counted(hidden.length, "character")}</h2>
      <p>
        They do not show, or show as another
        {file === null ? "." : ": read these lines as they are written out below."}
      </p>
      <ul class="list">
        {hidden.map(({ line, start, words }) => (
          <li key={`${line}:${start}`}>
            {file === null ? (
              `Line ${line + 1}`
            ) : (
              <button type="button" class="link" onClick={open(file, line)}>
                Line {line + 1}
              </button>
            )}
            : {words}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface MappingProps {
  readonly rows: Review["mapping"];
  readonly change: (from: string, to: string | null) => void;
}

/** Which of the pilot's own controls stands for each of theirs. */
export function Mapping({ rows, change }: MappingProps) {
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="mapping">
      <h2 id="mapping">Their controls on your handset</h2>
      <ul class="mapping">
        {rows.map(({ from, to, why, positions, choices }) => {
          const moved = positions.filter(([theirs, mine]) => theirs !== mine);
          return (
            <li key={from}>
              <label>
                <code>{from}</code> becomes{" "}
                <select
                  value={to ?? ""}
                  onChange={({ currentTarget }) =>
                    change(from, currentTarget.value === "" ? null : currentTarget.value)
                  }
                >
                  <option value="">{from}, as it is</option>
                  {choices.map((choice) => (
                    <option key={choice.to} value={choice.to}>
                      {choice.to}: {choice.what}
                      {choice.takenBy === null ? "" : `, now for ${choice.takenBy}`}
                    </option>
                  ))}
                </select>
              </label>{" "}
              <span class="quiet">
                {why}
                {moved.length > 0 && `; ${moved.map(([theirs, mine]) => `${theirs} is ${mine}`).join(", ")}`}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

interface ResultProps {
  readonly result: Review;
  readonly chosen: number;
  /** Goes to the row that brings a finding. */
  readonly show: (what: string) => void;
}

/** What the rules find in the craft as if the chosen rows were adopted. */
export function Result({ result: { findings, gone, mine }, chosen, show }: ResultProps) {
  const fresh = findings.filter(({ isNew }) => isNew);
  const before = findings.filter(({ isNew }) => !isNew);
  return (
    <section aria-labelledby="result">
      <h2 id="result" tabIndex={-1}>
        Found in the result
      </h2>
      <p role="status">{resultInWords(chosen, fresh.length, gone, before.length)}</p>
      {fresh.map(({ code, severity, message, what, range }) => (
        <div class={`finding ${severity}`} key={`${code}:${range.start.line}:${message}`}>
          <b>New {severity}.</b> {message}{" "}
          {what !== null && (
            <button type="button" class="link" onClick={() => show(what)}>
              From {what}
            </button>
          )}
        </div>
      ))}
      {before.length > 0 && (
        <details>
          <summary>
            On {mine.name} already: {before.length}
          </summary>
          <ul class="list">
            {before.map(({ code, severity, message, range }) => (
              <li key={`${code}:${range.start.line}:${message}`}>
                {severity}: {message}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function resultInWords(chosen: number, fresh: number, gone: number, before: number): string {
  if (chosen === 0) return "Nothing is chosen, so nothing would change.";
  const parts = [fresh === 0 ? "nothing new is found" : counted(fresh, "new finding")];
  if (gone > 0) parts.push(`${counted(gone, "old one")} gone`);
  if (before > 0) parts.push(`${counted(before, "old one")} left`);
  return `With ${counted(chosen, "line")} adopted: ${parts.join(", ")}.`;
}

/** What was read on the other craft, and has to be read on this one. */
export function MeasureList({ measure, craft }: { readonly measure: readonly MeasureRow[]; readonly craft: string }) {
  if (measure.length === 0) return null;
  return (
    <section aria-labelledby="measure">
      <h2 id="measure">To measure on {craft}</h2>
      <p class="quiet">None of this goes along. Propellers off for all of it.</p>
      <ul class="list">
        {measure.map(({ what, words, at, isWritten }) => (
          <li key={what}>
            {words}{" "}
            <button
              type="button"
              class="link"
              aria-label={`${isWritten ? "Its line" : "Where it goes"}: ${what}`}
              onClick={open(at.file, at.line)}
            >
              {isWritten ? "Its line" : "Where it goes"}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
