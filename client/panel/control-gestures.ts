/** What the page adds to the drawn controls: roles and labels, clicks, arrow keys. */
import { controlInWords, dialPulseUs, dialRangeUs, inSpan, modesInWords } from "../../shared/draw/words.ts";
import type { ControlsAt, PanelControl, SwitchesPicture } from "../../shared/protocol/panel.ts";
import { postToHost } from "./host.ts";
import { type Enrich, pressable } from "./scene-view.tsx";

type MoveControls = (positions: ControlsAt) => void;

/** The gestures of every control. `move` gets the positions of all controls, an empty object for rest. */
export function enrichControls(picture: SwitchesPicture, move: MoveControls): Enrich {
  const { positions } = picture.state;
  const set = (name: string, value: string | number) => move({ ...positions, [name]: value });
  return ({ attributes }) => {
    if (attributes.class === "switches") return { role: "group", "aria-label": "Controls of the handset" };
    if ("data-place" in attributes) return { role: "group", "aria-label": String(attributes["data-place"]) };
    const name = attributes["data-head"] ?? attributes["data-ways"] ?? attributes["data-control"];
    const control = picture.controls.find((one) => one.name === name);
    if (!control) return undefined;
    if ("data-head" in attributes) return headProps(control);
    if ("data-ways" in attributes)
      return { role: control.kind === "dial" ? "group" : "radiogroup", "aria-label": controlInWords(control) };
    if ("data-knob" in attributes) return knobProps(control, positions, set, move);
    const value = attributes["data-set"];
    if (value === undefined) return undefined;
    const onClick = () => set(control.name, value);
    return control.kind === "dial"
      ? { onClick }
      : { onClick, ...positionProps(control, String(value), positions, set, move) };
  };
}

function headProps(control: PanelControl): Readonly<Record<string, unknown>> {
  const link = pressable(() => postToHost({ kind: "select", at: control.at }));
  return { ...link, "aria-label": `${controlInWords(control)}: show its line` };
}

function positionProps(
  control: PanelControl,
  name: string,
  positions: ControlsAt,
  set: (control: string, value: string | number) => void,
  move: MoveControls,
): Readonly<Record<string, unknown>> {
  const names = control.positions.map((position) => position.name);
  const checked = positions[control.name] === name;
  const noneChecked = !names.includes(String(positions[control.name]));
  const modes = control.positions.find((position) => position.name === name)?.modes ?? [];
  const step = (by: number) => {
    const next = names[(names.indexOf(name) + by + names.length) % names.length];
    if (next !== undefined) set(control.name, next);
  };
  return {
    role: "radio",
    "aria-checked": checked,
    "aria-label": `${name}: ${modesInWords(modes)}`,
    tabindex: checked || (noneChecked && names[0] === name) ? 0 : -1,
    onKeyDown: onKeys({
      ArrowUp: () => step(-1),
      ArrowLeft: () => step(-1),
      ArrowDown: () => step(1),
      ArrowRight: () => step(1),
      Enter: () => postToHost({ kind: "select", at: control.at }),
      " ": () => set(control.name, name),
      Home: () => move({}),
    }),
  };
}

/** How far an arrow key turns a dial, as a share of its range (0 to 1). */
const DIAL_STEP = 0.02;
const TURN_DEG = 270;

function knobProps(
  control: PanelControl,
  positions: ControlsAt,
  set: (control: string, value: string | number) => void,
  move: MoveControls,
): Readonly<Record<string, unknown>> | undefined {
  const range = dialRangeUs(control);
  if (!range) return undefined;
  const { fromUs, toUs } = range;
  const pulseUs = dialPulseUs(control, positions);
  const turnTo = (us: number) => set(control.name, Math.round(Math.min(toUs, Math.max(fromUs, us))));
  const stepUs = Math.max(1, (toUs - fromUs) * DIAL_STEP);
  const current = control.spans.findIndex((span) => inSpan(pulseUs, span));
  // A reversed dial lists its spans from high to low; Page Up raises the pulse all the same.
  const up = control.spans[0]!.fromUs === toUs && control.spans.length > 1 ? -1 : 1;
  const toSpan = (index: number) => {
    const span = control.spans[index];
    if (span) turnTo((span.fromUs + span.toUs) / 2);
  };
  const valueText = control.name in positions ? `${pulseUs} us` : `not set, shown at ${pulseUs} us`;
  return {
    role: "slider",
    tabindex: 0,
    "aria-label": controlInWords(control),
    "aria-orientation": "vertical",
    "aria-valuemin": fromUs,
    "aria-valuemax": toUs,
    "aria-valuenow": pulseUs,
    "aria-valuetext": `${valueText}: ${modesInWords(control.spans[current]?.modes ?? [])}`,
    onClick: (event: MouseEvent) => turnTo(fromUs + knobShareAt(event) * (toUs - fromUs)),
    onKeyDown: onKeys({
      ArrowUp: () => turnTo(pulseUs + stepUs),
      ArrowRight: () => turnTo(pulseUs + stepUs),
      ArrowDown: () => turnTo(pulseUs - stepUs),
      ArrowLeft: () => turnTo(pulseUs - stepUs),
      PageUp: () => toSpan(current + up),
      PageDown: () => toSpan(current - up),
      Enter: () => postToHost({ kind: "select", at: control.at }),
      Home: () => move({}),
    }),
  };
}

/** Where around the knob a click was made, from 0 at the dial's low stop to 1 at its high stop. */
function knobShareAt(event: MouseEvent): number {
  const circle = (event.currentTarget as Element).querySelector("circle")?.getBoundingClientRect();
  if (!circle) return 0;
  const [x, y] = [event.clientX - circle.x - circle.width / 2, event.clientY - circle.y - circle.height / 2];
  const deg = (Math.atan2(x, -y) * 180) / Math.PI;
  return Math.min(1, Math.max(0, (deg + TURN_DEG / 2) / TURN_DEG));
}

function onKeys(keys: Readonly<Record<string, () => void>>): (event: KeyboardEvent) => void {
  return (event) => {
    const act = keys[event.key];
    if (!act || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    act();
  };
}
