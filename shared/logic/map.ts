/** What each position and each stretch of a dial does. */
import type { Compiled } from "./compile.ts";
import { EVERY, NONE } from "./diagram.ts";
import type { ControlMap, IdlePositions, PulseSpan, SwitchMap } from "./switchboard-types.ts";
import { type BoardVariable, valuesAt } from "./variables.ts";

/** Where every mode stands: at a place of a variable on which it depends, if it can be on there. */
export function mapOf(compiled: Compiled, names: readonly string[]): SwitchMap {
  const reach = new Map<string, readonly (Uint8Array | null)[]>();
  for (const name of names) {
    const set = compiled.selected.get(name);
    if (set !== undefined) reach.set(name, possibleValues(compiled, set));
  }
  const controls: ControlMap[] = [];
  const channels: SwitchMap["channels"][number][] = [];
  for (const variable of compiled.variables) {
    const level = compiled.levels.get(variable.name)!;
    // Most modes hang on few variables, and a dial may have very many stretches.
    const here = [...reach].flatMap(([name, values]) => (values[level] ? [{ name, values: values[level] }] : []));
    const modes = variable.intervals.map((_, value) =>
      here.filter(({ values }) => values[value] === 1).map(({ name }) => name),
    );
    const { control, channel } = variable;
    if (!control) channels.push({ channel, spans: spansOf(variable, modes) });
    else if (control.kind === "dial") controls.push({ control, positions: [], spans: dialSpans(variable, modes) });
    else {
      const positions = control.positions.map((position) => {
        const there = valuesAt(variable, position.name);
        const can = (name: string): boolean => there.some((value) => modes[value]!.includes(name));
        return { ...position, modes: there.length === 1 ? modes[there[0]!]! : names.filter(can) };
      });
      controls.push({ control, positions, spans: [] });
    }
  }
  return { controls, channels };
}

/**
 * By level, the values with which some state is in the set; null for levels on which it does not
 * hang. One walk is enough: every node but the empty set can be left towards some state.
 */
function possibleValues(compiled: Compiled, set: number): readonly (Uint8Array | null)[] {
  const { diagrams } = compiled;
  const { widths } = diagrams;
  const asked: (Uint8Array | null)[] = widths.map(() => null);
  const skipped = new Uint8Array(widths.length);
  const seen = new Set<number>();
  const visit = (node: number): void => {
    if (node <= EVERY || seen.has(node)) return;
    seen.add(node);
    const level = diagrams.levelOf(node);
    asked[level] ??= new Uint8Array(widths[level]!);
    for (let v = 0; v < widths[level]!; v++) {
      const child = diagrams.child(node, v);
      if (child === NONE) continue;
      asked[level]![v] = 1;
      // A path that does not ask a variable leaves it anywhere.
      skipped.fill(1, level + 1, diagrams.levelOf(child));
      visit(child);
    }
  };
  if (set > EVERY) skipped.fill(1, 0, diagrams.levelOf(set));
  visit(set);
  asked.forEach((values, level) => {
    if (skipped[level] === 1) values?.fill(1);
  });
  return asked;
}

/** Longest stretches with the same modes, rising. */
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

/** From the dial's `from` end to its `to` end, which may lie lower. */
function dialSpans(variable: BoardVariable, modes: readonly (readonly string[])[]): readonly PulseSpan[] {
  const spans = spansOf(variable, modes);
  const { fromUs, toUs } = variable.control!;
  if ((fromUs ?? 0) <= (toUs ?? 0)) return spans;
  return spans.reverse().map((span) => ({ ...span, fromUs: span.toUs, toUs: span.fromUs }));
}

/**
 * Positions next to one another by pulse, as the lever passes them, between which no set tells; none
 * for a control on which none hangs. A handset may list its positions in any order.
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
    // Of positions that never arrive another finding speaks.
    if (intervals.length < control.positions.length) return [];
    const order = passed[level]!;
    return order.slice(1).flatMap((value, i): IdlePositions[] => {
      const alike = [order[i]!, value].sort((a, b) => a - b).map((each) => intervals[each]!.position!);
      return distinguished[level]![value] === 0 ? [{ control, positions: alike as [string, string] }] : [];
    });
  });
}

/** The values of a variable, rising by pulse. */
function byPulse(intervals: BoardVariable["intervals"]): readonly number[] {
  return intervals.map((_, value) => value).sort((a, b) => intervals[a]!.fromUs - intervals[b]!.fromUs);
}
