/** What the page adds to the drawn controls: roles and labels, clicks, arrow keys. */
import { changeInWords } from "../../shared/draw/against-words.ts";
import { doesInWords, standsAt } from "../../shared/draw/control-words.ts";
import { controlInWords } from "../../shared/draw/words.ts";
import type { PlaceChange, SwitchesAgainst } from "../../shared/protocol/against.ts";
import type { ControlsAt, PanelControl, SwitchesPicture, SwitchesState } from "../../shared/protocol/panel.ts";
import { type DialHold, knobProps } from "./dial-gestures.ts";
import { postToHost } from "./host.ts";
import { type Enrich, pressable } from "./scene-view.tsx";

export interface Moves {
  /** The latest positions, also those of which no model has come yet. */
  readonly at: () => ControlsAt;
  /** Takes the positions of all controls, an empty object for rest. */
  readonly move: (positions: ControlsAt) => void;
  readonly hold: DialHold;
}

/** The gestures of every control. */
export function enrichControls(
  { controls, state }: SwitchesPicture,
  against: SwitchesAgainst | null,
  moves: Moves,
): Enrich {
  const { at, move, hold } = moves;
  const set = (name: string, value: string | number) => move({ ...at(), [name]: value });
  return ({ attributes }) => {
    if (attributes.class === "switches") return { role: "group", "aria-label": "Controls of the handset" };
    if ("data-place" in attributes) return { role: "group", "aria-label": String(attributes["data-place"]) };
    const name = attributes["data-head"] ?? attributes["data-ways"] ?? attributes["data-control"];
    const control = controls.find((one) => one.name === name);
    if (!control) return undefined;
    if ("data-head" in attributes) return headProps(control);
    if ("data-ways" in attributes)
      return { role: control.kind === "dial" ? "group" : "radiogroup", "aria-label": controlInWords(control) };
    if ("data-knob" in attributes) return knobProps(control, state, at, move, hold);
    const value = attributes["data-set"];
    if (value === undefined) return undefined;
    const onClick = () => set(control.name, value);
    if (control.kind === "dial") return { onClick };
    const other = against?.controls.find((one) => one.name === control.name);
    const change = other?.positions.find((position) => position.name === value);
    return { onClick, ...positionProps(control, String(value), state, moves, change) };
  };
}

function headProps(control: PanelControl): Readonly<Record<string, unknown>> {
  const link = pressable(() => postToHost({ kind: "select", at: control.at }));
  return { ...link, "aria-label": `${controlInWords(control)}: show its line` };
}

function positionProps(
  control: PanelControl,
  name: string,
  state: SwitchesState,
  { at, move }: Moves,
  change: PlaceChange | undefined,
): Readonly<Record<string, unknown>> {
  const names = control.positions.map((position) => position.name);
  const checked = state.positions[control.name] === name;
  const noneChecked = !names.includes(String(state.positions[control.name]));
  const modes = control.positions.find((position) => position.name === name)?.modes ?? [];
  const stands = standsAt(control, { name }, state.positions);
  const set = (to: string) => move({ ...at(), [control.name]: to });
  const step = (by: number) => {
    // Counted from the latest position: with a key held down, the model comes after the next press.
    const current = names.indexOf(String(at()[control.name] ?? name));
    const next = names[(current + by + names.length) % names.length];
    if (next !== undefined) set(next);
  };
  return {
    role: "radio",
    "aria-checked": checked,
    "aria-label": `${name}: ${doesInWords(control, modes, stands, state)}${change ? `; ${changeInWords(change)}` : ""}`,
    tabindex: checked || (noneChecked && names[0] === name) ? 0 : -1,
    onKeyDown: onKeys({
      ArrowUp: () => step(-1),
      ArrowLeft: () => step(-1),
      ArrowDown: () => step(1),
      ArrowRight: () => step(1),
      Enter: () => postToHost({ kind: "select", at: control.at }),
      " ": () => set(name),
      Home: () => move({}),
    }),
  };
}

function onKeys(keys: Readonly<Record<string, () => void>>): (event: KeyboardEvent) => void {
  return (event) => {
    const act = keys[event.key];
    if (!act || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    act();
  };
}
