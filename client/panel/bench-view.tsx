/**
 * The bench list: what to do at the bench with this craft, step by step. Ticks are the page's own and go nowhere by
 * themselves; days and readings are written into the script when the pilot says so.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import { duesInWords } from "../../shared/draw/bench-words.ts";
import type { BenchPhase, BenchPicture } from "../../shared/protocol/bench.ts";
import type { ControlsAt } from "../../shared/protocol/panel.ts";
import type { BenchMade } from "../../shared/protocol/panel-messages.ts";
import { type CheckProgress, Checks, isComplete, progressOf, WriteDay } from "./bench-checks.tsx";
import { useBenchLooks } from "./bench-looks.ts";
import { type BenchSight, StepRow } from "./bench-step.tsx";
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
  const ticked = new Set(looks.ticked);
  const ids = list.phases.flatMap(({ steps }) => steps.map(({ id }) => id));
  const keys = useRowKeys(ids, root);
  const current = keys.current(ids);
  const isNow = stands === "now";
  const progress = progressOf(list, ticked);
  useUndoKeys();
  useEffect(
    () =>
      onHostMessage((message) => {
        if (message.kind === "bench-told") setTold({ message: message.message, isWritten: message.isWritten });
      }),
    [],
  );
  useEffect(() => {
    if (from !== null) focusStep(from);
  }, []);

  const tick = (id: string) => {
    setTold(null);
    look({ ticked: ticked.has(id) ? looks.ticked.filter((each) => each !== id) : [...looks.ticked, id] });
  };
  const make = (gesture: BenchMade) => postToHost({ kind: "bench", file, gesture });
  const onKeyDown = (event: KeyboardEvent) => {
    const box = event.target;
    if (event.key === "Enter" && box instanceof HTMLInputElement && box.type === "checkbox" && box.closest(".step")) {
      event.preventDefault();
      const field = box.closest(".step")?.querySelector<HTMLInputElement>("input[type=text]");
      if (field) field.select();
      else box.click();
    } else keys.within.onKeyDown(event);
  };
  const next = ids.find((id) => !ticked.has(id));
  const done = ids.filter((id) => ticked.has(id)).length;
  const whyOf = duesInWords(list);
  const whys = new Map(list.phases.flatMap(({ steps }) => steps.map((step) => [step.id, whyOf(step)])));
  const phaseProps = { whys, file, ticked, current, isNow, progress, tick, make, show };
  return (
    <div class="bench" ref={root} {...keys.within} {...{ onKeyDown }}>
      <p class="bench-warning">
        <strong>{list.warning}</strong>
      </p>
      <div class="bench-bar">
        <p role="status">
          {ids.length === 0 ? "Nothing is due." : `${done} of ${ids.length} ticked.`} {told?.message}
        </p>
        <p class="step-ways">
          {told?.isWritten && (
            <button type="button" class="link" onClick={() => postToHost({ kind: "undo" })}>
              Undo
            </button>
          )}
          {next !== undefined && done > 0 && (
            <button type="button" class="link" onClick={() => focusStep(next)}>
              Go on
            </button>
          )}
          {done > 0 && (
            <button type="button" class="link" onClick={() => look({ ticked: [] })}>
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
      {list.phases.map((phase, index) => (
        <Phase key={phase.name} phase={phase} number={index + 1} {...phaseProps} />
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

interface PhaseProps {
  readonly phase: BenchPhase;
  readonly number: number;
  /** By its id, why a step is due, where no step before it says the same. */
  readonly whys: ReadonlyMap<string, string>;
  readonly file: string;
  readonly ticked: ReadonlySet<string>;
  readonly current: string | undefined;
  readonly isNow: boolean;
  readonly progress: readonly CheckProgress[];
  readonly tick: (id: string) => void;
  readonly make: (gesture: BenchMade) => void;
  readonly show: Props["show"];
}

function Phase({ phase, number, whys, file, ticked, current, isNow, progress, tick, make, show }: PhaseProps) {
  const { name, title, how, steps } = phase;
  const done = steps.filter(({ id }) => ticked.has(id)).length;
  const sights = sightsOf(phase);
  return (
    <section aria-labelledby={`phase-${name}`}>
      <h2 id={`phase-${name}`}>
        {number}. {title}{" "}
        <span class="quiet whole">
          {done} of {steps.length}
        </span>
      </h2>
      {how !== null && <p class="quiet">{how}</p>}
      <ol class="steps">
        {steps.flatMap((step, index) => {
          const complete = progress.filter((each) => each.lastStep === step.id && isComplete(each));
          return [
            <StepRow
              key={step.id}
              step={step}
              number={`${number}.${index + 1}`}
              file={file}
              tab={step.id === current ? 0 : -1}
              isTicked={ticked.has(step.id)}
              isNow={isNow}
              why={whys.get(step.id) ?? ""}
              sight={sights.get(step.id) ?? null}
              tick={() => tick(step.id)}
              show={(sight) => show(sight, step.id)}
            />,
            ...(isNow ? complete : []).map((each) => (
              <li class="day-offer" key={each.check.name}>
                All of “{each.check.title}” is ticked. <WriteDay progress={each} make={make} />
              </li>
            )),
          ];
        })}
      </ol>
    </section>
  );
}

/** What is to be seen at each step; of movements the switches as they stand once all before it are made. */
function sightsOf({ steps }: BenchPhase): ReadonlyMap<string, BenchSight> {
  const sights = new Map<string, BenchSight>();
  let positions: ControlsAt = {};
  for (const { id, move, picture } of steps) {
    if (move) {
      positions = { ...positions, [move.control]: move.to };
      sights.set(id, { of: "switches", positions });
    } else if (picture) sights.set(id, { of: picture, positions: null });
  }
  return sights;
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
