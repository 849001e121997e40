/** The report of `switches`: what each position does, and what is on at rest and after loss of the signal. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { switchboardOf } from "../../logic/from-craft.ts";
import type { ControlMap, Positions, PulseSpan } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import { type AdjustEnd, type Adjustment, adjustedText, adjustmentsOf } from "../../numbers/adjustments.ts";
import { lossReport, type ReportedLoss } from "./loss-report.ts";

/** A range of pulses in us, both ends included, with the modes that can be on there. */
export interface ReportedSpan {
  readonly from: number;
  readonly to: number;
  readonly modes: readonly string[];
}

export interface ReportedControl {
  readonly name: string;
  readonly kind: string;
  readonly channel: number;
  /** Pulses in us. Empty for a dial. */
  readonly positions: readonly { readonly name: string; readonly pulse: number; readonly modes: readonly string[] }[];
  readonly spans: readonly ReportedSpan[];
  /** The settings that a dial moves in flight; not there where it moves none. */
  readonly adjusts?: readonly ReportedAdjust[];
}

/** A setting that follows a dial: its value at each of the dial's stops. */
export interface ReportedAdjust {
  /** As SECTION.NAME. */
  readonly setting: string;
  readonly from: ReportedEnd;
  readonly to: ReportedEnd;
}

/** `unit` is "" for a bare number; `text` is both as a person writes them. */
export interface ReportedEnd {
  readonly pulse: number;
  readonly number: number;
  readonly unit: string;
  readonly text: string;
}

export interface SwitchReport {
  readonly controls: readonly ReportedControl[];
  /** Channels that conditions name and no control drives. */
  readonly channels: readonly { readonly channel: number; readonly spans: readonly ReportedSpan[] }[];
  readonly rest: {
    readonly positions: Positions;
    readonly modes: readonly string[];
    readonly possible: readonly string[];
  };
  /** The modes that are certainly on once the signal is lost, and what happens then, phase by phase. */
  readonly loss: { readonly modes: readonly string[] } & ReportedLoss;
  /**
   * How many distinct sets of modes the controls can reach, the empty one included; null where there are
   * too many to count.
   */
  readonly states: number | null;
  /** Pairs that must not be on together and can be, each with a state that shows it. */
  readonly clashes: readonly { readonly modes: readonly [string, string]; readonly positions: Positions }[];
  /** Modes that stand nowhere in all this because a condition is too tangled to follow; not there where none is. */
  readonly tangled?: readonly string[];
}

/** In steps of work, some tenths of a second: a report on the command line may take longer than an editor's answer. */
const REPORT_COUNT_STEPS = 300_000;

/**
 * The switch map of an effective craft. Outputs count as modes, as `outputs.NAME`. `nameOf` gives the name under
 * which a file is reported.
 */
export function switchReport(
  craft: Craft,
  catalogue: Catalogue,
  nameOf: (file: string) => string = (file) => file,
): SwitchReport {
  const board = switchboardOf(craft, catalogue.modeRelations.precedence);
  const map = board.map();
  const { moving } = adjustmentsOf(craft, catalogue);
  const rest = board.stateAt(board.rest);
  const pairs = catalogue.modeRelations.clashes.map(({ modes }) => modes);
  return {
    controls: map.controls.map((control) => reportedControl(control, moving)),
    channels: map.channels.map(({ channel, spans }) => ({ channel, spans: spans.map(reportedSpan) })),
    rest: { positions: board.rest, modes: rest.on, possible: rest.possible },
    loss: { modes: board.loss().on, ...lossReport(craft, catalogue, nameOf) },
    states: board.countStates(REPORT_COUNT_STEPS),
    clashes: board.clashes(pairs).map(({ modes, witness }) => ({ modes, positions: witness.positions })),
    ...(board.tangles.size > 0 && { tangled: board.names.filter((name) => board.tangles.has(name)) }),
  };
}

function reportedControl({ control, positions, spans }: ControlMap, moving: readonly Adjustment[]): ReportedControl {
  const adjusts = moving.filter(({ dial }) => dial === control.name).map(reportedAdjust);
  return {
    name: control.name,
    kind: control.kind,
    channel: control.channel,
    positions: positions.map(({ name, pulseUs, modes }) => ({ name, pulse: pulseUs, modes })),
    spans: spans.map(reportedSpan),
    ...(adjusts.length > 0 && { adjusts }),
  };
}

function reportedAdjust(adjustment: Adjustment): ReportedAdjust {
  const { section, name, unit, from, to } = adjustment;
  const end = ({ number, pulseUs }: AdjustEnd) => ({
    pulse: pulseUs,
    number,
    unit,
    text: adjustedText(adjustment, number),
  });
  return { setting: `${section}.${name}`, from: end(from), to: end(to) };
}

function reportedSpan({ fromUs, toUs, modes }: PulseSpan): ReportedSpan {
  return { from: fromUs, to: toUs, modes };
}
