/** What each position of a control and each interval of a dial does. */
import type { Compiled } from "./compile.ts";
import { type Diagrams, EVERY, NONE } from "./diagram.ts";
import type { ControlMap, IdlePositions, PulseSpan, SwitchMap } from "./switchboard-types.ts";
import { type BoardVariable, valuesAt } from "./variables.ts";

/** A mode that depends on some variable, and with which of its values the mode can be on. */
interface Dependent {
  readonly name: string;
  readonly possible: Uint8Array;
}

/**
 * The switch map: for each value of each variable, the modes that depend on the variable and can be
 * on there. Linear in the sizes of the sets and of the map itself; modes that are not known are left out.
 */
export function mapOf(compiled: Compiled, names: readonly string[]): SwitchMap {
  const dependents = dependentsOf(compiled, names);
  const controls: ControlMap[] = [];
  const channels: SwitchMap["channels"][number][] = [];
  for (const variable of compiled.variables) {
    const here = dependents.get(compiled.levels.get(variable.name)!) ?? [];
    const modesWith = (values: readonly number[]): string[] =>
      here.filter(({ possible }) => values.some((value) => possible[value] === 1)).map(({ name }) => name);
    const { control, channel } = variable;
    if (control && control.kind !== "dial") {
      const positions = control.positions.map((position) => ({
        ...position,
        modes: modesWith(valuesAt(variable, position.name)),
      }));
      controls.push({ control, positions, spans: [] });
      continue;
    }
    const modes = variable.intervals.map((_, value) => modesWith([value]));
    if (control) controls.push({ control, positions: [], spans: dialSpans(variable, modes) });
    else channels.push({ channel, spans: spansOf(variable, modes) });
  }
  return { controls, channels };
}

/** By level, the modes that depend on its variable, in the order of `names`. Most modes depend on few variables. */
function dependentsOf(compiled: Compiled, names: readonly string[]): ReadonlyMap<number, readonly Dependent[]> {
  const { diagrams, selected } = compiled;
  const dependents = new Map<number, Dependent[]>();
  const skipped = new Uint8Array(diagrams.widths.length);
  for (const name of names) {
    for (const [level, possible] of possibleValues(diagrams, selected.get(name) ?? NONE, skipped)) {
      const list = dependents.get(level);
      if (list) list.push({ name, possible });
      else dependents.set(level, [{ name, possible }]);
    }
  }
  return dependents;
}

/**
 * For each level on which a set depends, the values with which some state is in the set. One walk
 * is enough: from every node but the terminal 0 some path leads to 1. `skipped` is working memory,
 * one byte for each level.
 */
function possibleValues(diagrams: Diagrams, set: number, skipped: Uint8Array): ReadonlyMap<number, Uint8Array> {
  const possible = new Map<number, Uint8Array>();
  const seen = new Set<number>();
  skipped.fill(0);
  const visit = (node: number): void => {
    if (node <= EVERY || seen.has(node)) return;
    seen.add(node);
    const level = diagrams.levelOf(node);
    const width = diagrams.widths[level]!;
    const values = possible.get(level) ?? new Uint8Array(width);
    possible.set(level, values);
    for (let v = 0; v < width; v++) {
      const child = diagrams.child(node, v);
      if (child === NONE) continue;
      values[v] = 1;
      // A path that does not test a variable allows all of its values.
      skipped.fill(1, level + 1, diagrams.levelOf(child));
      visit(child);
    }
  };
  visit(set);
  for (const [level, values] of possible) if (skipped[level] === 1) values.fill(1);
  return possible;
}

/** Maximal ranges with the same modes, ascending. */
function spansOf(variable: BoardVariable, modes: readonly (readonly string[])[]): PulseSpan[] {
  const spans: PulseSpan[] = [];
  variable.intervals.forEach(({ fromUs, toUs }, value) => {
    const last = spans.at(-1);
    if (last && sameNames(last.modes, modes[value]!)) spans[spans.length - 1] = { ...last, toUs };
    else spans.push({ fromUs, toUs, modes: modes[value]! });
  });
  return spans;
}

function sameNames(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((name, i) => name === b[i]);
}

/** The ranges of a dial from its `from` end to its `to` end, which may be the lower one. */
function dialSpans(variable: BoardVariable, modes: readonly (readonly string[])[]): readonly PulseSpan[] {
  const spans = spansOf(variable, modes);
  const { fromUs, toUs } = variable.control!;
  if ((fromUs ?? 0) <= (toUs ?? 0)) return spans;
  return spans.reverse().map((span) => ({ ...span, fromUs: span.toUs, toUs: span.fromUs }));
}

/**
 * Pairs of positions adjacent by pulse, in the order in which the lever passes them, that no set
 * distinguishes. Controls on which no set depends have none. A handset may list its positions in
 * any order. Linear in the size of the sets.
 */
export function findIdlePositions(compiled: Compiled, sets: readonly number[]): readonly IdlePositions[] {
  const { diagrams, byLevel } = compiled;
  const distinguished = diagrams.widths.map((width) => new Uint8Array(width));
  const passed = byLevel.map(({ intervals }) => byPulse(intervals));
  const asked = new Uint8Array(diagrams.widths.length);
  const seen = new Set<number>();
  const visit = (node: number): void => {
    if (node <= EVERY || seen.has(node)) return;
    seen.add(node);
    const level = diagrams.levelOf(node);
    asked[level] = 1;
    let before = -1;
    for (const value of passed[level]!) {
      const child = diagrams.child(node, value);
      if (before >= 0 && child !== before) distinguished[level]![value] = 1;
      before = child;
      visit(child);
    }
  };
  for (const set of sets) visit(set);
  return compiled.variables.flatMap(({ name, control, intervals }) => {
    const level = compiled.levels.get(name)!;
    if (!control || control.kind === "dial" || asked[level] === 0) return [];
    // Positions that never arrive have a finding of their own.
    if (intervals.length < control.positions.length) return [];
    const order = passed[level]!;
    return order.slice(1).flatMap((value, i): IdlePositions[] => {
      const alike = [order[i]!, value].sort((a, b) => a - b).map((each) => intervals[each]!.position!);
      return distinguished[level]![value] === 0 ? [{ control, positions: alike as [string, string] }] : [];
    });
  });
}

/** The values of a variable, ascending by pulse. */
function byPulse(intervals: BoardVariable["intervals"]): readonly number[] {
  return intervals.map((_, value) => value).sort((a, b) => intervals[a]!.fromUs - intervals[b]!.fromUs);
}
