/** What a control does, in words: what each of its places can turn on and what is on now, and the settings that follow it. */
import type { ControlsAt, PanelControl, SwitchesState } from "../protocol/panel.ts";
import { joinWithAnd } from "../text/list.ts";
import { adjustInWords, adjustsBy } from "./adjust-words.ts";
import { inSpan, shortName } from "./words.ts";

/** The modes of a place, by what they are with the controls as they stand. */
export interface ModesHere {
  /** On now, with the control here. */
  readonly on: readonly string[];
  /** On or off, depending on what is not set. */
  readonly open: readonly string[];
  /** Off now, or the control is elsewhere: the place can turn them on. */
  readonly can: readonly string[];
}

/** Sorts the modes of a place; only where the control stands is a mode of it on. */
export function modesHere(
  modes: readonly string[],
  stands: "here" | "elsewhere",
  { on, possible }: Pick<SwitchesState, "on" | "possible">,
): ModesHere {
  const isIn = (list: SwitchesState["on"], mode: string) => stands === "here" && list.some(({ name }) => name === mode);
  return {
    on: modes.filter((mode) => isIn(on, mode)),
    open: modes.filter((mode) => isIn(possible, mode)),
    can: modes.filter((mode) => !isIn(on, mode) && !isIn(possible, mode)),
  };
}

/** Whether anything depends on a control: `unknown` where it may, as a line that is not understood may name it. */
export function useOf(control: PanelControl, state: SwitchesState): "used" | "unused" | "unknown" {
  const { moving, idle, faulty } = state.adjusts;
  const places = [...control.positions, ...control.spans];
  const isUsed =
    places.some(({ modes }) => modes.length > 0) || [...moving, ...idle].some((each) => each.control === control.name);
  if (isUsed) return "used";
  return state.unknown.length > 0 || faulty.length > 0 ? "unknown" : "unused";
}

/** That nothing depends on a control, in words. */
const UNUSED_IN_WORDS = {
  unused: "nothing in this craft depends on it",
  unknown: "nothing that is known depends on it",
} as const;

/** The position or pulse of a control is at this position, or in this part of a dial's range. */
export function standsAt(
  control: PanelControl,
  place: { readonly name: string } | { readonly fromUs: number; readonly toUs: number },
  positions: ControlsAt,
): "here" | "elsewhere" {
  const at = positions[control.name];
  const isHere = "name" in place ? at === place.name : typeof at === "number" && inSpan(at, place);
  return isHere ? "here" : "elsewhere";
}

/** What a place does, as in “arm on now; can turn on recorder”. */
export function doesInWords(
  control: PanelControl,
  modes: readonly string[],
  stands: "here" | "elsewhere",
  state: SwitchesState,
): string {
  const { on, open, can } = modesHere(modes, stands, state);
  const named = (names: readonly string[]) => joinWithAnd(names.map(shortName));
  const parts = [
    ...(on.length > 0 ? [`${named(on)} on now`] : []),
    ...(open.length > 0 ? [`${named(open)} on or off`] : []),
    ...(can.length > 0 ? [`can turn on ${named(can)}`] : []),
  ];
  return parts.length > 0 ? parts.join("; ") : nothingInWords(control, state);
}

function nothingInWords({ name }: PanelControl, state: SwitchesState): string {
  if (state.unknown.length > 0) return "turns on nothing that is known";
  return adjustsBy(name, state).length > 0 ? "turns no mode on" : "turns nothing on";
}

/** Everything that is known of a control, a line each: its places, then the settings that follow it. */
export function toldOfControl(control: PanelControl, state: SwitchesState): string[] {
  const { before, after } = notesOfControl(control, state);
  return [...before, ...placesInWords(control, state), ...adjustsBy(control.name, state).map(adjustInWords), ...after];
}

/** What has to be said of a control besides what its places do, before it and after it. */
export function notesOfControl(
  control: PanelControl,
  state: SwitchesState,
): { readonly before: readonly string[]; readonly after: readonly string[] } {
  const use = useOf(control, state);
  if (use !== "used") return { before: [], after: [UNUSED_IN_WORDS[use]] };
  const reversed = reversedInWords(control);
  const idle = state.adjusts.idle.filter((each) => each.control === control.name);
  return {
    before: reversed === null ? [] : [reversed],
    after: idle.map(
      ({ setting, kind }) => `${setting} does not follow it: only a dial moves a setting, and this is a ${kind}`,
    ),
  };
}

/** That a dial's range falls, in words; null where it rises, and for other controls. */
function reversedInWords({ spans }: PanelControl): string | null {
  const [first, last] = [spans[0], spans.at(-1)];
  return first && last && first.fromUs > last.toUs ? `reversed: ${first.fromUs} us at its first stop` : null;
}

/** What each place turns on; none where no place of the control turns anything on. */
function placesInWords(control: PanelControl, state: SwitchesState): string[] {
  const { positions, spans, rest } = control;
  if ([...positions, ...spans].every(({ modes }) => modes.length === 0)) return [];
  const here = (stands: "here" | "elsewhere") => (stands === "here" ? ", here now" : "");
  return [
    ...positions.map((place) => {
      const stands = standsAt(control, place, state.positions);
      const does = doesInWords(control, place.modes, stands, state);
      const lost = place.lost ? `; ${lostInWords(control)}` : "";
      return `${place.name}${place.name === rest ? ", at rest" : ""}${here(stands)}: ${does}${lost}`;
    }),
    ...spans.map((span) => {
      const stands = standsAt(control, span, state.positions);
      return `${span.fromUs} to ${span.toUs} us${here(stands)}: ${doesInWords(control, span.modes, stands, state)}`;
    }),
  ];
}

function lostInWords({ channel }: PanelControl): string {
  return `arrives as one of its neighbours, as ch${channel} carries two levels`;
}
