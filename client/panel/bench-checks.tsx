/** The checks that have a day: how far each is, its day to write, and that it no longer holds. */

import { useRef } from "preact/hooks";
import { dueInWords } from "../../shared/draw/bench-words.ts";
import type { BenchCheckState, BenchList } from "../../shared/protocol/bench.ts";
import type { BenchMade } from "../../shared/protocol/panel-messages.ts";
import { localDay } from "../../shared/text/day.ts";

/** How much of a check is ticked, of its steps that are shown. */
export interface CheckProgress {
  readonly check: BenchCheckState;
  readonly ticked: number;
  readonly steps: number;
  /** The last step of it that is shown; null where none is. */
  readonly lastStep: string | null;
}

/** How far each check is. */
export function progressOf({ checks, phases }: BenchList, ticked: ReadonlySet<string>): CheckProgress[] {
  const steps = phases.flatMap((phase) => phase.steps);
  return checks.map((check) => {
    const own = steps.filter((step) => step.check === check.name);
    return {
      check,
      ticked: own.filter(({ id }) => ticked.has(id)).length,
      steps: own.length,
      lastStep: own.at(-1)?.id ?? null,
    };
  });
}

/** Whether its day is to be written: all of it is ticked, and the script does not have this day yet. */
export function isComplete({ check, ticked, steps }: CheckProgress): boolean {
  return steps > 0 && ticked === steps && !(check.due.state === "done" && check.due.day === localDay(new Date()));
}

interface Props {
  readonly progress: readonly CheckProgress[];
  readonly isNow: boolean;
  readonly make: (gesture: BenchMade) => void;
}

/** All checks of the craft, at the foot of the list. */
export function Checks({ progress, isNow, make }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  if (progress.length === 0) return null;
  const complete = progress.filter(isComplete);
  // Each is a step to undo of its own.
  const writeAll = () => {
    for (const { check } of complete) make({ kind: "day", check: check.name });
    // The button goes.
    heading.current?.focus({ preventScroll: true });
  };
  return (
    <section aria-labelledby="bench-checks">
      <h2 id="bench-checks" ref={heading} tabIndex={-1}>
        Days of checks
      </h2>
      {isNow && complete.length > 1 && (
        <p>
          <button type="button" onClick={writeAll}>
            Write today's day for all {complete.length}
          </button>
        </p>
      )}
      <ul class="check-days">
        {progress.map((each) => (
          <li key={each.check.name} tabIndex={-1}>
            <p>
              <b>{each.check.title}</b> <span class="quiet">{stateInWords(each)}</span>
            </p>
            {isNow && (
              <p class="step-ways">
                {isComplete(each) && <WriteDay progress={each} make={make} then={toRow} />}
                {each.check.at && (
                  <button
                    type="button"
                    class="link"
                    aria-label={`${each.check.title}: it no longer holds`}
                    onClick={({ currentTarget }) => {
                      toRow(currentTarget);
                      make({ kind: "void", check: each.check.name });
                    }}
                  >
                    It no longer holds
                  </button>
                )}
              </p>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The row keeps the keyboard where its button goes. */
function toRow(button: HTMLElement): void {
  button.closest("li")?.focus({ preventScroll: true });
}

function stateInWords({ check: { due, at }, ticked, steps }: CheckProgress): string {
  const made = at === null ? "No day in the script yet." : dueInWords(due);
  return steps === 0 ? made : `${made} ${ticked} of ${steps} ticked.`;
}

/** The button that writes today's day. */
export function WriteDay({
  progress: { check },
  make,
  then,
}: {
  readonly progress: CheckProgress;
  readonly make: Props["make"];
  /** Gives the keyboard on, as the button goes. */
  readonly then: (button: HTMLElement) => void;
}) {
  return (
    <button
      type="button"
      class="first"
      aria-label={`Write today as the day of the check: ${check.title}`}
      onClick={({ currentTarget }) => {
        make({ kind: "day", check: check.name });
        then(currentTarget);
      }}
    >
      Write today's day
    </button>
  );
}
