/** Resolves the names in conditions, and finds what is wrong with those that resolve to nothing. */
import { distance } from "fastest-levenshtein";
import type { Source } from "../model/craft.ts";
import { isAlike } from "../model/similar-names.ts";
import { type Condition, type Subject, walkCondition } from "../syntax/condition.ts";
import type { Problem, UnsetReference } from "./condition-faults.ts";
import type { ControlSpec, SwitchInput } from "./switchboard-types.ts";
import { type Cuts, cutsOf } from "./variables.ts";

/** A mode that a condition names, at its first occurrence. */
export interface Reference {
  readonly to: string;
  readonly start: number;
  readonly end: number;
  readonly source: Source;
}

export interface Names {
  readonly controls: ReadonlyMap<string, ControlSpec>;
  /**
   * The variable whose pulse a test is about: the control, or the one control that drives the
   * channel, or the channel itself. Null where that is not known: the control does not exist or its
   * line has a fault, or two controls drive the channel, or one with a fault may drive it.
   */
  readonly variableOf: (subject: Subject) => string | null;
  readonly problems: readonly Problem[];
  readonly unset: readonly UnsetReference[];
  /** Modes and outputs with a line that has a fault, or with a name that does not resolve. */
  readonly broken: ReadonlySet<string>;
  /** For each mode and output, the modes that it names, without those that are not set up. */
  readonly references: ReadonlyMap<string, readonly Reference[]>;
  /** By the name of a variable: where tests of its pulse divide its range. */
  readonly cuts: ReadonlyMap<string, readonly Cuts[]>;
  /** For each mode and output, the variables that its own lines test, in the order of the text. */
  readonly mentions: ReadonlyMap<string, readonly string[]>;
  /** Undriven channels that conditions name, by number. */
  readonly channels: readonly number[];
}

function makeVariableOf(input: SwitchInput, controls: ReadonlyMap<string, ControlSpec>): Names["variableOf"] {
  const byChannel = new Map<number, string | null>();
  for (const { name, channel } of input.controls) byChannel.set(channel, byChannel.has(channel) ? null : name);
  const allKnown = (input.faultyControls ?? []).length === 0;
  return (subject) => {
    if (subject.kind === "control") return controls.has(subject.name) ? subject.name : null;
    const driver = byChannel.get(subject.channel);
    return driver === undefined && allKnown ? `ch${subject.channel}` : (driver ?? null);
  };
}

/** Resolves every condition in one pass. `pulsesUs`: channels whose pulse is given, so that tests of them need no variable. */
export function readNames(input: SwitchInput, pulsesUs: ReadonlyMap<number, number>): Names {
  const controls = new Map(input.controls.map((control) => [control.name, control]));
  const setUp = new Set(input.conditions.map(({ name }) => name));
  const silent = new Set(input.faultyControls ?? []);
  const controlNames = [...controls.keys()];
  const positionNames = new Map(
    input.controls.map(({ name, positions }) => [name, positions.map((position) => position.name)]),
  );
  const nearest = makeNearest();
  const variableOf = makeVariableOf(input, controls);
  const problems: Problem[] = [];
  const unset: UnsetReference[] = [];
  const broken = new Set<string>();
  const references = new Map<string, Reference[]>();
  const cuts = new Map<string, Cuts[]>();
  const mentions = new Map<string, string[]>();
  const channels = new Set<number>();

  for (const { name, lines } of input.conditions) {
    const refers = new Map<string, Reference>();
    const mentioned: string[] = [];
    mentions.set(name, mentioned);
    for (const { condition, source } of lines) {
      if (condition === null) broken.add(name);
      else for (const node of walkCondition(condition)) read(name, node, source, refers, mentioned);
    }
    references.set(name, [...refers.values()]);
  }
  return {
    controls,
    variableOf,
    problems,
    unset,
    broken,
    references,
    cuts,
    mentions,
    channels: [...channels].sort((a, b) => a - b),
  };

  function read(
    name: string,
    node: Condition,
    source: Source,
    refers: Map<string, Reference>,
    mentioned: string[],
  ): void {
    const { start, end } = node;
    if (node.kind === "mode") {
      if (!setUp.has(node.name)) unset.push({ mode: node.name, in: name, source, start, end });
      else if (!refers.has(node.name)) refers.set(node.name, { to: node.name, start, end, source });
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
      unknownControl(name, node.control, node.controlAt, source, ({ positions }) =>
        positions.some((position) => position.name === node.position),
      );
      return;
    }
    const common = { in: name, source, word: node.position, control: control.name, ...columns(node.positionAt) };
    if (control.kind === "dial") {
      problems.push({ code: "wrong-type", what: "position", candidates: [], ...common });
    } else {
      problems.push({
        code: "unknown-name",
        what: "position",
        candidates: nearest(node.position, positionNames.get(control.name)!),
        ...common,
      });
    }
  }

  /** `isOfItsKind`: a control that this place may be about, however unlike its name is. */
  function unknownControl(
    name: string,
    control: string,
    at: { start: number; end: number },
    source: Source,
    isOfItsKind: (control: ControlSpec) => boolean,
  ): void {
    if (silent.has(control) || input.handsetKnown === false) return;
    const candidates = nearest(control, controlNames).filter(
      (each) => isAlike(control, each) || isOfItsKind(controls.get(each)!),
    );
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
    const variable = variableOf(subject);
    if (variable === null) {
      broken.add(name);
      if (subject.kind === "control") unknownControl(name, subject.name, subject, source, isDial);
      return;
    }
    mentioned.push(variable);
    if (subject.kind === "channel" && !controls.has(variable)) channels.add(subject.channel);
    const list = cuts.get(variable);
    if (list) list.push(cutsOf(node));
    else cuts.set(variable, [cutsOf(node)]);
  }
}

function isDial({ kind }: ControlSpec): boolean {
  return kind === "dial";
}

function columns({ start, end }: { start: number; end: number }): { start: number; end: number } {
  return { start, end };
}

/** More names than this are offered for no word. */
const MOST_CANDIDATES = 20;
/** Comparisons of two names for one craft; some ten milliseconds. With more wrong names the handset is wrong. */
const MOST_COMPARISONS = 100_000;
/** No name is half as long; longer words are compared with none. */
const LONGEST_WORD = 80;

/**
 * A function that sorts names by their edit distance from a word, without regard to case, and gives
 * the nearest; ties keep their order. Repeated questions about the same list are answered from
 * memory; once the comparisons are used up, no names are given.
 */
function makeNearest(): (word: string, names: readonly string[]) => readonly string[] {
  const memo = new Map<readonly string[], Map<string, readonly string[]>>();
  let comparisons = 0;
  return (word, names) => {
    const ofNames = memo.get(names) ?? new Map<string, readonly string[]>();
    memo.set(names, ofNames);
    const known = ofNames.get(word);
    if (known) return known;
    // Comparing takes longer with a long name.
    comparisons += names.reduce((sum, name) => sum + 1 + (name.length >> 5), 0);
    if (word.length > LONGEST_WORD || comparisons > MOST_COMPARISONS) return [];
    const lower = word.toLowerCase();
    const nearest = names
      .map((name) => ({ name, edits: distance(lower, name.toLowerCase()) }))
      .sort((a, b) => a.edits - b.edits)
      .slice(0, MOST_CANDIDATES)
      .map(({ name }) => name);
    ofNames.set(word, nearest);
    return nearest;
  };
}
