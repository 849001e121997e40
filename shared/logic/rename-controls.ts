/** The controls that one script's conditions use, and edits that rename them there. */
import type { Entry, Script } from "../model/script.ts";
import { type Condition, walkCondition } from "../syntax/condition.ts";
import type { Cols, TextEdit } from "../syntax/span.ts";
import type { MappedControl, UsedControl } from "./handset-mapping.ts";

/** A control, or a position of one, where a script names it. */
interface Named extends Cols {
  readonly line: number;
  readonly control: string;
  /** Null where it is the control that is named. */
  readonly position: string | null;
  readonly isPulsed: boolean;
}

/** The controls that a script names in conditions and behind `follows`, in the order of the text. */
export function controlsUsed(script: Script): readonly UsedControl[] {
  let used = usedKnown.get(script);
  if (!used) {
    used = findUsed(script);
    usedKnown.set(script, used);
  }
  return used;
}

/** A script is the same value for the same text, and a layer is asked about for every craft that uses it. */
const usedKnown = new WeakMap<Script, readonly UsedControl[]>();

function findUsed(script: Script): UsedControl[] {
  const used = new Map<string, { positions: Set<string>; isPulsed: boolean }>();
  for (const { control, position, isPulsed } of namedIn(script)) {
    const known = used.get(control) ?? { positions: new Set(), isPulsed: false };
    if (position !== null) known.positions.add(position);
    known.isPulsed ||= isPulsed;
    used.set(control, known);
  }
  return [...used].map(([name, { positions, isPulsed }]) => ({ name, positions: [...positions], isPulsed }));
}

/** Edits of a script that name the mapped controls and positions as the mapping says. */
export function renameEdits(script: Script, mapping: readonly MappedControl[]): TextEdit[] {
  const byName = new Map(mapping.map((each) => [each.from, each]));
  return namedIn(script).flatMap(({ control, position, line, start, end }) => {
    const to = byName.get(control);
    const text = position === null ? to?.to : to?.positions.get(position);
    if (text === undefined || text === (position ?? control)) return [];
    return [{ range: { start: { line, character: start }, end: { line, character: end } }, text }];
  });
}

/** The controls that one line names. */
export function controlsOf(entry: Pick<Entry, "value" | "line">): readonly string[] {
  return namedOn(entry).map(({ control }) => control);
}

function namedIn({ readings }: Script): Named[] {
  return readings.flatMap(({ entries }) => {
    // A section holds entries of one kind, or settings among others: most name no control.
    const kind = entries[0]?.kind;
    return kind === "mode" || kind === "output" || kind === "follows" ? entries.flatMap(namedOn) : [];
  });
}

function namedOn({ value, line }: Pick<Entry, "value" | "line">): Named[] {
  if (value?.kind === "follows")
    return [{ ...value.dialAt, line, control: value.dial, position: null, isPulsed: true }];
  return value?.kind === "condition" ? [...walkCondition(value.condition)].flatMap((node) => namedBy(node, line)) : [];
}

function namedBy(node: Condition, line: number): Named[] {
  if (node.kind === "is") {
    const { control, controlAt, position, positionAt } = node;
    return [
      { ...controlAt, line, control, position: null, isPulsed: false },
      { ...positionAt, line, control, position, isPulsed: false },
    ];
  }
  const isTest = node.kind === "in" || node.kind === "above" || node.kind === "below";
  if (!isTest || node.subject.kind !== "control") return [];
  const { start, end, name } = node.subject;
  return [{ start, end, line, control: name, position: null, isPulsed: true }];
}
