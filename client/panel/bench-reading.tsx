/** A place for what is read on the bench: typed as it comes, read by the server, and written by Enter. */
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { readingInWords } from "../../shared/draw/bench-words.ts";
import type { BenchReading } from "../../shared/protocol/bench.ts";
import type { BenchTrial } from "../../shared/protocol/bench-edit.ts";
import type { ToPanel } from "../../shared/protocol/panel-messages.ts";
import { onHostMessage, postToHost } from "./host.ts";

interface Props {
  readonly reading: BenchReading;
  /** The file of the model. */
  readonly file: string;
  readonly tab: 0 | -1;
  /** Gives the keyboard back to the step. */
  readonly leave: () => void;
  /** Gives it to what is to be written down next. */
  readonly goOn: () => void;
}

/** Longer than between two keys of somebody who types figures. */
const PAUSE_MS = 180;

/** The field, and below it what is expected, what would be written, or why that cannot be read. */
export function ReadingField({ reading, file, tab, leave, goOn }: Props) {
  const id = useId();
  const { name, what, form, text } = reading;
  /** What is typed and not written yet; null while the script's own text stands in the field. */
  const [draft, setDraft] = useState<string | null>(null);
  const [hint, setHint] = useState<BenchTrial | null>(null);
  /** What was sent to be written, until it is known what came of it. */
  const sent = useRef<string | null>(null);
  const typed = draft ?? text ?? "";

  useEffect(() => {
    const take = (message: ToPanel) => {
      if (message.kind === "bench-tried" && message.name === name && message.typed === draft) setHint(message.trial);
      if (message.kind !== "bench-told" || message.name !== name || sent.current === null) return;
      const isLatest = sent.current === draft;
      sent.current = null;
      // What was typed since stays, and is tried by itself.
      if (!isLatest) return;
      if (message.isWritten) {
        setDraft(null);
        setHint(null);
      } else setHint({ kind: "unclear", message: message.message });
    };
    return onHostMessage(take);
  }, [name, draft]);
  useEffect(() => {
    if (draft === null || draft.trim() === "") return setHint(null);
    const timer = setTimeout(() => postToHost({ kind: "bench-try", file, name, typed: draft }), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [draft]);

  const write = () => {
    if (draft === null) return leave();
    sent.current = draft;
    postToHost({ kind: "bench", file, gesture: { kind: "reading", name, text: draft } });
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Enter" && !event.isComposing) {
      event.preventDefault();
      write();
      if (draft !== null && hint?.kind !== "unclear") goOn();
    } else if (event.key === "Escape") {
      event.stopPropagation();
      setDraft(null);
      setHint(null);
      leave();
    }
  };
  return (
    <div class="reading">
      <label for={id}>{what}</label>
      <span class="reading-line">
        <input
          type="text"
          id={id}
          value={typed}
          placeholder={`such as ${form}`}
          autocomplete="off"
          spellcheck={false}
          tabIndex={tab}
          aria-invalid={hint?.kind === "unclear"}
          aria-describedby={`${id}-hint`}
          data-untouched={draft === null || undefined}
          onInput={({ currentTarget }) => setDraft(currentTarget.value)}
          onKeyDown={onKeyDown}
        />
        {draft !== null && (
          <button type="button" onClick={write}>
            {draft.trim() === "" ? "Take it out" : "Write it"}
          </button>
        )}
      </span>
      <span class="reading-hint" id={`${id}-hint`}>
        <Hint hint={hint} reading={reading} />
      </span>
    </div>
  );
}

function Hint({ hint, reading }: { readonly hint: BenchTrial | null; readonly reading: BenchReading }) {
  const expected = reading.expected === null ? "" : ` Expected: ${reading.expected}.`;
  if (hint?.kind === "unclear") return <span class="finding">{hint.message}</span>;
  if (hint === null) return <span class="quiet">{sentence(readingInWords({ ...reading, text: null }))}</span>;
  const [first] = hint.found;
  if (!first)
    return (
      <span>
        Reads as “{hint.text}”; nothing speaks against it.{expected}
      </span>
    );
  return (
    <span class={`finding ${first.severity}`}>
      Reads as “{hint.text}”. {first.message}
    </span>
  );
}

function sentence(words: string): string {
  return words === "" ? "" : `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
