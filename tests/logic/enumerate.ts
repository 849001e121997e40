/**
 * An oracle by enumeration: evaluates conditions in one state after another, over the product of all
 * positions and of every whole microsecond of dials and undriven channels.
 */
import type { ControlSpec, SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { type Condition, type Subject, walkCondition } from "../../shared/syntax/condition.ts";

/** For each control or `chN`, the position's name or the pulse. */
export type State = Record<string, string | number>;

/** Whether a condition of the input holds in a state; follows the definition literally. */
export function holds(input: SwitchInput, condition: Condition, state: State): boolean {
  switch (condition.kind) {
    case "always":
      return true;
    case "not":
      return !holds(input, condition.part, state);
    case "and":
      return condition.parts.every((part) => holds(input, part, state));
    case "or":
      return condition.parts.some((part) => holds(input, part, state));
    case "mode":
      return modeHolds(input, condition.name, state);
    case "is":
      return (state[condition.control] === condition.position) !== condition.negated;
    default: {
      const pulseUs = pulseOf(input, condition.subject, state);
      if (condition.kind === "in") return condition.fromUs <= pulseUs && pulseUs <= condition.toUs;
      return condition.kind === "above" ? pulseUs > condition.boundUs : pulseUs < condition.boundUs;
    }
  }
}

export function modeHolds(input: SwitchInput, name: string, state: State): boolean {
  const mode = input.conditions.find((each) => each.name === name);
  return mode?.lines.some(({ condition }) => holds(input, condition!, state)) ?? false;
}

function pulseOf(input: SwitchInput, subject: Subject, state: State): number {
  const control = input.controls.find((each) =>
    subject.kind === "control" ? each.name === subject.name : each.channel === subject.channel,
  );
  const at = state[control ? control.name : `ch${(subject as { channel: number }).channel}`]!;
  return typeof at === "number" ? at : control!.positions.find(({ name }) => name === at)!.pulseUs;
}

/** The values of each variable: controls in their order, then the undriven channels that conditions name. */
export function choices(input: SwitchInput): readonly (readonly [string, readonly (string | number)[]])[] {
  const driven = new Set(input.controls.map(({ channel }) => channel));
  const channels = new Set<number>();
  for (const { lines } of input.conditions) {
    for (const { condition } of lines) {
      for (const node of walkCondition(condition!)) {
        if (!("subject" in node) || node.subject.kind !== "channel") continue;
        if (!driven.has(node.subject.channel)) channels.add(node.subject.channel);
      }
    }
  }
  return [
    ...input.controls.map((control) => [control.name, placesOf(control, input)] as const),
    ...[...channels].sort((a, b) => a - b).map((channel) => [`ch${channel}`, pulsesOf(channel, input)] as const),
  ];
}

/** The positions or pulses of a control that arrive: on a channel with two levels only the ends. */
function placesOf(control: ControlSpec, { twoLevelChannels }: SwitchInput): readonly (string | number)[] {
  const lossy = twoLevelChannels?.includes(control.channel) === true;
  if (control.kind !== "dial") {
    const pulses = control.positions.map(({ pulseUs }) => pulseUs);
    const ends = [Math.min(...pulses), Math.max(...pulses)];
    return control.positions.filter(({ pulseUs }) => !lossy || ends.includes(pulseUs)).map(({ name }) => name);
  }
  const [lowUs, highUs] = [Math.min(control.fromUs!, control.toUs!), Math.max(control.fromUs!, control.toUs!)];
  return lossy ? [...new Set([lowUs, highUs])] : wholeUs(lowUs, highUs);
}

/** The positions as which a position of a control may arrive: itself, or the nearer end where only ends arrive. */
export function arrivesAs(control: ControlSpec, position: string, input: SwitchInput): readonly string[] {
  const arriving = placesOf(control, input).map(String);
  if (arriving.includes(position)) return [position];
  const pulseOfName = (name: string): number => control.positions.find((each) => each.name === name)!.pulseUs;
  const gap = (name: string): number => Math.abs(pulseOfName(name) - pulseOfName(position));
  const nearest = Math.min(...arriving.map(gap));
  return arriving.filter((name) => gap(name) === nearest);
}

function pulsesOf(channel: number, { endpointsUs, measuredUs, twoLevelChannels }: SwitchInput): readonly number[] {
  const { fromUs, toUs } = measuredUs?.get(channel) ?? endpointsUs;
  return twoLevelChannels?.includes(channel) ? [...new Set([fromUs, toUs])] : wholeUs(fromUs, toUs);
}

function wholeUs(fromUs: number, toUs: number): readonly number[] {
  return Array.from({ length: toUs - fromUs + 1 }, (_, i) => fromUs + i);
}

/** Every state, one after another; always the same object, with new values. */
export function* everyState(input: SwitchInput): Generator<State> {
  const all = choices(input);
  const state: State = {};
  function* from(i: number): Generator<State> {
    if (i === all.length) {
      yield state;
      return;
    }
    const [name, places] = all[i]!;
    for (const place of places) {
      state[name] = place;
      yield* from(i + 1);
    }
  }
  yield* from(0);
}

/** The number of states. */
export function countEveryState(input: SwitchInput): number {
  return choices(input).reduce((product, [, places]) => product * places.length, 1);
}
