/** One phase of the bench list, with its steps. */
import type { BenchPhase } from "../../shared/protocol/bench.ts";
import type { ControlsAt } from "../../shared/protocol/panel.ts";
import type { BenchMade } from "../../shared/protocol/panel-messages.ts";
import { type CheckProgress, isComplete, WriteDay } from "./bench-checks.tsx";
import { type BenchSight, StepRow } from "./bench-step.tsx";

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
  /** Gives the keyboard to the step after this one. */
  readonly goOn: (step: string) => void;
  readonly show: (sight: BenchSight, step: string) => void;
  readonly isOpen: boolean;
  readonly fold: (to: "unfolded" | "folded") => void;
}

/** Its heading says how far it is, and folds it. */
export function Phase({
  phase,
  number,
  whys,
  file,
  ticked,
  current,
  isNow,
  progress,
  tick,
  make,
  goOn,
  show,
  isOpen,
  fold,
}: PhaseProps) {
  const { name, title, how, steps } = phase;
  const done = steps.filter(({ id }) => ticked.has(id)).length;
  const sights = sightsOf(phase);
  return (
    <section aria-labelledby={`phase-${name}`}>
      <h2 id={`phase-${name}`}>
        <button type="button" class="fold" aria-expanded={isOpen} onClick={() => fold(isOpen ? "folded" : "unfolded")}>
          <span>
            {number}. {title}
          </span>{" "}
          <span class="quiet whole">
            {done} of {steps.length}
          </span>
        </button>
      </h2>
      {isOpen && how !== null && <p class="quiet">{how}</p>}
      <ol class="steps" hidden={!isOpen}>
        {(isOpen ? steps : []).flatMap((step, index) => {
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
                All of “{each.check.title}” is ticked.{" "}
                <WriteDay progress={each} make={make} then={() => goOn(step.id)} />
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
  for (const { id, moves, picture } of steps) {
    if (moves.length > 0) {
      positions = { ...positions, ...Object.fromEntries(moves.map(({ control, to }) => [control, to])) };
      sights.set(id, { of: "switches", positions });
    } else if (picture === "switches") sights.set(id, { of: picture, positions });
    else if (picture) sights.set(id, { of: picture, positions: null });
  }
  return sights;
}
