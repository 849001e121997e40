/** The switches view: the handset's controls, which can be moved, and the resulting state in words. */
import { useEffect, useRef, useState } from "preact/hooks";
import { statesInWords } from "../../shared/draw/against-words.ts";
import { toldOfControl } from "../../shared/draw/control-words.ts";
import { signalStateInWords, stepLabel } from "../../shared/draw/signal-words.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import { controlInWords, lossInWords, setsInWords, stateSentences } from "../../shared/draw/words.ts";
import type { AgainstPictures } from "../../shared/protocol/against.ts";
import type { ControlsAt, PanelModel, SwitchesPicture } from "../../shared/protocol/panel.ts";
import type { SignalPicture } from "../../shared/protocol/signal.ts";
import { enrichControls } from "./control-gestures.ts";
import { type DialHold, noteScrolling } from "./dial-gestures.ts";
import { ModesList } from "./modes-list.tsx";
import { ReadyList } from "./ready-list.tsx";
import { sceneView } from "./scene-view.tsx";
import { SignalLine } from "./signal-line.tsx";
import { useSignal, useSignalStep } from "./signal-state.ts";
import { SwitchesDifferences } from "./switches-against.tsx";
import { useWidth } from "./use-width.ts";

interface Props {
  readonly picture: SwitchesPicture;
  /** There while the signal is lost. */
  readonly signal: SignalPicture | undefined;
  readonly findings: PanelModel["findings"];
  readonly move: (positions: ControlsAt) => void;
  /** The other side of a comparison; null where nothing is compared. */
  readonly against: AgainstPictures | null;
}

/** A model comes within this time; until then positions that were set count, so that no key of a quick run is lost. */
const ANSWERED_WITHIN_MS = 600;

/** The whole view; while the signal is lost it plays what happens then. */
export function SwitchesView({ picture, signal, findings, move, against }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const [link, setLink] = useSignal(signal);
  const [mode, setMode] = useState<string | null>(null);
  useEffect(() => followFocus(frame.current), [picture]);
  useEffect(noteScrolling, []);
  const latest = useRef<{ readonly positions: ControlsAt; readonly sentAt: number } | null>(null);
  const hold = useRef<DialHold>({ drag: null, wheelPx: 0 });
  // Moving a control only has an effect with the link up.
  const moveControls = (positions: ControlsAt) => {
    if (link === "lost") setLink("up");
    latest.current = { positions, sentAt: performance.now() };
    move(positions);
  };
  const positionsNow = () => {
    const sent = latest.current;
    return sent && performance.now() - sent.sentAt < ANSWERED_WITHIN_MS ? sent.positions : picture.state.positions;
  };
  const toggleLink = () => setLink(link === "up" ? "lost" : "up");
  const [step, setStep] = useSignalStep(signal);
  useKeys({ l: toggleLink, Home: () => moveControls({}) });
  const { state, loss } = picture;
  const other = against?.switches ?? null;
  return (
    <>
      <div class="in-sight">
        <p class={`state ${link} armed-${state.armed ?? "never"}`} role="status">
          {link === "up" ? (
            <StateWords sentences={other ? statesInWords(state, other.state) : stateSentences(state)} />
          ) : (
            <StateWords
              sentences={[
                ...sentencesOf(signal ? signalStateInWords(signal, step) : lossInWords(loss)),
                ...(other ? [`There: ${lossInWords(other.loss)}`] : []),
              ]}
            />
          )}
        </p>
        {link === "up" && <ReadyList ready={picture.ready} positions={state.positions} move={moveControls} />}
      </div>
      <p class="buttons">
        <button type="button" onClick={() => moveControls({})} title="Home">
          Everything to rest
        </button>
        <button type="button" aria-pressed={link === "lost"} onClick={toggleLink} title="L">
          Signal lost
        </button>
      </p>
      {link === "lost" && signal && (
        <SignalLine picture={signal} at={step} choose={setStep} spoken={stepLabel(signal, step)} />
      )}
      <WitnessFindings findings={findings} move={moveControls} />
      <div class="frame" ref={frame}>
        {width > 0 &&
          sceneView(
            drawSwitches(picture, { width, words: "none", mode, against: other }),
            enrichControls(picture, other, { at: positionsNow, move: moveControls, hold: hold.current }),
          )}
      </div>
      <p class="quiet">
        {picture.handset && `${picture.handset}. `}
        {setsInWords(picture)} within reach.
        {picture.modes.some(({ name }) => name.startsWith("outputs.")) && " An arrow marks an output of the board."}
      </p>
      <p class="quiet legend">
        <span>
          <i class="swatch is" aria-hidden="true" /> on now
        </span>
        <span>
          <i class="swatch open" aria-hidden="true" /> on or off
        </span>
        <span>
          <i class="swatch can" aria-hidden="true" /> can be turned on there
        </span>
      </p>
      {against?.noSwitches && <p class="quiet">{against.noSwitches}</p>}
      {other && <SwitchesDifferences picture={picture} against={other} />}
      <ModesList picture={picture} link={link} mark={setMode} />
      <details>
        <summary>The switches as a list</summary>
        <ul class="list">
          {picture.controls.map((control) => (
            <li key={control.name}>
              {controlInWords(control)}
              <ul>
                {toldOfControl(control, state).map((way) => (
                  <li key={way}>{way}</li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}

/** The first sentence, that the signal is lost, and the rest. */
function sentencesOf(text: string): readonly string[] {
  return text.split(/(?<=^Signal lost\.) /);
}

/** What comes first, whether it is armed or that the signal is lost, stands out from the rest. */
function StateWords({ sentences: [armed = "", ...others] }: { readonly sentences: readonly string[] }) {
  // A reason behind a colon is as plain as the rest.
  const [said, ...reason] = armed.split(/(?<=:) /);
  return (
    <>
      <b>{said}</b> {[...reason, ...others].join(" ")}
    </>
  );
}

/** Findings with positions that show them; hints are collapsed, and so are all findings where there are many. */
function WitnessFindings({ findings, move }: { findings: PanelModel["findings"]; move: Props["move"] }) {
  const shown = findings.flatMap((finding) => (finding.witness ? [{ ...finding, witness: finding.witness }] : []));
  const severe = shown.filter(({ severity }) => severity === "error" || severity === "warning");
  const open = severe.length <= 2 ? severe : [];
  const folded = shown.filter((finding) => !open.includes(finding));
  const line = ({ code, severity, message, witness }: (typeof shown)[number]) => (
    <p class={`finding ${severity}`} key={`${code} ${message}`}>
      {message}{" "}
      <button type="button" onClick={() => move(witness)}>
        Show it
      </button>
    </p>
  );
  return (
    <>
      {open.map(line)}
      {folded.length > 0 && (
        <details>
          <summary>
            {folded.length === 1 ? "One finding" : `${folded.length} findings`} that the switches can show
          </summary>
          {folded.map(line)}
        </details>
      )}
    </>
  );
}

/** Keys of the whole view, unless the focused element has handled them. */
function useKeys(keys: Readonly<Record<string, () => void>>): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      const act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
      const elsewhere = event.target instanceof Element && event.target.closest("select, [role=tab]");
      if (!act || elsewhere || event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      act();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  });
}

/** Moves the focus to the position that is now set, where it was on another one of the same control. */
function followFocus(frame: HTMLDivElement | null): void {
  const focused = document.activeElement;
  if (!frame?.contains(focused) || focused?.getAttribute("aria-checked") !== "false") return;
  focused.parentElement?.querySelector<SVGElement>('[aria-checked="true"]')?.focus();
}
