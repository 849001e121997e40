/** The time line of a lost signal: phases from the last packet on, with what the receiver, the craft and its motors do. */
import { useRef } from "preact/hooks";
import {
  armedInWords,
  armedLabel,
  backInWords,
  courseName,
  gapsInWords,
  isLoose,
  lastsInWords,
  phaseInWords,
  phaseLabel,
  phaseOf,
  receiverInWords,
  spanInWords,
  startInWords,
  tracksInWords,
} from "../../shared/draw/signal-words.ts";
import type { SignalPhase, SignalPicture, SignalStep } from "../../shared/protocol/signal.ts";
import { LineLink } from "./line-links.tsx";

interface Props {
  readonly picture: SignalPicture;
  readonly at: SignalStep;
  readonly choose: (at: SignalStep) => void;
  /** The step as a screen reader says it, no more than is not said elsewhere already. */
  readonly spoken: string;
}

/** The line with its courses, its steps, what is said of the step, and all of it as a list. */
export function SignalLine({ picture, at, choose, spoken }: Props) {
  const { phases } = picture.courses[at.course]!;
  const go = (phase: number) => {
    const next = Math.max(0, Math.min(phases.length - 1, phase));
    if (next !== at.phase) choose({ ...at, phase: next });
  };
  return (
    <section class="signal" aria-label="Signal lost, phase by phase">
      <Courses picture={picture} at={at} choose={choose} />
      <Track picture={picture} at={at} go={go} spoken={spoken} />
      {phases.length > 1 && <Steps at={at} phases={phases} go={go} />}
      <PhaseDetails phase={phaseOf(picture, at)} />
      {picture.calls && (
        <p class="quiet">
          {picture.calls.text} after the loss is noticed it calls by itself:{" "}
          <LineLink
            at={picture.calls.at}
            words={`${picture.calls.name} ${picture.calls.text}`}
            of={picture.calls.name}
          />
          .
        </p>
      )}
      <AsList picture={picture} />
    </section>
  );
}

/** Steps for pilots who would rather press a button. */
function Steps({ at, phases, go }: { at: SignalStep; phases: readonly SignalPhase[]; go: (phase: number) => void }) {
  const count = phases.length;
  return (
    <p class="tools">
      <button type="button" disabled={at.phase === 0} onClick={() => go(at.phase - 1)}>
        Earlier
      </button>
      <button type="button" disabled={at.phase === count - 1} onClick={() => go(at.phase + 1)}>
        Later
      </button>
      <span class="quiet">
        {at.phase + 1} of {count}.
        {phases.some(isLoose) && " Dashed: how long is not known or depends, so not to scale."}
      </span>
    </p>
  );
}

/** What the script cannot know decides on the course. */
function Courses({ picture: { courses }, at, choose }: Pick<Props, "picture" | "at" | "choose">) {
  if (courses.length < 2) return null;
  return (
    <fieldset class="tools" aria-label="Circumstances">
      {courses.map((course, index) => (
        <button
          type="button"
          key={index}
          aria-pressed={index === at.course}
          onClick={() => choose({ course: index, phase: Math.min(at.phase, course.phases.length - 1) })}
        >
          {courseName(course)}
        </button>
      ))}
    </fieldset>
  );
}

/** The tracks, one slider over all phases: arrow keys, Home and End, and the pointer. */
function Track({
  picture,
  at,
  go,
  spoken,
}: Pick<Props, "picture" | "at" | "spoken"> & { go: (phase: number) => void }) {
  const track = useRef<HTMLDivElement>(null);
  const { phases } = picture.courses[at.course]!;
  const onKeyDown = (event: KeyboardEvent) => {
    const to = { ArrowDown: at.phase + 1, ArrowRight: at.phase + 1, ArrowUp: at.phase - 1, ArrowLeft: at.phase - 1 };
    const ends = { Home: 0, End: phases.length - 1, PageUp: 0, PageDown: phases.length - 1 };
    const next = ({ ...to, ...ends } as Readonly<Record<string, number>>)[event.key];
    if (next === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    // Home also returns the controls to rest, and that is not meant here.
    event.stopPropagation();
    go(next);
  };
  const follow = (event: PointerEvent) => {
    const under = document.elementFromPoint(event.clientX, event.clientY)?.closest<HTMLElement>("[data-phase]");
    if (under && track.current?.contains(under)) go(Number(under.dataset.phase));
  };
  return (
    <div
      class="signal-line"
      ref={track}
      role="slider"
      tabIndex={0}
      aria-label="Phases after the last packet"
      aria-orientation="vertical"
      aria-valuemin={1}
      aria-valuemax={phases.length}
      aria-valuenow={at.phase + 1}
      aria-valuetext={spoken}
      onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        if (event.button === 0) follow(event);
      }}
      onPointerMove={(event) => {
        if (event.buttons === 1 && event.pointerType !== "touch") follow(event);
      }}
    >
      <span class="head" />
      <span class="head">receiver</span>
      <span class="head">craft</span>
      <span class="head">armed</span>
      {phases.map((phase, index) => (
        <PhaseRow key={index} phase={phase} index={index} chosen={index === at.phase} before={phases[index - 1]} />
      ))}
    </div>
  );
}

interface RowProps {
  readonly phase: SignalPhase;
  readonly before: SignalPhase | undefined;
  readonly index: number;
  readonly chosen: boolean;
}

/** One phase; a track that goes on from the phase before says nothing anew. */
function PhaseRow({ phase, before, index, chosen }: RowProps) {
  const loose = isLoose(phase) ? "loose" : "";
  const height = { minHeight: `${heightPx(phase)}px` };
  const goesOn = (same: boolean) => (same ? "goes-on" : "");
  return (
    <div class={`phase ${loose}`} data-phase={index} data-chosen={chosen || undefined} style={height}>
      <span class="start">{startInWords(phase)}</span>
      <span class={`track receiver ${phase.receiver} ${goesOn(before?.receiver === phase.receiver)}`}>
        {before?.receiver !== phase.receiver && <span>{receiverInWords(phase.receiver)}</span>}
      </span>
      <span class="track craft">
        <b>{phaseLabel(phase.deed)}</b>
        <span class="quiet block">{lastsInWords(phase)}</span>
        <span class="quiet also">{tracksInWords(phase, before)}</span>
      </span>
      <span class={`track armed ${phase.armed} ${goesOn(before?.armed === phase.armed)}`}>
        {before?.armed !== phase.armed && <span>{armedLabel(phase.armed)}</span>}
      </span>
    </div>
  );
}

/** Taller for a longer time, by its logarithm: half a second and ten minutes stand on one line. */
function heightPx({ length }: SignalPhase): number {
  return length.kind === "known" ? 30 + Math.min(60, 12 * Math.log2(1 + length.ms / 1000)) : 40;
}

function PhaseDetails({ phase }: { phase: SignalPhase }) {
  const gaps = gapsInWords(phase.gaps);
  return (
    <>
      <p>If the signal comes back now, {backInWords(phase.back)}</p>
      {gaps !== "" && <p class="quiet">{gaps}</p>}
      <PhaseLines phase={phase} />
    </>
  );
}

function PhaseLines({ phase: { lines } }: { phase: SignalPhase }) {
  if (lines.length === 0) return null;
  return (
    <p class="signal-lines">
      Its lines:
      {lines.map(({ name, text, at }) => (
        <LineLink key={`${name} ${at.file} ${at.line}`} at={at} words={`${name} ${text}`} of={name} />
      ))}
    </p>
  );
}

/** The same without a picture, every course and every phase. */
function AsList({ picture: { courses } }: Pick<Props, "picture">) {
  return (
    <details>
      <summary>The time line as a list</summary>
      {courses.map((course, index) => (
        <div key={index}>
          {courses.length > 1 && <h3>{courseName(course)}</h3>}
          <ol class="list">
            {course.phases.map((phase, at) => (
              <li key={at}>
                <b>{spanInWords(phase)}</b>, receiver {receiverInWords(phase.receiver)}, {armedInWords(phase.armed)}:{" "}
                {phaseInWords(phase)} If the signal comes back now, {backInWords(phase.back)}
                <PhaseLines phase={phase} />
              </li>
            ))}
          </ol>
        </div>
      ))}
    </details>
  );
}
