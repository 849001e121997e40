/**
 * The bench list: what to do at the bench with this craft, step by step. Ticks are the page's own and go nowhere by
 * themselves; days and readings are written into the script when the pilot says so.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import { duesInWords } from "../../shared/draw/bench-words.ts";
import type { BenchPhase, BenchPicture } from "../../shared/protocol/bench.ts";
import type { BenchMade } from "../../shared/protocol/panel-messages.ts";
import { Checks, progressOf } from "./bench-checks.tsx";
import { useBenchLooks } from "./bench-looks.ts";
import { Phase } from "./bench-phase.tsx";
import type { BenchSight } from "./bench-step.tsx";
import { tickedIn, toggled, withoutCheck } from "./bench-ticks.ts";
import { onHostMessage, postToHost } from "./host.ts";
import { useRowKeys } from "./row-keys.ts";
import { useUndoKeys } from "./undo-keys.ts";

interface Props {
  readonly picture: BenchPicture;
  /** The file of the model. */
  readonly file: string;
  /** A craft of the past is looked at, and nothing is written to it. */
  readonly stands: "now" | "as it was";
  /** The step that is to have the keyboard, where one comes back to it. */
  readonly from: string | null;
  readonly show: (sight: BenchSight, step: string) => void;
}

interface Told {
  readonly message: string;
  readonly isWritten: boolean;
}

/** The list of one craft. */
export function BenchView({ picture, file, stands, from, show }: Props) {
  const { list, shown, canChoose } = picture;
  const root = useRef<HTMLDivElement>(null);
  const [looks, look] = useBenchLooks(list.file);
  const [told, setTold] = useState<Told | null>(null);
  const ticked = tickedIn(list, looks.ticks, Date.now());
  const ids = list.phases.flatMap(({ steps }) => steps.map(({ id }) => id));
  const next = ids.find((id) => !ticked.has(id));
  const phaseOf = (id: string | undefined) =>
    list.phases.find(({ steps }) => steps.some((step) => step.id === id))?.name;
  const isOpen = ({ name }: BenchPhase) =>
    (looks.folds[name] ?? (name === phaseOf(next) ? "unfolded" : "folded")) === "unfolded";
  const inSight = list.phases.filter(isOpen).flatMap(({ steps }) => steps.map(({ id }) => id));
  const keys = useRowKeys(inSight, root);
  const current = keys.current(inSight);
  /** The step that gets the keyboard once its phase is unfolded. */
  const [wanted, want] = useState(from);
  const isNow = stands === "now";
  const progress = progressOf(list, ticked);
  const bar = useRef<HTMLParagraphElement>(null);
  /** What was told no longer holds, whatever it was that is taken back. */
  const forget = () => {
    setTold((was) => was && { message: "Undone.", isWritten: false });
    return false;
  };
  useUndoKeys(forget);
  useEffect(
    () =>
      onHostMessage((message) => {
        if (message.kind === "bench-told") setTold({ message: message.message, isWritten: message.isWritten });
      }),
    [],
  );
  useEffect(() => {
    if (wanted === null) return;
    focusStep(wanted);
    want(null);
  }, [wanted]);

  const unfolded = (id: string) => ({ ...looks.folds, [phaseOf(id) ?? ""]: "unfolded" as const });
  const goTo = (id: string) => {
    look({ folds: unfolded(id) });
    want(id);
  };
  const goOn = (from: string) => {
    const after = ids[ids.indexOf(from) + 1];
    if (after === undefined) want(from);
    else goTo(after);
  };
  const tick = (id: string) => {
    setTold(null);
    // A phase in which something is done stays unfolded, also once the next step is in another one.
    look({ ticks: toggled(list, looks.ticks, id, Date.now()), folds: unfolded(id) });
  };
  const foldAll = (to: "unfolded" | "folded") =>
    look({ folds: Object.fromEntries(list.phases.map(({ name }) => [name, to])) });
  const make = (gesture: BenchMade) => {
    postToHost({ kind: "bench", file, gesture });
    // With its first day a list could be shortened to what is due, under the hands of whoever is at work on it.
    if (gesture.kind === "day" && looks.shown === null) look({ shown });
    if (gesture.kind === "void") look({ ticks: withoutCheck(list, looks.ticks, gesture.check) });
  };
  /** Where a button goes with what it does, the keyboard is left where that is told. */
  const toBar = () => bar.current?.focus({ preventScroll: true });
  const undo = () => {
    postToHost({ kind: "undo" });
    forget();
    toBar();
  };
  const beginAnew = () => {
    look({ ticks: {}, folds: {} });
    toBar();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const box = event.target;
    if (event.key === "Enter" && box instanceof HTMLInputElement && box.type === "checkbox" && box.closest(".step")) {
      event.preventDefault();
      const field = box.closest(".step")?.querySelector<HTMLInputElement>("input[type=text]");
      if (field) field.select();
      else box.click();
    } else keys.within.onKeyDown(event);
  };
  const showFrom = (sight: BenchSight, step: string) => {
    look({ folds: unfolded(step) });
    show(sight, step);
  };
  const areOpen = list.phases.every(isOpen);
  const done = ids.filter((id) => ticked.has(id)).length;
  const whyOf = duesInWords(list);
  const whys = new Map(list.phases.flatMap(({ steps }) => steps.map((step) => [step.id, whyOf(step)])));
  const phaseProps = { whys, file, ticked, current, isNow, progress, tick, make, goOn, show: showFrom };
  return (
    <div class="bench" ref={root} {...keys.within} {...{ onKeyDown }}>
      <p class="bench-warning">
        <strong>{list.warning}</strong>
      </p>
      <div class="bench-bar">
        <p>
          <b>{list.craft}</b>
        </p>
        <p role="status" ref={bar} tabIndex={-1}>
          {ids.length === 0 ? "Nothing is due." : `${done} of ${ids.length} ticked.`} {told?.message}
        </p>
        <p class="step-ways">
          {told?.isWritten && (
            <button type="button" class="link" onClick={undo}>
              Undo
            </button>
          )}
          {next !== undefined && done > 0 && (
            <button type="button" class="link" onClick={() => goTo(next)}>
              Go on
            </button>
          )}
          {done > 0 && (
            <button type="button" class="link" onClick={beginAnew}>
              Begin anew
            </button>
          )}
        </p>
      </div>
      {canChoose && (
        <label class="step-box">
          <input
            type="checkbox"
            checked={(looks.shown ?? shown) === "due"}
            onChange={({ currentTarget }) => look({ shown: currentTarget.checked ? "due" : "all" })}
          />
          <span>Only what is due</span>
        </label>
      )}
      {list.phases.length > 1 && (
        <p class="step-ways">
          <button type="button" class="link plain" onClick={() => foldAll(areOpen ? "folded" : "unfolded")}>
            {areOpen ? "Fold all" : "Unfold all"}
          </button>
        </p>
      )}
      {list.phases.map((phase, index) => (
        <Phase
          key={phase.name}
          phase={phase}
          number={index + 1}
          isOpen={isOpen(phase)}
          fold={(to) => look({ folds: { ...looks.folds, [phase.name]: to } })}
          {...phaseProps}
        />
      ))}
      <Checks progress={progress} isNow={isNow} make={make} />
      <Unknown sentences={list.unknown} />
      <p class="tools">
        <button type="button" onClick={() => postToHost({ kind: "run", action: { name: "save-bench", file } })}>
          Save the list…
        </button>
      </p>
    </div>
  );
}

function focusStep(id: string): void {
  const box = document.getElementById(`step-${id}`);
  box?.focus({ preventScroll: true });
  box?.closest(".step")?.scrollIntoView({ block: "center" });
}

function Unknown({ sentences }: { readonly sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  return (
    <section aria-labelledby="bench-unknown">
      <h2 id="bench-unknown">What the script does not say</h2>
      <ul class="list">
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
