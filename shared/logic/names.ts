/** What the names in conditions stand for, and what is wrong with those that stand for nothing. */
import { distance } from "fastest-levenshtein";
import type { Source } from "../model/craft.ts";
import { type Condition, type Subject, walkCondition } from "../syntax/condition.ts";
import type { ControlSpec, Problem, SwitchInput, UnsetReference } from "./switchboard-types.ts";
import { type Cuts, cutsOf } from "./variables.ts";

/** A mode that a condition names, at the place where it first does. */
export interface Reference {
  readonly to: string;
  readonly start: number;
  readonly end: number;
  readonly source: Source;
}

export interface Names {
  readonly controls: ReadonlyMap<string, ControlSpec>;
  readonly problems: readonly Problem[];
  readonly unset: readonly UnsetReference[];
  /** Conditions that cannot be understood by themselves: a line has a fault, or a name stands for nothing known. */
  readonly broken: ReadonlySet<string>;
  /** Of each mode or output, the modes that it names and somebody set up. */
  readonly references: ReadonlyMap<string, readonly Reference[]>;
  /** By the name of a dial or undriven channel: where the tests of its pulse cut its range. */
  readonly cuts: ReadonlyMap<string, readonly Cuts[]>;
  /** Of each mode or output, the variables that it names itself, in the order of its words. */
  readonly mentions: ReadonlyMap<string, readonly string[]>;
  /** Undriven channels that conditions name, by number. */
  readonly channels: readonly number[];
}

/**
 * The variable whose pulse a test asks about: the control, or the one control that drives the
 * channel, or the channel itself. Null where that is not known: the control is not there or its
 * line has a fault, or two controls drive the channel, or one of those with a fault might.
 */
export function testedVariable(
  subject: Subject,
  controls: ReadonlyMap<string, ControlSpec>,
  input: SwitchInput,
): string | null {
  if (subject.kind === "control") return controls.has(subject.name) ? subject.name : null;
  const drivers = input.controls.filter((control) => control.channel === subject.channel);
  if (drivers.length === 1) return drivers[0]!.name;
  if (drivers.length > 1 || (input.faultyControls ?? []).length > 0) return null;
  return `ch${subject.channel}`;
}

/** Reads every condition once. `pulsesUs`: channels whose pulse is given, so that tests on them need no variable. */
export function readNames(input: SwitchInput, pulsesUs: ReadonlyMap<number, number>): Names {
  const controls = new Map(input.controls.map((control) => [control.name, control]));
  const setUp = new Set(input.conditions.map(({ name }) => name));
  const silent = new Set(input.faultyControls ?? []);
  const problems: Problem[] = [];
  const unset: UnsetReference[] = [];
  const broken = new Set<string>();
  const references = new Map<string, Reference[]>();
  const cuts = new Map<string, Cuts[]>();
  const mentions = new Map<string, string[]>();
  const channels = new Set<number>();

  for (const { name, lines } of input.conditions) {
    const refers: Reference[] = [];
    const mentioned: string[] = [];
    references.set(name, refers);
    mentions.set(name, mentioned);
    for (const { condition, source } of lines) {
      if (condition === null) broken.add(name);
      else for (const node of walkCondition(condition)) read(name, node, source, refers, mentioned);
    }
  }
  return {
    controls,
    problems,
    unset,
    broken,
    references,
    cuts,
    mentions,
    channels: [...channels].sort((a, b) => a - b),
  };

  function read(name: string, node: Condition, source: Source, refers: Reference[], mentioned: string[]): void {
    const { start, end } = node;
    if (node.kind === "mode") {
      if (!setUp.has(node.name)) unset.push({ mode: node.name, in: name, source, start, end });
      else if (!refers.some(({ to }) => to === node.name)) refers.push({ to: node.name, start, end, source });
    } else if (node.kind === "is") {
      const control = controls.get(node.control);
      if (control?.positions.some((position) => position.name === node.position)) mentioned.push(node.control);
      else faultOfIs(name, node, control, source);
    } else if (node.kind === "in" || node.kind === "above" || node.kind === "below") {
      readTest(name, node, source, mentioned);
    }
  }

  function faultOfIs(
    name: string,
    node: Extract<Condition, { kind: "is" }>,
    control: ControlSpec | undefined,
    source: Source,
  ): void {
    broken.add(name);
    if (!control) {
      unknownControl(name, node.control, node.controlAt, source);
      return;
    }
    const common = { in: name, source, word: node.position, control: control.name, ...columns(node.positionAt) };
    if (control.kind === "dial") {
      problems.push({ code: "wrong-type", what: "position", candidates: [], ...common });
    } else {
      const all = control.positions.map((position) => position.name);
      problems.push({
        code: "unknown-name",
        what: "position",
        candidates: nearestFirst(node.position, all),
        ...common,
      });
    }
  }

  function unknownControl(name: string, control: string, at: { start: number; end: number }, source: Source): void {
    if (silent.has(control) || input.handsetKnown === false) return;
    const candidates = nearestFirst(control, [...controls.keys()]);
    const common = { in: name, source, word: control, control, ...columns(at) };
    problems.push({ code: "unknown-name", what: "control", candidates, ...common });
  }

  function readTest(
    name: string,
    node: Extract<Condition, { kind: "in" | "above" | "below" }>,
    source: Source,
    mentioned: string[],
  ): void {
    const { subject } = node;
    if (subject.kind === "channel" && pulsesUs.has(subject.channel)) return;
    const variable = testedVariable(subject, controls, input);
    if (variable === null) {
      broken.add(name);
      if (subject.kind === "control") unknownControl(name, subject.name, subject, source);
      return;
    }
    mentioned.push(variable);
    if (subject.kind === "channel" && !controls.has(variable)) channels.add(subject.channel);
    const list = cuts.get(variable);
    if (list) list.push(cutsOf(node));
    else cuts.set(variable, [cutsOf(node)]);
  }
}

function columns({ start, end }: { start: number; end: number }): { start: number; end: number } {
  return { start, end };
}

/** By edit distance, capitals aside; ties keep their order. */
function nearestFirst(word: string, names: readonly string[]): readonly string[] {
  const far = (name: string): number => distance(word.toLowerCase(), name.toLowerCase());
  return names
    .map((name) => ({ name, far: far(name) }))
    .sort((a, b) => a.far - b.far)
    .map(({ name }) => name);
}
