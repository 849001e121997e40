/** The motors from above: dragged or keyed to another corner, turned the other way, and led from to their lines. */
import { useContext, useEffect, useMemo, useRef, useState } from "preact/hooks";
import { motorsScene } from "../../shared/draw/motors.ts";
import { motorsLayout, withMoved } from "../../shared/draw/motors-layout.ts";
import { motorInWords, motorsTable, turningNotes } from "../../shared/draw/motors-words.ts";
import type { MotorGesture } from "../../shared/protocol/motor-edit.ts";
import type { MotorsPicture, PlacedMotor } from "../../shared/protocol/motors.ts";
import { ExplainButton } from "./explain-button.tsx";
import { postToHost } from "./host.ts";
import { CursorLine } from "./line-links.tsx";
import { ChosenMotor } from "./motor-tools.tsx";
import { gestureForKey, type Held, useMotorDrag } from "./motors-drag.ts";
import { sceneView } from "./scene-view.tsx";
import { TextTable } from "./text-table.tsx";
import { useUndoKeys } from "./undo-keys.ts";
import { drawnWidth } from "./use-width.ts";

interface Props {
  readonly picture: MotorsPicture;
  readonly file: string;
  readonly width: number;
  /** What is drawn of the past, or beside another craft, stays as it was. */
  readonly stands: "now" | "as it was";
}

/** More room makes it no clearer. */
const MOST_WIDTH = 420;
/** As long as the script may take to say what was done here; after that it is drawn as the script has it. */
const PENDING_MS = 1500;

export function Motors({ picture, file, width, stands }: Props) {
  const cursor = useContext(CursorLine);
  const [chosen, choose] = useState<number | null>(null);
  const [held, hold] = useState<Held | null>(null);
  const { shown, status, make } = usePending(picture, file);
  const drawn = Math.min(drawnWidth(width), MOST_WIDTH);
  const layout = useMemo(() => motorsLayout(shown, drawn), [shown, drawn]);
  const scene = useMemo(() => motorsScene(shown, { width: drawn, ...(held && { held }) }), [shown, drawn, held]);
  const show = ({ at }: PlacedMotor) => at && postToHost({ kind: "select", at });
  const frame = useRef<HTMLDivElement>(null);
  useUndoKeys();
  useMotorDrag(frame, { layout, hold, choose, show, make, isOff: stands !== "now" });
  useEffect(() => {
    const atCursor = picture.motors.find(({ at }) => at && at.file === cursor?.file && at.line === cursor.line);
    if (atCursor) choose(atCursor.number);
  }, [cursor]);

  const onKeyDown = (motor: PlacedMotor) => (event: KeyboardEvent) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const isPress = event.key === "Enter" || event.key === " ";
    const gesture = isPress || stands !== "now" ? null : gestureForKey(layout, motor, event.key);
    if (gesture === undefined) return;
    event.preventDefault();
    if (isPress) show(motor);
    else if (gesture) make(gesture);
  };
  const faults = [...new Set([...picture.faults, ...picture.motors.flatMap((motor) => motor.faults)])];
  const chosenMotor = shown.motors.find(({ number }) => number === chosen);
  return (
    <section class="motors-view">
      <div class="heading">
        <h2>Motors from above</h2>
        <ExplainButton of="setting/motors.motor1" name="motor1" />
      </div>
      <div ref={frame} class={held ? "motors-frame holding" : "motors-frame"} style={{ maxWidth: `${drawn}px` }}>
        {sceneView(scene, ({ attributes }) => {
          const motor = shown.motors.find(({ number }) => number === attributes["data-motor"]);
          if (!motor) return undefined;
          const isMarked = motor.at?.file === cursor?.file && motor.at?.line === cursor?.line && motor.at !== null;
          return {
            role: "button",
            tabindex: 0,
            "aria-label": motorInWords(motor),
            "aria-describedby": "motor-keys",
            "data-marked": isMarked || undefined,
            "data-chosen": motor.number === chosen || undefined,
            onKeyDown: onKeyDown(motor),
            onFocus: () => choose(motor.number),
          };
        })}
      </div>
      <p class="unseen" id="motor-keys">
        Arrow keys take a motor to the next corner; one that stands there changes places with it. Page Up and Page Down
        go to the upper and the lower motor of an arm, R turns it the other way, Enter shows its line.
      </p>
      <p class="unseen" role="status">
        {status}
      </p>
      {stands === "now" && <ChosenMotor picture={shown} chosen={chosenMotor ?? null} make={make} show={show} />}
      {faults.map((fault) => (
        <p class="warning" key={fault}>
          {fault}
        </p>
      ))}
      {turningNotes(picture).map((note) => (
        <p class="quiet" key={note}>
          {note}
        </p>
      ))}
      {picture.unknown.length > 0 && (
        <ul class="list quiet">
          {picture.unknown.map((each) => (
            <li key={each}>{each}</li>
          ))}
        </ul>
      )}
      <TextTable name="Motors" {...motorsTable(picture)} />
    </section>
  );
}

/** What was done here is drawn at once, and taken back where the script does not come to say it. */
function usePending(picture: MotorsPicture, file: string) {
  const [pending, setPending] = useState<Extract<MotorGesture, { kind: "place" }> | null>(null);
  const [status, setStatus] = useState("");
  const told = useRef<number | null>(null);
  const shown = useMemo(
    () => (pending ? withMoved(picture, pending.motor, pending.place) : picture),
    [picture, pending],
  );
  useEffect(() => {
    if (!pending) return undefined;
    const timer = setTimeout(() => setPending(null), PENDING_MS);
    return () => clearTimeout(timer);
  }, [pending]);
  useEffect(() => {
    const isSaid = picture.motors.some(({ number, place }) => number === pending?.motor && place === pending.place);
    if (isSaid) setPending(null);
    const motor = picture.motors.find(({ number }) => number === told.current);
    if (!motor) return;
    told.current = null;
    setStatus(`${motorInWords(motor)}.`);
  }, [picture]);
  const make = (gesture: MotorGesture) => {
    told.current = gesture.motor;
    if (gesture.kind === "place") setPending(gesture);
    postToHost({ kind: "motor", file, gesture });
  };
  return { shown, status, make };
}
