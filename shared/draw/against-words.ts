/** What differs between here and there, in words: “here” is the craft that is drawn, “there” the other side. */
import type {
  AgainstPictures,
  ControlAgainst,
  ElementMark,
  GogglesAgainst,
  PlaceChange,
  SwitchesAgainst,
} from "../protocol/against.ts";
import { type Grid, sameGrid } from "../protocol/osd.ts";
import type { GogglesPicture, PanelElement, SwitchesState } from "../protocol/panel.ts";
import { joinWithAnd } from "../text/list.ts";
import { adjustSentences } from "./adjust-words.ts";
import { differingElements } from "./differing.ts";
import { capital, channelSentences, shortName, standsInWords } from "./words.ts";

/** What is compared, as in “Saucer, craft/saucer.fettle”. */
export function otherInWords({ name, from }: Pick<AgainstPictures, "name" | "from">): string {
  return from === "" ? name : `${name}, ${from}`;
}

/** An element that is not in the same place, as in “pack-volts: there 2 columns to the left, at left+1, bottom”. */
export function markInWords(
  mark: ElementMark,
  here: PanelElement | undefined,
  there: PanelElement | undefined,
  grids: readonly [Grid, Grid],
): string {
  return `${mark.name}: ${differsInWords(mark, here, there, grids)}`;
}

/** How an element differs, without its name. */
export function differsInWords(
  mark: ElementMark,
  here: PanelElement | undefined,
  there: PanelElement | undefined,
  [hereGrid, thereGrid]: readonly [Grid, Grid],
): string {
  if (here && there) {
    const by = sameGrid(hereGrid, thereGrid) ? movedInWords(here, there) : null;
    return `${by === null ? "moved" : `there ${by}`}, from ${here.placed} to ${there.placed}`;
  }
  if (here)
    return mark.there === "said"
      ? `here at ${here.placed}; there its line gives it no cell`
      : `only here, at ${here.placed}`;
  if (there)
    return mark.here === "said" ? `there at ${there.placed}; here it has no cell` : `only there, at ${there.placed}`;
  if (mark.there === "nothing") return "only here, where its line gives it no cell";
  if (mark.here === "nothing") return "only there, where its line gives it no cell";
  return "its line is another one, and gives it no cell on either side";
}

/** As in “3 columns to the right and 1 row up”; null where only its size differs. */
function movedInWords(here: PanelElement, there: PanelElement): string | null {
  const [across, down] = [there.column - here.column, there.row - here.row];
  const parts = [
    ...(across === 0 ? [] : [`${counted(across, "column")} to the ${across > 0 ? "right" : "left"}`]),
    ...(down === 0 ? [] : [`${counted(down, "row")} ${down > 0 ? "down" : "up"}`]),
  ];
  return parts.length === 0 ? null : parts.join(" and ");
}

function counted(by: number, what: string): string {
  const count = Math.abs(by);
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

/** What differs between two pictures, a line each; that nothing does where nothing does. */
export function gogglesAgainstInWords(here: GogglesPicture, against: GogglesAgainst): string[] {
  const differing = differingElements(here, against);
  if (differing.length === 0) return ["Every element is in the same place there", ...against.notes];
  return [
    ...differing.map(({ mark, here: own, there }) => markInWords(mark, own, there, [here, against.picture])),
    ...against.notes,
  ];
}

/** What differs between the switches, a line each. */
export function switchesAgainstInWords(against: SwitchesAgainst): string[] {
  const { controls, modes, notes } = against;
  const lines = [
    ...controls.flatMap((control) => controlAgainstInWords(control).map((line) => `${control.name}: ${line}`)),
    ...modes.map(({ words }) => words),
  ];
  return [...(lines.length === 0 ? ["Every position turns on the same there"] : lines), ...notes];
}

/** What differs of a control, a line for each position, part of its range, and other difference. */
export function controlAgainstInWords({ has, there, positions, spans, notes }: ControlAgainst): string[] {
  return [
    ...(has === "both"
      ? []
      : [has === "only there" && there ? `only there, ${there.kind} on channel ${there.channel}` : has]),
    ...positions.map((change) => `${change.name} ${changeInWords(change)}`),
    ...spans.map((change) => `${change.fromUs} to ${change.toUs} us ${changeInWords(change)}`),
    ...notes,
  ];
}

/** The states of both with the controls in the same positions; the first sentence says on which side it is armed. */
export function statesInWords(here: SwitchesState, there: SwitchesState): string[] {
  const names = [...new Set([...namesIn(here), ...namesIn(there)])].filter((name) => name !== "arm");
  const groups = new Map<string, string[]>();
  for (const name of names) {
    const stands = standsOnBoth(standsInWords(name, here), standsInWords(name, there));
    if (stands !== null) groups.set(stands, [...(groups.get(stands) ?? []), shortName(name)]);
  }
  const on = [...groups].map(([stands, of]) => `${capital(joinWithAnd(of))} ${stands}.`);
  const [follows, followsThere] = [adjustSentences(here), adjustSentences(there)];
  return [
    armedOnBoth(here.armed ?? "never", there.armed ?? "never"),
    ...(on.length > 0 ? on : ["Nothing else on, on either side."]),
    ...follows,
    ...(follows.join() === followsThere.join()
      ? []
      : [`There: ${followsThere.length > 0 ? followsThere.join(" ") : "no setting follows a dial."}`]),
    ...channelSentences(here),
  ];
}

function namesIn({ on, possible, unknown }: SwitchesState): string[] {
  return [...on.map(({ name }) => name), ...possible.map(({ name }) => name), ...unknown];
}

type Stands = ReturnType<typeof standsInWords>;

/** How a mode stands on both sides; null where it is off on both. */
function standsOnBoth(here: Stands, there: Stands): string | null {
  if (here === there) return here === "off" ? null : `${here}, on both sides`;
  if (here === "on" && there === "off") return "on here only";
  if (here === "off" && there === "on") return "on there only";
  return `${here} here, ${there} there`;
}

type Armed = NonNullable<SwitchesState["armed"]> | "never";

function armedOn(side: "here" | "there", armed: Armed): string {
  const words = { yes: "armed", no: "not armed", depends: "armed or not", unknown: "not known" } as const;
  return armed === "never" ? `${side} nothing arms it` : `${words[armed]} ${side}`;
}

const ARMED_ON_BOTH = {
  yes: "Armed on both sides.",
  no: "Armed on neither side.",
  depends: "Armed or not, on both sides.",
  unknown: "Whether it is armed is known on neither side.",
  never: "Nothing arms it on either side.",
} as const;

function armedOnBoth(here: Armed, there: Armed): string {
  return here === there ? ARMED_ON_BOTH[here] : `${capital(armedOn("here", here))}, ${armedOn("there", there)}.`;
}

/** What a place of a control does otherwise, as in “turns on level there only”. */
export function changeInWords({ added, gone, otherwise }: PlaceChange): string {
  const named = (names: readonly string[]) => joinWithAnd(names.map(shortName));
  return [
    ...(added.length > 0 ? [`turns on ${named(added)} there only`] : []),
    ...(gone.length > 0 ? [`turns on ${named(gone)} here only`] : []),
    ...(otherwise.length > 0 ? [`turns on ${named(otherwise)} there with other positions`] : []),
  ].join("; ");
}
