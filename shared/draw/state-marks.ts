/** The lines of the script behind the state that the switches show, each with why its mode is on. */
import type { LinePlace, SwitchesPicture } from "../protocol/panel.ts";
import { joinWithAnd } from "../text/list.ts";
import { standsAt } from "./control-words.ts";
import { shortName } from "./words.ts";

export interface StateMark {
  readonly at: LinePlace;
  /** As in “on: arm, as TL is down in the panel”. */
  readonly words: string;
}

/** A mark for each line of a mode that is on; none at rest, since nobody has moved a control. */
export function stateMarks({ state, controls }: SwitchesPicture): StateMark[] {
  if (state.atRest) return [];
  return state.on.flatMap(({ name, lines }) => {
    const places = controls.flatMap((control) => {
      const here = [...control.positions, ...control.spans].find(
        (place) => standsAt(control, place, state.positions) === "here",
      );
      if (!here?.modes.includes(name)) return [];
      const at = state.positions[control.name];
      return [`${control.name} is ${typeof at === "number" ? `at ${at} us` : at}`];
    });
    const why = places.length > 0 ? `as ${joinWithAnd(places)} in the panel` : "wherever the panel's controls are";
    return lines.map((at) => ({ at, words: `on: ${shortName(name)}, ${why}` }));
  });
}
