/**
 * What of a craft hangs on what, by its own lines: a mode on the modes and positions that its condition names, a position
 * on its control, a setting on the dial that it follows.
 */
import type { Control, Craft, Mode, Source } from "../../model/craft.ts";
import { oncePer } from "../../model/memo.ts";
import type { Condition, Subject } from "../../syntax/condition.ts";
import type { Cols } from "../../syntax/span.ts";
import type { ControlValue } from "../../syntax/value.ts";

export type PartKind = "mode" | "output" | "control" | "position" | "channel" | "follows";

/** A part of a craft; of a position `name` is its control's. */
export interface PartName {
  readonly kind: PartKind;
  readonly name: string;
  readonly position?: string;
}

/** Words of a line. */
export interface Words extends Cols {
  readonly source: Source;
}

export interface Part extends PartName {
  /** Its name on the line that says it; for what no line sets up, the first words that name it. */
  readonly at: Words;
  /** False for a mode, a control or a position that is named and nowhere set up. */
  readonly isSetUp: boolean;
}

/** One part hangs on another, by these words of a line that says the first. */
export interface Link {
  readonly from: Part;
  readonly to: Part;
  readonly by: Words;
}

export interface Reliance {
  part(name: PartName): Part | null;
  /** In order of line for each part that hangs on others. */
  readonly links: readonly Link[];
}

/** What hangs on what, for one craft. */
export const relianceOf = oncePer((craft: Craft): Reliance => {
  const parts = new Map<string, Part>();
  const links: Link[] = [];
  const add: Add = (part) => {
    const key = keyOf(part);
    const known = parts.get(key);
    if (known) return known;
    parts.set(key, part);
    return part;
  };
  const join: JoinParts = (from, to, by) => void links.push({ from, to, by });
  for (const control of craft.controls.values()) addControl(craft, control, add, join);
  const modes = [...craft.modes.values()].map((mode) => ({ mode, kind: "mode" as const }));
  const outputs = [...craft.outputs.values()].map((mode) => ({ mode, kind: "output" as const }));
  const all = [...modes, ...outputs].map(({ mode, kind }) => ({ mode, part: add(partOfMode(craft, mode, kind)) }));
  for (const { mode, part } of all)
    for (const { source, condition } of mode.lines)
      for (const { name, word, test } of condition ? namesIn(condition, craft, false) : [])
        join(part, parts.get(keyOf(name)) ?? addNamed(name, { source, ...word }, add, join), { source, ...test });
  for (const { name, value, source } of craft.adjust.values()) {
    const part = add({ kind: "follows", name, at: headAt(craft, source), isSetUp: true });
    if (value?.kind !== "follows") continue;
    const by = { source, ...value.dialAt };
    join(part, add({ kind: "control", name: value.dial, at: by, isSetUp: false }), by);
  }
  return { part: (name) => parts.get(keyOf(name)) ?? null, links };
});

/** A part that is named and nowhere set up: its place is where it is named first. */
function addNamed(name: PartName, at: Words, add: Add, join: JoinParts): Part {
  const part = add({ ...name, at, isSetUp: name.kind === "channel" });
  if (name.kind === "position") join(part, add({ kind: "control", name: name.name, at, isSetUp: false }), at);
  return part;
}

type Add = (part: Part) => Part;
type JoinParts = (from: Part, to: Part, by: Words) => void;

function keyOf({ kind, name, position }: PartName): string {
  return `${kind} ${name} ${position ?? ""}`;
}

function addControl(craft: Craft, { name, value, source }: Control, add: Add, join: JoinParts): void {
  const control = add({ kind: "control", name, at: headAt(craft, source), isSetUp: true });
  for (const position of value?.positions ?? []) {
    const at = { source, ...position.nameAt };
    join(add({ kind: "position", name, position: position.name, at, isSetUp: true }), control, at);
  }
}

function partOfMode(craft: Craft, mode: Mode, kind: "mode" | "output"): Part {
  return { kind, name: mode.name, at: headAt(craft, mode.lines[0]!.source), isSetUp: true };
}

/** The name at the beginning of a line. */
function headAt({ scripts }: Craft, source: Source): Words {
  const { node, text } =
    scripts.find(({ file }) => file === source.file)?.tree.lines[source.line] ??
    ({ node: { kind: "blank" }, text: "" } as const);
  const { start, end } = node.kind === "entry" ? node.head : { start: 0, end: text.length };
  return { source, start, end };
}

/** A part, the word that names it, and the test in which that stands. */
interface Named {
  readonly name: PartName;
  readonly word: Cols;
  readonly test: Cols;
}

/** The parts that a condition names. A position stands for those that make its test true: “not TL is up” for all others of TL. */
function* namesIn(condition: Condition, craft: Craft, isNegated: boolean): Generator<Named> {
  const { start, end } = condition;
  const test = { start, end };
  switch (condition.kind) {
    case "or":
    case "and":
      for (const part of condition.parts) yield* namesIn(part, craft, isNegated);
      return;
    case "not":
      yield* namesIn(condition.part, craft, !isNegated);
      return;
    case "mode":
      yield { name: { kind: "mode", name: condition.name }, word: test, test };
      return;
    case "is": {
      const isOther = condition.negated !== isNegated;
      const { control: name, position } = condition;
      const others = isOther ? otherPositions(craft.controls.get(name)?.value, position) : [position];
      for (const each of whole(name, others)) yield { name: each, word: condition.controlAt, test };
      return;
    }
    case "in":
    case "above":
    case "below":
      for (const name of testedBy(condition, craft, isNegated)) yield { name, word: condition.subject, test };
      return;
    case "always":
      return;
  }
}

function otherPositions(control: ControlValue | null | undefined, position: string): string[] {
  return (control?.positions ?? []).map(({ name }) => name).filter((name) => name !== position);
}

/** Positions of a control; the control itself where there are none. */
function whole(name: string, positions: readonly string[]): PartName[] {
  if (positions.length === 0) return [{ kind: "control", name }];
  return positions.map((position) => ({ kind: "position", name, position }));
}

function testedBy(test: Condition & { subject: Subject }, craft: Craft, isNegated: boolean): PartName[] {
  const { subject } = test;
  const control =
    subject.kind === "control"
      ? craft.controls.get(subject.name)
      : [...craft.controls.values()].find(({ value }) => value?.channel === subject.channel);
  if (!control)
    return subject.kind === "control"
      ? [{ kind: "control", name: subject.name }]
      : [{ kind: "channel", name: `ch${subject.channel}` }];
  const positions = control.value?.positions.filter(({ pulseUs }) => fits(test, pulseUs) !== isNegated) ?? [];
  return whole(
    control.name,
    positions.map(({ name }) => name),
  );
}

function fits(test: Condition, pulseUs: number): boolean {
  switch (test.kind) {
    case "in":
      return pulseUs >= test.fromUs && pulseUs <= test.toUs;
    case "above":
      return pulseUs > test.boundUs;
    case "below":
      return pulseUs < test.boundUs;
    default:
      return false;
  }
}
