/** The panel's model with the editor's own addresses for its files. */
import type { AdjustPicture } from "../../../shared/protocol/adjust.ts";
import type { AgainstPictures } from "../../../shared/protocol/against.ts";
import type { BenchList } from "../../../shared/protocol/bench.ts";
import type { NumbersPicture, RatesPicture } from "../../../shared/protocol/numbers.ts";
import type {
  GogglesPicture,
  LinePlace,
  PanelControl,
  PanelModel,
  SwitchesPicture,
  SwitchesState,
} from "../../../shared/protocol/panel.ts";
import type { SignalCourse, SignalPicture } from "../../../shared/protocol/signal.ts";
import type { Gap, PanelAction, WayOn } from "../../../shared/protocol/ways.ts";
import type { UriOf } from "./to-lsp.ts";

type InFile = { readonly file: string };
/** Gives what has a file the address of that file. */
type Placed = <T extends InFile>(place: T) => T;

/** `uriOfOther` is for the files of the other side, where that is a workspace of its own. */
export function toPanelModel(model: PanelModel, uriOf: UriOf, uriOfOther = uriOf): PanelModel {
  const placed = placedBy(uriOf);
  const { goggles, switches, numbers, begin, signal, against, bench } = model;
  const ways = (all: readonly WayOn[]) => toWays(all, placed);
  const gaps = (all: readonly Gap[]) => all.map((gap) => ({ ...gap, ways: ways(gap.ways) }));
  return {
    ...placed(model),
    alsoIn: model.alsoIn.map(placed),
    findings: model.findings.map(placed),
    goggles: goggles && toGoggles(goggles, placed),
    begin: begin && { ...begin, layers: begin.layers.map(placed), crafts: begin.crafts.map(placed) },
    emptyWays: ways(model.emptyWays),
    gogglesWays: ways(model.gogglesWays),
    switchesWays: ways(model.switchesWays),
    missing: gaps(model.missing),
    switchesGaps: gaps(model.switchesGaps),
    numbersWays: ways(model.numbersWays),
    ...(signal && { signal: toSignal(signal, placed) }),
    ...(bench && { bench: { ...bench, list: toBench(bench.list, placed) } }),
    numbers: numbers && { ...toNumbers(numbers, placed), missing: gaps(numbers.missing) },
    switches: switches && toSwitches(switches, placed),
    ...(against && { against: against.kind === "none" ? against : toAgainst(against, placedBy(uriOfOther)) }),
  };
}

function placedBy(uriOf: UriOf): Placed {
  return (place) => ({ ...place, file: uriOf(place.file) });
}

function toWays(all: readonly WayOn[], placed: Placed): WayOn[] {
  return all.map(({ label, action }) => ({ label, action: toAction(action, placed) }));
}

/** An action with addresses for the files that it names. */
function toAction(action: PanelAction, placed: Placed): PanelAction {
  if (action.name === "go") return { ...action, at: placed(action.at) };
  if (action.name === "repair") return { ...placed(action), at: placed(action.at) };
  return "file" in action ? placed(action) : action;
}

function toGoggles(picture: GogglesPicture, placed: Placed): GogglesPicture {
  return {
    ...picture,
    elements: picture.elements.map((each) => ({
      ...each,
      at: placed(each.at),
      faults: each.faults.map((fault) => ({ ...fault, ways: toWays(fault.ways, placed) })),
    })),
  };
}

function toSwitches(switches: SwitchesPicture, placed: Placed): SwitchesPicture {
  return {
    ...switches,
    controls: switches.controls.map((each) => toControl(each, placed)),
    state: toState(switches.state, placed),
    modes: switches.modes.map((mode) => withLines(mode, placed)),
    ready: {
      ...switches.ready,
      obstacles: switches.ready.obstacles.map((each) => ({ ...each, at: each.at && placed(each.at) })),
    },
  };
}

function toControl(control: PanelControl, placed: Placed): PanelControl {
  return { ...control, at: placed(control.at) };
}

function withLines<T extends { readonly lines: readonly LinePlace[] }>(mode: T, placed: Placed): T {
  return { ...mode, lines: mode.lines.map(placed) };
}

function toState(state: SwitchesState, placed: Placed): SwitchesState {
  return {
    ...state,
    on: state.on.map((mode) => withLines(mode, placed)),
    possible: state.possible.map((mode) => withLines(mode, placed)),
    adjusts: toAdjusts(state.adjusts, placed),
  };
}

function toAgainst(against: AgainstPictures, placed: Placed): AgainstPictures {
  const { goggles, switches, numbers } = against;
  return {
    ...against,
    goggles: goggles && { ...goggles, picture: toGoggles(goggles.picture, placed) },
    switches: switches && {
      ...switches,
      state: toState(switches.state, placed),
      controls: switches.controls.map((each) => ({ ...each, there: each.there && toControl(each.there, placed) })),
      modes: switches.modes.map((each) => ({ ...each, there: each.there && withLines(each.there, placed) })),
    },
    numbers: numbers && {
      ...numbers,
      rates: toRates(numbers.rates, placed),
      secondRates: toRates(numbers.secondRates, placed),
    },
  };
}

function toSignal(signal: SignalPicture, placed: Placed): SignalPicture {
  const phases = (course: SignalCourse) =>
    course.phases.map((each) => ({ ...each, lines: each.lines.map((line) => ({ ...line, at: placed(line.at) })) }));
  const { calls } = signal;
  return {
    ...signal,
    courses: signal.courses.map((course) => ({ ...course, phases: phases(course) })),
    calls: calls && { ...calls, at: placed(calls.at) },
  };
}

function toBench(list: BenchList, placed: Placed): BenchList {
  const place = (at: LinePlace | null) => at && placed(at);
  return {
    ...placed(list),
    checks: list.checks.map((check) => ({ ...check, at: place(check.at) })),
    phases: list.phases.map((phase) => ({
      ...phase,
      steps: phase.steps.map((step) => ({
        ...step,
        from: step.from.map(placed),
        readings: step.readings.map((reading) => ({ ...reading, at: place(reading.at) })),
      })),
    })),
  };
}

function toAdjusts(adjusts: AdjustPicture, placed: Placed): AdjustPicture {
  return {
    ...adjusts,
    moving: adjusts.moving.map((each) => ({ ...each, at: placed(each.at) })),
    idle: adjusts.idle.map((each) => ({ ...each, at: placed(each.at) })),
  };
}

function toRates(rates: RatesPicture | null, placed: Placed): RatesPicture | null {
  return (
    rates && {
      ...rates,
      axes: rates.axes.map((axis) => ({ ...axis, at: axis.at && placed(axis.at) })),
      throttle: rates.throttle && { ...rates.throttle, at: rates.throttle.at && placed(rates.throttle.at) },
    }
  );
}

function toNumbers(numbers: NumbersPicture, placed: Placed): NumbersPicture {
  const { packs, filters, loop, motors, hover } = numbers;
  const place = (at: LinePlace | null) => at && placed(at);
  return {
    ...numbers,
    rates: toRates(numbers.rates, placed),
    secondRates: toRates(numbers.secondRates, placed),
    packs: packs.map((pack) => ({
      ...pack,
      at: place(pack.at),
      marks: pack.marks.map((mark) => ({ ...mark, at: place(mark.at) })),
    })),
    filters: filters && { ...filters, parts: filters.parts.map((part) => ({ ...part, at: place(part.at) })) },
    loop: loop && { ...loop, at: place(loop.at), gyroAt: place(loop.gyroAt), commandAt: place(loop.commandAt) },
    motors: motors && {
      ...motors,
      spinAt: place(motors.spinAt),
      motors: motors.motors.map((motor) => ({ ...motor, at: place(motor.at) })),
    },
    hover: hover && { figures: hover.figures.map((figure) => ({ ...figure, at: place(figure.at) })) },
  };
}
