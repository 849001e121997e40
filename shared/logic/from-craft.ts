/** Reads the controls, conditions and link of an effective craft into the input of the logic. */
import type { ModeRelations } from "../catalogue/specs.ts";
import type { Craft, Setting } from "../model/craft.ts";
import { keptWhileSame } from "../model/listened-craft.ts";
import { type FromCore, perCore } from "../model/memo.ts";
import { settingOf } from "../model/setting-lookup.ts";
import { units } from "../model/units.ts";
import type { Workspace } from "../model/workspace.ts";
import { sameInput } from "./same-input.ts";
import { makeSwitchboard } from "./switchboard.ts";
import type {
  ConditionSpec,
  ControlSpec,
  LossSpec,
  PulseRange,
  Switchboard,
  SwitchInput,
} from "./switchboard-types.ts";

type Precedence = readonly ModeRelations["precedence"][number][];

const NO_PRECEDENCE: Precedence = [];
/** Default of `link.endpoints`; common practice, no source. */
const USUAL_ENDPOINTS_US: PulseRange = { fromUs: 1000, toUs: 2000 };

const boardOfCraft = keptWhileSame((craft: Craft, precedence: Precedence) =>
  boardFor(craft, craft.file, switchInputOf(craft, precedence)),
);
/** Remembered by itself: a comparison asks for it between two questions to the other. */
const plainBoardOfCraft = keptWhileSame((craft: Craft, _: Precedence) =>
  boardFor(craft, `${craft.file}\n`, switchInputOf(craft)),
);

/**
 * The switchboard of a craft. `precedence` is the catalogue's: which modes do nothing while another
 * is on; without it every mode that is selected acts. Cached by craft, and shared by craft with
 * equal input.
 */
export function switchboardOf(craft: Craft, precedence: Precedence = NO_PRECEDENCE): Switchboard {
  return precedence === NO_PRECEDENCE ? plainBoardOfCraft(craft, precedence) : boardOfCraft(craft, precedence);
}

/** The switchboard of a craft with its workspace's catalogue: the one that rules, editor and command line use. */
export function boardOf(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): Switchboard {
  return switchboardOf(craft, catalogue.modeRelations.precedence);
}

/** By the craft's file and what is asked of it, the board used last at the end. */
const recentBoards = perCore(() => new Map<string, Switchboard>());
/** Most boards that are kept for reuse. Each holds its diagrams, so only some craft edited at the same time are served. */
const MOST_RECENT = 8;

/** A recent board with the same input, or a new one. Most edits of a script do not concern switches. */
function boardFor(craft: FromCore, key: string, input: SwitchInput): Switchboard {
  const recent = recentBoards(craft);
  const isSame = (board: Switchboard | undefined) => board !== undefined && sameInput(board.input, input);
  const own = recent.get(key);
  // Craft that share their layers often have the same switches.
  const board = (isSame(own) ? own : [...recent.values()].find(isSame)) ?? makeSwitchboard(input);
  recent.delete(key);
  recent.set(key, board);
  if (recent.size > MOST_RECENT) recent.delete(recent.keys().next().value!);
  return board;
}

/** A craft's controls and conditions; controls whose line has a fault are given by name only. */
function switchInputOf(craft: Craft, precedence: Precedence = NO_PRECEDENCE): SwitchInput {
  const controls: ControlSpec[] = [];
  const faultyControls: string[] = [];
  for (const { name, value } of craft.controls.values()) {
    if (!value) faultyControls.push(name);
    else {
      const { control: kind, channel, positions, rest, fromUs, toUs } = value;
      const named = positions.map((position) => ({ name: position.name, pulseUs: position.pulseUs }));
      controls.push({ name, kind, channel, positions: named, rest, fromUs, toUs });
    }
  }
  const link = linkOf(craft);
  return {
    controls,
    faultyControls,
    handsetKnown: handsetKnown(craft),
    conditions: conditionsOf(craft),
    endpointsUs: link.endpointsUs,
    measuredUs: measuredSticks(craft),
    twoLevelChannels: link.twoLevelChannels,
    precedence: precedence.filter((each) => holdsFor(craft, each)).map(({ over, under }) => ({ over, under })),
    loss: link.loss,
  };
}

/** Whether a precedence of the catalogue holds for a craft: some depend on what it has. */
export function holdsFor(craft: Craft, { unless }: Precedence[number]): boolean {
  const setting = unless && settingOf(craft, unless.setting);
  return !setting?.value || setting.text === unless?.not;
}

/** Default of `link.order`: the sticks on channels 1 to 4. */
const USUAL_ORDER = "roll pitch throttle yaw";

/** The sticks in the order of their channels, from 1; the default order where the craft sets none. */
export function stickOrder(craft: Craft): readonly string[] {
  return (craft.settings.get("link")?.get("order")?.text ?? USUAL_ORDER).split(" ");
}

/**
 * The ends of the sticks' channels as measured on the bench: what a stick really sends. They replace
 * `link.endpoints` for a condition that names such a channel.
 */
function measuredSticks(craft: Craft): ReadonlyMap<number, PulseRange> {
  const measured = new Map<number, PulseRange>();
  for (const [i, stick] of stickOrder(craft).entries()) {
    const value = craft.settings.get("bench")?.get(stick)?.value;
    if (value?.kind === "range") measured.set(i + 1, { fromUs: inUs(value.from), toUs: inUs(value.to) });
  }
  return measured;
}

function conditionsOf(craft: Craft): ConditionSpec[] {
  const modes = [...craft.modes.values()].map(({ name, lines }) => ({ name, lines }));
  const outputs = [...craft.outputs.values()].map(({ name, lines }) => ({ name: `outputs.${name}`, lines }));
  return [...modes, ...outputs];
}

/** Whether all controls are known. Without a handset one may still be defined in a file that could not be read. */
function handsetKnown(craft: Craft): boolean {
  return craft.handset !== null || craft.usesAreThere;
}

/** What a craft's link does to pulses. */
export interface LinkFacts {
  readonly endpointsUs: PulseRange;
  readonly loss: LossSpec;
  /** Channels that carry only two levels: a position between the ends arrives as one of them. */
  readonly twoLevelChannels: readonly number[];
  /** Number of channels; null where the craft sets none. */
  readonly channels: number | null;
  /** Smallest step of a pulse; null where the craft sets none. */
  readonly resolutionUs: number | null;
}

/** A craft's link settings, in us. A value with a fault counts as not set. */
export function linkOf(craft: Craft): LinkFacts {
  const value = (name: string): Setting["value"] => craft.settings.get("link")?.get(name)?.value ?? null;
  const endpoints = value("endpoints");
  const resolution = value("resolution");
  const channels = value("channels");
  const onLoss = value("on-loss");
  const pulsesUs = new Map<number, number>();
  itemsOf(value("preset-channels")).forEach((item, i) => {
    if (item.kind === "quantity") pulsesUs.set(i + 1, inUs(item));
  });
  return {
    endpointsUs:
      endpoints?.kind === "range" ? { fromUs: inUs(endpoints.from), toUs: inUs(endpoints.to) } : USUAL_ENDPOINTS_US,
    loss: { onLoss: onLoss?.kind === "choice" ? lossWord(onLoss.word) : null, pulsesUs },
    twoLevelChannels: itemsOf(value("two-level")).flatMap((item) => (item.kind === "integer" ? item.number : [])),
    channels: channels?.kind === "integer" ? channels.number : null,
    resolutionUs: resolution?.kind === "quantity" ? inUs(resolution) : null,
  };
}

type Value = NonNullable<Setting["value"]>;

/** The items of a list; a value alone counts as a list of one. */
function itemsOf(value: Value | null): readonly Value[] {
  if (value === null) return [];
  return value.kind === "list" ? value.items : [value];
}

function lossWord(word: string): LossSpec["onLoss"] {
  return word === "silent" || word === "hold" || word === "preset" ? word : null;
}

function inUs({ number, unit }: { readonly number: number; readonly unit: string }): number {
  return units.convert(number, unit, "us") ?? number;
}
