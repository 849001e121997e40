/** What differs between a control here and there, besides what its positions turn on: in phrases. */
import { adjustsBy } from "../../draw/adjust-words.ts";
import { dialRangeUs } from "../../draw/words.ts";
import type { PanelAdjust } from "../../protocol/adjust.ts";
import type { PanelControl, SwitchesState } from "../../protocol/panel.ts";
import { joinWithAnd } from "../../text/list.ts";
import { placeInWords } from "../../text/places.ts";

interface ControlOf {
  readonly control: PanelControl;
  readonly state: SwitchesState;
}

/** A phrase for each difference, as in “there on channel 7, here on channel 5”. */
export function controlNotes(here: ControlOf, there: ControlOf): string[] {
  const [a, b] = [here.control, there.control];
  return [
    ...differing(a, b, ({ kind }) => `a ${kind}`),
    ...differing(a, b, ({ channel }) => `on channel ${channel}`),
    ...differing(a, b, rangeInWords, "it goes "),
    ...pulseNotes(a, b),
    ...positionNotes(a, b),
    ...differing(a, b, restInWords, "it rests "),
    ...differing(a, b, ({ lies }) => (lies ? placeInWords(lies) : "nothing says where it lies")),
    ...adjustNotes(adjustsBy(a.name, here.state), adjustsBy(b.name, there.state)),
  ];
}

function differing(
  here: PanelControl,
  there: PanelControl,
  inWords: (control: PanelControl) => string | null,
  does = "",
): string[] {
  const [a, b] = [inWords(here), inWords(there)];
  return a === b || a === null || b === null ? [] : [`there ${does}${b}, here ${a}`];
}

function rangeInWords(control: PanelControl): string | null {
  const range = dialRangeUs(control);
  if (!range) return null;
  const isFalling = control.spans.some(({ fromUs, toUs }) => fromUs > toUs);
  const ends = isFalling ? [range.toUs, range.fromUs] : [range.fromUs, range.toUs];
  return `from ${ends[0]} us to ${ends[1]} us`;
}

function restInWords({ positions, rest }: PanelControl): string | null {
  return positions.length === 0 || rest === null ? null : `at ${rest}`;
}

/** Positions of both that send other pulses. */
function pulseNotes(here: PanelControl, there: PanelControl): string[] {
  return here.positions.flatMap(({ name, pulseUs }) => {
    const other = there.positions.find((position) => position.name === name);
    return other && other.pulseUs !== pulseUs ? [`there ${name} sends ${other.pulseUs} us, here ${pulseUs} us`] : [];
  });
}

/** Positions of one side only; of those that are not drawn here also what they turn on. */
function positionNotes(here: PanelControl, there: PanelControl): string[] {
  const isIn = (control: PanelControl, name: string) => control.positions.some((position) => position.name === name);
  const gone = here.positions.filter(({ name }) => !isIn(there, name)).map(({ name }) => name);
  const added = there.positions.filter(({ name }) => !isIn(here, name));
  return [
    ...(gone.length === 0 ? [] : [`there without ${joinWithAnd(gone)}`]),
    ...added.map(({ name, pulseUs, modes }) => {
      const does = modes.length === 0 ? "" : `, which can turn on ${joinWithAnd(modes.map(shortOf))}`;
      return `there also ${name} at ${pulseUs} us${does}`;
    }),
  ];
}

function shortOf(mode: string): string {
  return mode.slice(mode.lastIndexOf(".") + 1);
}

/** Settings that follow the control on one side only, or from and to other values. */
function adjustNotes(here: readonly PanelAdjust[], there: readonly PanelAdjust[]): string[] {
  const settings = [...new Set([...here, ...there].map(({ setting }) => setting))];
  const said = (all: readonly PanelAdjust[], name: string) => {
    const found = all.find(({ setting }) => setting === name);
    return found ? `from ${found.from.text} to ${found.to.text}` : null;
  };
  return settings.flatMap((name) => {
    const [a, b] = [said(here, name), said(there, name)];
    if (a === b) return [];
    if (b === null) return [`here ${name} follows it, there not`];
    return [`there ${name} follows it ${b}, here ${a ?? "not"}`];
  });
}
