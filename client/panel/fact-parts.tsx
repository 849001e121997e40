/** The parts of a row that both a comparison and a review have: its name, the value on either side, and what was told last. */

import type { LinePlace } from "../../shared/protocol/findings.ts";
import type { Told } from "../../shared/protocol/tab-messages.ts";
import { editorApi } from "./host.ts";

/** What Tab does with the controls of a row: only those of one row of a list are reached by it. */
export type Reach = 0 | -1;

interface NameProps {
  readonly what: string;
  /** The page that explains it, if there is one. */
  readonly page: string | null;
  readonly aside: string;
  readonly tab: Reach;
}

/** The name as the script has it, the way to its page, and what it is. */
export function FactName({ what, page, aside, tab }: NameProps) {
  const label = `Explain ${what}`;
  return (
    <p class="fact-name">
      <code>{what}</code>{" "}
      {page !== null && (
        <button
          type="button"
          class="explain"
          tabIndex={tab}
          aria-label={label}
          title={label}
          onClick={() => editorApi.postMessage({ kind: "explain", of: page })}
        >
          ?
        </button>
      )}{" "}
      <span class="quiet">{aside}</span>
    </p>
  );
}

interface SideProps {
  readonly of: string;
  readonly value: string | null;
  readonly at: LinePlace | null;
  /** What stands there where that side does not say it. */
  readonly none: string;
  readonly tab: Reach;
}

/** What one side says, as a link to its line. */
export function SideValue({ of, value, at, none, tab }: SideProps) {
  const words = value ?? none;
  const text = value === null ? <span class="quiet">{words}</span> : <code>{words}</code>;
  return (
    <div>
      <dt>{of}</dt>
      <dd>
        {at === null ? (
          text
        ) : (
          <button
            type="button"
            class="link plain"
            tabIndex={tab}
            aria-label={`${words}, the line of ${of}`}
            onClick={() => editorApi.postMessage({ kind: "open", at })}
          >
            {text}
          </button>
        )}
      </dd>
    </div>
  );
}

/** What was written last, or why nothing was, with the way back; it is read out. */
export function ToldLine({ told }: { readonly told: Told | null }) {
  return (
    <div role="status" class={told ? "told" : ""}>
      {told && (
        <>
          {told.message}{" "}
          {told.undo && (
            <button type="button" class="link" onClick={() => editorApi.postMessage({ kind: "undo" })}>
              Undo
            </button>
          )}
        </>
      )}
    </div>
  );
}

/** Until the first answer is there. */
export function Waiting({ words }: { readonly words: string }) {
  return (
    <div role="status">
      <h1>{words}</h1>
    </div>
  );
}

/** The server does not answer: what is shown is out of date. */
export function OutOfDate() {
  const run = (action: string) => () => editorApi.postMessage({ kind: "run", action });
  return (
    <div role="alert" class="warning">
      <p>This page is out of date: the language server does not answer. Your scripts are untouched.</p>
      <p class="tools">
        <button type="button" onClick={run("restart-server")}>
          Restart it
        </button>
        <button type="button" onClick={run("show-log")}>
          Show the log
        </button>
      </p>
    </div>
  );
}
