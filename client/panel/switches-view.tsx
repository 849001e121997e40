/** The switches: the handset's controls to be moved, and in words what comes of it. */
import { useEffect, useRef, useState } from "preact/hooks";
import { drawSwitches } from "../../shared/draw/switches.ts";
import { controlInWords, modesInWords, shortName, stateInWords } from "../../shared/draw/words.ts";
import type { ControlsAt, PanelControl, PanelModel, SwitchesPicture } from "../../shared/protocol/panel.ts";
import { enrichControls } from "./controls.ts";
import { tell } from "./host.ts";
import { sceneView } from "./scene-view.tsx";

interface Shown {
  readonly picture: SwitchesPicture;
  readonly findings: PanelModel["findings"];
  readonly move: (positions: ControlsAt) => void;
}

export function SwitchesView({ picture, findings, move }: Shown) {
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  useEffect(() => followFocus(frame.current), [picture]);
  const { state } = picture;
  const shown = findings.flatMap(({ code, message, witness }) => (witness ? [{ code, message, witness }] : []));
  return (
    <>
      <p class={`state armed-${state.armed ?? "never"}`} role="status">
        {stateInWords(state)}
      </p>
      <div class="frame" ref={frame}>
        {width > 0 && sceneView(drawSwitches(picture, { width, words: "none" }), enrichControls(picture, move))}
      </div>
      <p class="quiet">
        <button type="button" onClick={() => move({})} title="Home, on any control">
          Everything to rest
        </button>{" "}
        {picture.handset ? `${picture.handset}. ` : ""}
        {picture.states === 1 ? "One set of modes" : `${picture.states} different sets of modes`} within reach.
      </p>
      {shown.map(({ code, message, witness }) => (
        <p class="warning" key={`${code} ${message}`}>
          {message}{" "}
          <button type="button" onClick={() => move(witness)}>
            Show how
          </button>
        </p>
      ))}
      {state.on.length > 0 && <Modes title="On now" modes={state.on} />}
      {state.possible.length > 0 && <Modes title="On or off" modes={state.possible} />}
      <details>
        <summary>The switches as a list</summary>
        <ul class="list">
          {picture.controls.map((control) => (
            <li key={control.name}>
              {controlInWords(control)}
              <ul>
                {waysInWords(control).map((way) => (
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

function Modes({ title, modes }: { title: string; modes: SwitchesPicture["state"]["on"] }) {
  return (
    <section>
      <h2>{title}</h2>
      <ul class="list">
        {modes.map(({ name, what, lines: [line] }) => (
          <li key={name}>
            {line ? (
              <button type="button" class="link" onClick={() => tell({ kind: "select", at: line })}>
                {shortName(name)}
              </button>
            ) : (
              <b>{shortName(name)}</b>
            )}{" "}
            <span class="quiet">{what}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function waysInWords({ kind, positions, spans, rest }: PanelControl): string[] {
  if (kind === "dial") return spans.map((span) => `${span.fromUs} to ${span.toUs} us: ${modesInWords(span.modes)}`);
  return positions.map(({ name, modes }) => `${name}${name === rest ? ", at rest" : ""}: ${modesInWords(modes)}`);
}

function useWidth(frame: { current: HTMLDivElement | null }): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    if (!frame.current) return;
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(frame.current);
    return () => observer.disconnect();
  }, [frame]);
  return width;
}

/** The focus goes along when the position that had it is no longer the one that is set. */
function followFocus(frame: HTMLDivElement | null): void {
  const focused = document.activeElement;
  if (!frame?.contains(focused) || focused?.getAttribute("aria-checked") !== "false") return;
  focused.parentElement?.querySelector<SVGElement>('[aria-checked="true"]')?.focus();
}
