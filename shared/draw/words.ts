/** What the drawings show, in words: for readers who do not see them, and for the line above them. */
import type { Sharing } from "../protocol/goggles.ts";
import type {
  ControlsAt,
  FigureReading,
  LossPicture,
  OnLoss,
  PanelControl,
  PanelElement,
  PanelMode,
  SwitchesPicture,
  SwitchesState,
} from "../protocol/panel.ts";
import { joinWithAnd } from "../text/list.ts";
import { placeInWords } from "../text/places.ts";
import { adjustSentences } from "./adjust-words.ts";

/** An element in words: its name, reading, place and clashes; cells count from 0. */
export function elementInWords(element: PanelElement): string {
  const text = element.text.map((row) => row.trim()).filter((row) => row !== "");
  const figure = element.blank ? "nothing now" : element.figure ? figureInWords(element.figure) : text.join(" / ");
  const shown = figure === "" ? "" : ` shows ${figure}`;
  const clash = element.clashing.length > 0 ? `; ${cells(element.clashing.length)} shared or off the grid` : "";
  const faults = element.faults.map(({ message }) => `; ${message}`).join("");
  return `${element.name}${shown}, at ${element.placed} (column ${element.column}, row ${element.row})${clash}${faults}`;
}

/** Other craft in words: “Bowl and Cup”, “Bowl, Cup, Vase and 996 others”; empty where there is none. */
export function sharingInWords({ named, more }: Sharing): string {
  return joinWithAnd(more === 0 ? named : [...named, more === 1 ? "one other" : `${more} others`]);
}

/** What a figure shows, in words: “60 %”, “47 deg to the right”. */
export function figureInWords(figure: FigureReading): string {
  switch (figure.kind) {
    case "bar":
      return percent(figure.share);
    case "arrow":
      return sideways(((((figure.turnDeg + 180) % 360) + 360) % 360) - 180, "straight ahead");
    case "horizon": {
      const nose = Math.round(figure.pitchDeg);
      const pitch = nose === 0 ? "a level nose" : `the nose ${Math.abs(nose)} deg ${nose > 0 ? "up" : "down"}`;
      return `${pitch}, banked ${sideways(figure.rollDeg, "not at all")}`;
    }
    case "compass":
      return `${Math.round(figure.headingDeg)} deg`;
    case "scale":
      return `${Math.round(figure.value)} ${figure.unit}`;
    case "stick": {
      const [across, up] = [figure.across, figure.up];
      return `${percent(Math.abs(across))} ${across < 0 ? "left" : "right"}, ${percent(Math.abs(up))} ${up < 0 ? "down" : "up"}`;
    }
  }
}

function sideways(deg: number, none: string): string {
  const whole = Math.round(deg);
  return whole === 0 ? none : `${Math.abs(whole)} deg to the ${whole > 0 ? "right" : "left"}`;
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

function cells(count: number): string {
  return count === 1 ? "1 cell" : `${count} cells`;
}

/** The state of the craft in sentences, as in "Not armed. Level and recorder on." */
export function stateInWords(state: SwitchesState): string {
  return stateSentences(state).join(" ");
}

/** The same sentences one by one; the first says whether it is armed. */
export function stateSentences(state: SwitchesState): string[] {
  const others = state.on.map(({ name }) => shortName(name)).filter((name) => name !== "arm");
  const open = state.possible.map(({ name }) => shortName(name)).filter((name) => name !== "arm");
  const isTangled = (name: string) => state.tangled?.includes(name) === true;
  const named = (names: readonly string[]) => names.map(shortName).filter((name) => name !== "arm");
  const faulty = named(state.unknown.filter((name) => !isTangled(name)));
  const tangled = named(state.unknown.filter(isTangled));
  const unsure = open.length + faulty.length + tangled.length > 0;
  const whyUnknown = isTangled("arm") ? "tangled" : state.partMissing ? "missing" : "unknown";
  const armed = state.armed === "unknown" ? whyUnknown : (state.armed ?? "never");
  const sentences: string[] = [ARMED_IN_WORDS[armed]];
  if (others.length > 0) sentences.push(`${capital(joinWithAnd(others))} on.`);
  else sentences.push(`Nothing${state.armed === "yes" ? " else" : ""}${unsure ? " is surely" : ""} on.`);
  if (open.length > 0) sentences.push(`${capital(joinWithAnd(open))} on or off, as what is not set here decides.`);
  if (faulty.length > 0) sentences.push(`Not known, since a line behind it has a fault: ${joinWithAnd(faulty)}.`);
  if (tangled.length > 0) sentences.push(`Not known, too tangled to follow: ${joinWithAnd(tangled)}.`);
  return [...sentences, ...adjustSentences(state), ...channelSentences(state)];
}

/** With which pulses a state is meant: no control shows these channels, and the state depends on them. */
export function channelSentences({ positions }: Pick<SwitchesState, "positions">): string[] {
  const channels = Object.entries(positions).filter(([name]) => /^ch\d+$/.test(name));
  if (channels.length === 0) return [];
  return [`This is with ${joinWithAnd(channels.map(([name, us]) => `${name} at ${us} us`))}.`];
}

/** How many sets of modes the controls can reach; of modes that are not known nothing is counted. */
export function setsInWords({ states, state }: Pick<SwitchesPicture, "states" | "state">): string {
  const of = state.unknown.length > 0 ? "of the modes that are known" : "of modes";
  return states === 1 ? `One set ${of}` : `${states ?? "Countless"} different sets ${of}`;
}

const ARMED_IN_WORDS = {
  yes: "Armed.",
  no: "Not armed.",
  depends: "Armed or not, as what is not set here decides.",
  unknown: "Whether it is armed is not known: a line behind arm has a fault.",
  missing: "Whether it is armed is not known: a part of the craft is missing.",
  tangled: "Whether it is armed is not known: a condition is too tangled to follow.",
  never: "Nothing arms this craft.",
};

/** A mode's or an output's name without its section: `outputs.tail-lamp` is `tail-lamp`. */
export function shortName(name: string): string {
  return name.slice(name.lastIndexOf(".") + 1);
}

/** The short name in a drawing: an arrow marks an output of the board, as its name alone does not distinguish it from a mode. */
export function markedName(name: string): string {
  return name.startsWith("outputs.") ? `→ ${shortName(name)}` : name;
}

/** What the craft does when the signal is lost, in sentences. */
export function lossInWords({ receiver, armed, modes }: LossPicture): string {
  const of = (outcome: OnLoss) =>
    modes.filter(({ name, becomes }) => becomes === outcome && name !== "arm").map(({ name }) => shortName(name));
  const parts = [`Signal lost. ${RECEIVER_IN_WORDS[receiver ?? "unsaid"]}`];
  if (armed) parts.push(ARMED_ON_LOSS[armed]);
  const sentences = [
    [of("on"), "on"],
    [of("off"), "off"],
    [of("kept"), "as it was"],
    [of("either"), "on or off, as what is not said decides"],
  ] as const;
  for (const [names, outcome] of sentences) {
    if (names.length > 0)
      parts.push(
        `${capital(joinWithAnd(names))} ${outcome === "as it was" && names.length > 1 ? "as they were" : outcome}.`,
      );
  }
  return parts.join(" ");
}

const RECEIVER_IN_WORDS = {
  silent: "The receiver falls silent, and the failsafe decides.",
  hold: "The receiver holds its last values.",
  preset: "The receiver sends its presets.",
  unsaid: "The script does not say what the receiver does.",
};

const ARMED_ON_LOSS: Readonly<Record<OnLoss, string>> = {
  on: "Armed, whatever it was.",
  off: "Not armed.",
  kept: "Armed if it was.",
  either: "Armed or not.",
};

/** Whether a mode is on in a state, in words. */
export function standsInWords(
  name: string,
  { on, possible, unknown }: SwitchesState,
): "on" | "off" | "on or off" | "not known" {
  if (unknown.includes(name)) return "not known";
  if (on.some((mode) => mode.name === name)) return "on";
  return possible.some((mode) => mode.name === name) ? "on or off" : "off";
}

/** What the loss of the signal does to a mode in a state, as in “stays on”. */
export function becomesInWords(name: string, { modes }: LossPicture, state: SwitchesState): string {
  const becomes = modes.find((mode) => mode.name === name)?.becomes;
  if (becomes === "on" || becomes === "off") return becomes;
  const stands = standsInWords(name, state);
  if (becomes === "kept") return stands === "on or off" ? "stays as it was" : `stays ${stands}`;
  return becomes === "either" ? "on or off" : "not known";
}

/** Why nothing is known of a mode; `tangled` is the mode whose condition is too tangled to follow, if that is why. */
export function unknownInWords(name: string, tangled: string | undefined, missing = false): string {
  if (tangled === undefined)
    return missing ? "a part of the craft is missing, which may say it" : "a line behind it has a fault";
  if (tangled === name) return "its condition is too tangled to follow";
  return `it depends on ${shortName(tangled)}, which is too tangled to follow`;
}

/** What turns a mode on, as in “with TL down”. */
export function waysInWords({ name, ways, tangled }: PanelMode): string {
  if (ways === null) return unknownInWords(name, tangled);
  return ways.length === 0 ? "no position turns it on" : `with ${ways.join("; or ")}`;
}

/** Moves of controls in words: “TL to down and KN to 1500 us”. */
export function movesInWords(moves: readonly { readonly name: string; readonly to: string | number }[]): string {
  return joinWithAnd(moves.map(({ name, to }) => `${name} to ${typeof to === "number" ? `${to} us` : to}`));
}

/** A control in words: “TL, switch on channel 5, on the left shoulder”. */
export function controlInWords({ name, kind, channel, lies }: PanelControl): string {
  return `${name}, ${kind} on channel ${channel}${lies ? `, ${placeInWords(lies)}` : ""}`;
}

/** Where a control lies, as the script says it: “left shoulder”. */
export function whereInScript({ side, face }: NonNullable<PanelControl["lies"]>): string {
  return face === null ? side : `${side} ${face}`;
}

/** The whole range of a dial in us, lower end first; null for any other control. */
export function dialRangeUs(control: PanelControl): { fromUs: number; toUs: number } | null {
  if (control.kind !== "dial" || control.spans.length === 0) return null;
  const ends = control.spans.flatMap(({ fromUs, toUs }) => [fromUs, toUs]);
  return { fromUs: Math.min(...ends), toUs: Math.max(...ends) };
}

/** A dial's pulse in us: the one that is set, else the middle of its range. */
export function dialPulseUs(control: PanelControl, positions: ControlsAt): number {
  const set = positions[control.name];
  if (typeof set === "number") return set;
  const range = dialRangeUs(control);
  return range ? Math.round((range.fromUs + range.toUs) / 2) : 1500;
}

/** True if the pulse is in the range, both ends included. */
export function inSpan(pulseUs: number, span: { readonly fromUs: number; readonly toUs: number }): boolean {
  const [low, high] = [Math.min(span.fromUs, span.toUs), Math.max(span.fromUs, span.toUs)];
  return pulseUs >= low && pulseUs <= high;
}

/** Capitalises the first letter. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
