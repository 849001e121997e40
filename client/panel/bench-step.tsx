/** One step of the bench list: its box, what to do and to expect, a place for readings, and the ways to its picture and lines. */
import type { BenchPictureName, BenchStep } from "../../shared/protocol/bench.ts";
import type { LinePlace } from "../../shared/protocol/findings.ts";
import type { ControlsAt } from "../../shared/protocol/panel.ts";
import { ReadingField } from "./bench-reading.tsx";
import { postToHost } from "./host.ts";

/** What is shown beside the list: a picture, the switches with the controls as they stand at a step. */
export type BenchSight =
  | { readonly of: Exclude<BenchPictureName, "switches">; readonly positions: null }
  | { readonly of: "switches"; readonly positions: ControlsAt };

interface Props {
  readonly step: BenchStep;
  readonly number: string;
  readonly file: string;
  readonly tab: 0 | -1;
  readonly isTicked: boolean;
  readonly isNow: boolean;
  /** Why it is due, where no step before it says the same. */
  readonly why: string;
  readonly sight: BenchSight | null;
  readonly tick: () => void;
  readonly show: (sight: BenchSight) => void;
}

const SIGHTS: Readonly<Record<BenchPictureName, string>> = {
  osd: "Show the OSD",
  "osd-second": "Show the second page",
  switches: "Show it on the switches",
  motors: "Show the motors",
};

/** The row of a step. */
export function StepRow({ step, number, file, tab, isTicked, isNow, why, sight, tick, show }: Props) {
  const { id, what, expect, caution, readings, from } = step;
  const boxId = `step-${id}`;
  const toBox = () => document.getElementById(boxId)?.focus();
  /** The next reading of the step; after the last one its box. */
  const goOn = (at: number) => {
    const fields = document.getElementById(boxId)?.closest(".step")?.querySelectorAll<HTMLElement>("input[type=text]");
    const next = fields?.[at + 1];
    if (next) next.focus();
    else toBox();
  };
  return (
    <li class={`step ${isTicked ? "is-ticked" : ""}`} data-row={id}>
      <label class="step-box" for={boxId}>
        <input
          type="checkbox"
          id={boxId}
          checked={isTicked}
          tabIndex={tab}
          aria-describedby={`${boxId}-more`}
          onChange={tick}
        />
        <span>
          <span class="quiet">{number}</span> {what}
        </span>
      </label>
      <div class="step-more" id={`${boxId}-more`}>
        {caution !== null && <p class="caution">{caution}</p>}
        {expect !== null && <p class="expect">{expect}</p>}
        {why !== "" && <p class="quiet">{why}</p>}
      </div>
      <div class="step-more">
        {readings.map((reading, at) =>
          isNow ? (
            <ReadingField
              key={reading.name}
              reading={reading}
              file={file}
              tab={tab}
              leave={toBox}
              goOn={() => goOn(at)}
            />
          ) : (
            <p key={reading.name}>
              {reading.what}: {reading.text ?? "not written down"}
            </p>
          ),
        )}
        {(sight || from.length > 0) && (
          <p class="step-ways">
            {sight && (
              <button type="button" class="link" tabIndex={tab} onClick={() => show(sight)}>
                {SIGHTS[sight.of]}
              </button>
            )}
            <Lines from={from} tab={tab} />
          </p>
        )}
      </div>
    </li>
  );
}

/** So many lines are named one by one; nobody goes to more of them. */
const MOST_LINES = 3;

function Lines({ from, tab }: { readonly from: readonly LinePlace[]; readonly tab: 0 | -1 }) {
  return from.slice(0, MOST_LINES).map((at) => (
    <button
      type="button"
      class="link plain quiet"
      key={`${at.line} ${at.file}`}
      tabIndex={tab}
      aria-label={`Line ${at.line + 1} of ${nameOf(at.file)}`}
      onClick={() => postToHost({ kind: "select", at })}
    >
      Line {at.line + 1}
    </button>
  ));
}

function nameOf(file: string): string {
  return decodeURIComponent(file.slice(file.lastIndexOf("/") + 1));
}
