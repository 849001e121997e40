/** The changes of one file after which a name means the same on a craft as on another one. */
import type { Craft } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { Field } from "../../syntax/value.ts";
import { meaningOf } from "../compare/meaning.ts";
import { countChanges, fewestChanges, type Step } from "./fewest-changes.ts";
import type { ScriptChange } from "./script-changes.ts";
import { indentOf, linesOfNote } from "./script-edits.ts";
import { meaningOfField, type Stated, saysTheSame, statedIn } from "./stated.ts";

/** The file that is changed, in the craft that it is part of. */
export interface AdoptScope {
  readonly script: Script;
  /** The craft of the files before this one. */
  readonly base: Craft;
  /** The files behind it, whose lines win. */
  readonly later: readonly Script[];
}

/** The changes that make a name mean what `wanted` says; a sentence where a later file would win. */
export function entryChanges(
  scope: AdoptScope,
  section: string,
  name: string,
  wanted: Exclude<Stated, { kind: "faulty" }> | null,
): ScriptChange[] | string {
  const { script } = scope;
  const place: Place = {
    script,
    section,
    name,
    own: script.entries.filter((entry) => entry.name === name && entry.section === section),
    below: statedIn(scope.base, section, name),
    dropped: droppedBy(script, section, name),
  };
  if (wanted?.kind === "fields") return fieldChanges(place, wanted.fields, scope.later);
  const later = laterLine(scope.later, section, name);
  if (later) return wins(later, name);
  if (wanted === null) return withoutIt(place);
  const undone = withoutDrop(place, wanted);
  if (undone) return undone;
  if (wanted.kind === "line") return lineChanges(place, wanted.rest);
  return listChanges(place, wanted);
}

/** A name in the file that is changed. */
interface Place {
  readonly script: Script;
  readonly section: string;
  readonly name: string;
  /** The lines of the file that say it, in order. */
  readonly own: readonly Entry[];
  /** What earlier files say, before any drop of this one. */
  readonly below: Stated | null;
  /** The drop of the file that takes it back; `all` where it takes the whole section. */
  readonly dropped: { readonly line: number; readonly all: boolean } | null;
}

function droppedBy(script: Script, section: string, name: string): Place["dropped"] {
  const found = script.drops.filter((drop) => drop.section === section && dropsName(drop, name));
  return found.find(({ all }) => all) ?? found[0] ?? null;
}

function dropsName({ all, names }: Script["drops"][number], name: string): boolean {
  return all || names.some(({ text }) => text === name);
}

interface LaterLine {
  readonly script: Script;
  readonly line: number;
}

/** The last line of a later file that says or drops a name. */
function laterLine(later: readonly Script[], section: string, name: string): LaterLine | null {
  for (const script of later.toReversed()) {
    const entry = script.entries.findLast((each) => each.name === name && each.section === section);
    const line = entry?.line ?? droppedBy(script, section, name)?.line;
    if (line !== undefined) return { script, line };
  }
  return null;
}

/** Why a change of an earlier file would do nothing, in a sentence. */
export function wins({ script, line }: LaterLine, name: string): string {
  return `Line ${line + 1} of “${script.name}” says “${name}” later and would win: take it there, or into the craft itself.`;
}

/** The name is taken out: its own lines go, and a `drop` takes back what earlier files say. */
function withoutIt({ section, name, own, below, dropped }: Place): ScriptChange[] | string {
  const changes: ScriptChange[] = own.map(({ line }) => ({ kind: "delete", line }));
  if (name === "all" && below && !dropped)
    return "An earlier file says “all”, and no “drop” can take back that name alone: “drop all” takes the whole section.";
  return below && !dropped ? [...changes, { kind: "drop", section, name }] : changes;
}

/** Where a drop alone stands between the craft and what it is to say, the name is taken out of the drop. */
function withoutDrop({ script, section, name, own, below, dropped }: Place, wanted: Stated): ScriptChange[] | null {
  if (!dropped || dropped.all || own.length > 0 || !saysTheSame(below, wanted)) return null;
  return script.drops
    .filter((drop) => drop.section === section && dropsName(drop, name))
    .map(({ line }) => ({ kind: "undrop", line, name }));
}

/** Of several lines the last one counts, so that is the one which is changed. */
function lineChanges({ section, name, own }: Place, rest: string): ScriptChange[] {
  const last = own.at(-1);
  if (last) return [{ kind: "value", line: last.line, text: rest }];
  return [{ kind: "entry", section, entry: { name, rest } }];
}

/** Several lines that count together: written in the way that changes the fewest of those that are there. */
function listChanges(place: Place, wanted: Extract<Stated, { kind: "lines" }>): ScriptChange[] {
  const own = place.own.map(meaningOfLine);
  const ways = [{ rests: wanted.rests, meanings: wanted.meanings }];
  for (const rests of wanted.ways) ways.push({ rests, meanings: rests });
  const tried = ways.map(({ rests, meanings }) => ({ rests, steps: fewestChanges(own, meanings) }));
  const best = tried.reduce((least, each) => (countChanges(each.steps) < countChanges(least.steps) ? each : least));
  return changesOfSteps(place, best.steps, best.rests);
}

/** A meaning that no line has which says something. */
const FAULTY = "?";

function meaningOfLine({ kind, value, text }: Entry): string {
  if (value === null) return FAULTY;
  return kind === "mode" || kind === "output" ? `when ${text}` : meaningOf(value, text);
}

function changesOfSteps(place: Place, steps: readonly Step[], rests: readonly string[]): ScriptChange[] {
  const { script, section, name, own } = place;
  const changes = steps.flatMap((step): ScriptChange[] => {
    if (step.kind === "keep") return [];
    if (step.kind === "change") return [{ kind: "value", line: own[step.from]!.line, text: rests[step.to]! }];
    if (step.kind === "remove") return [{ kind: "delete", line: own[step.from]!.line }];
    const rest = rests[step.to]!;
    if (own.length === 0) return [{ kind: "entry", section, entry: { name, rest } }];
    const model = own[Math.max(0, step.after)]!;
    const line = step.after < 0 ? lineAbove(script, model.line) : model.line;
    return [{ kind: "below", line, text: likeLine(script, model.line) + rest }];
  });
  return [...changes, ...keptNotes(place, steps)];
}

/**
 * The lines of a mode are one condition: where one of them goes and the mode stays, what the pilot wrote at it comes to
 * stand above the line that says the new condition, else above the first that is left.
 */
function keptNotes({ script, section, own }: Place, steps: readonly Step[]): ScriptChange[] {
  const heir = steps.find((step) => step.kind === "change") ?? steps.find((step) => step.kind === "keep");
  if (!heir || (section !== "modes" && section !== "outputs")) return [];
  const removed = steps.flatMap((step) => (step.kind === "remove" ? own[step.from]!.line : []));
  return notesAbove(script, own[heir.from]!.line, removed);
}

/** The comments of lines that are deleted, in their order as whole lines above the line that now says what they said. */
function notesAbove(script: Script, heir: number, deleted: readonly number[]): ScriptChange[] {
  const { lines } = script.tree;
  const indent = indentOf(lines[heir]!.text);
  return deleted.flatMap((line) => {
    const { text, comment } = lines[line]!;
    const notes = linesOfNote(script, line).map((each) => lines[each]!.text);
    if (comment) notes.push(indent + text.slice(comment.start, comment.end));
    const above = line < heir ? lineAbove(script, heir) : heir - 1;
    return notes.map((note): ScriptChange => ({ kind: "below", line: above, text: note }));
  });
}

/** The line above an entry and the comments that stand over it. */
export function lineAbove({ tree }: Script, line: number): number {
  let above = line - 1;
  while (tree.lines[above]?.node.kind === "comment") above--;
  return above;
}

/** All that stands before the value of a line: its indent, its name and the blanks behind it. */
function likeLine({ tree }: Script, line: number): string {
  const { node, text } = tree.lines[line]!;
  if (node.kind !== "entry") return "  ";
  return node.value.start < node.value.end ? text.slice(0, node.value.start) : `${text.slice(0, node.head.end)}  `;
}

/** Fields are changed one by one, each where it is said last; a field that is not wanted may need a fresh start. */
function fieldChanges(place: Place, wanted: readonly Field[], later: readonly Script[]): ScriptChange[] | string {
  const { section, name, own, below, dropped } = place;
  const override = laterFields(later, section, name, wanted);
  if (typeof override === "string") return override;
  const open = wanted.filter((field) => !override.has(field.name));
  const earlier = below?.kind === "fields" && !dropped ? below.fields : [];
  if (own.some(({ value }) => value?.kind !== "fields")) return writtenAnew(place, open, earlier);
  const names = new Set(wanted.map((field) => field.name));
  const restarts = earlier.some((field) => !names.has(field.name));
  const changes: ScriptChange[] = restarts ? [{ kind: "drop", section, name }] : [];
  const now = restarts ? [] : earlier;
  return [...changes, ...changedFields(place, open, names, now)];
}

/** The fields that later files say as it is wanted; a sentence where one of them says otherwise, or all of it anew. */
function laterFields(
  later: readonly Script[],
  section: string,
  name: string,
  wanted: readonly Field[],
): ReadonlySet<string> | string {
  const found = new Map<string, { readonly field: Field; readonly at: LaterLine }>();
  for (const script of later) {
    const dropped = droppedBy(script, section, name);
    if (dropped) return wins({ script, line: dropped.line }, name);
    for (const { value, line, ...entry } of script.entries) {
      if (entry.name !== name || entry.section !== section) continue;
      if (value?.kind !== "fields") return wins({ script, line }, name);
      for (const field of value.fields) found.set(field.name, { field, at: { script, line } });
    }
  }
  for (const { field, at } of found.values()) {
    const same = wanted.find((each) => each.name === field.name);
    if (!same || meaningOfField(same) !== meaningOfField(field)) return wins(at, `${name} ${field.name}`);
  }
  return new Set(found.keys());
}

/** After a line with a fault nothing earlier counts: the last line of the file says all, and the others go. */
function writtenAnew(place: Place, wanted: readonly Field[], earlier: readonly Field[]): ScriptChange[] {
  const { section, name, own } = place;
  const last = own.at(-1)!;
  const rest = own.slice(0, -1).map(({ line }) => line);
  const names = new Set(wanted.map((field) => field.name));
  const isDropped = earlier.some((field) => !names.has(field.name));
  return [
    ...(isDropped ? [{ kind: "drop", section, name } as const] : []),
    ...rest.map((line): ScriptChange => ({ kind: "delete", line })),
    { kind: "value", line: last.line, text: wanted.map(printField).join("  ") },
    ...notesAbove(place.script, last.line, rest),
  ];
}

function printField({ name, value }: Field): string {
  return `${name} ${printValue(value)}`;
}

/** A line of the file while its fields are changed: each with what stands before it. */
interface FieldLine {
  readonly line: number;
  readonly fields: { readonly name: string; readonly before: string; text: string }[];
  isChanged: boolean;
}

/**
 * The changes of the file's own lines, over the fields of earlier files: those in `names` alone stay, and of them those
 * in `wanted` come to say what is wanted.
 */
function changedFields(
  place: Place,
  wanted: readonly Field[],
  names: ReadonlySet<string>,
  earlier: readonly Field[],
): ScriptChange[] {
  const lines = place.own.map((entry) => fieldLine(place.script, entry));
  const saidEarlier = new Map(earlier.map((field) => [field.name, meaningOfField(field)]));
  const missing: Field[] = [];
  for (const field of wanted) {
    const entry = place.own.findLast(({ value }) => fieldIn(value, field.name));
    const meaning = meaningOfField(field);
    if (!entry) {
      if (saidEarlier.get(field.name) !== meaning) missing.push(field);
      continue;
    }
    if (meaningOfField(fieldIn(entry.value, field.name)!) === meaning) continue;
    const line = lines.find((each) => each.line === entry.line)!;
    line.fields.find((each) => each.name === field.name)!.text = printField(field);
    line.isChanged = true;
  }
  for (const line of lines) {
    const left = line.fields.filter((each) => names.has(each.name));
    if (left.length === line.fields.length) continue;
    line.fields.splice(0, line.fields.length, ...left);
    line.isChanged = true;
  }
  const last = lines.findLast(({ fields }) => fields.length > 0) ?? lines.at(-1);
  const { section, name } = place;
  if (!last && missing.length > 0)
    return [{ kind: "entry", section, entry: { name, rest: missing.map(printField).join("  ") } }];
  for (const field of missing) {
    const before = last!.fields.at(-1)?.before || "  ";
    last!.fields.push({ name: field.name, before, text: printField(field) });
    last!.isChanged = true;
  }
  return lines.flatMap(({ line, fields, isChanged }): ScriptChange[] => {
    if (!isChanged) return [];
    if (fields.length === 0) return [{ kind: "delete", line }];
    const text = fields.map(({ before, text: said }, i) => (i === 0 ? said : (before || "  ") + said)).join("");
    return [{ kind: "value", line, text }];
  });
}

function fieldIn(value: Entry["value"], name: string): Field | undefined {
  return value?.kind === "fields" ? value.fields.find((field) => field.name === name) : undefined;
}

function fieldLine({ tree }: Script, { line, value }: Entry): FieldLine {
  const { text } = tree.lines[line]!;
  const fields = value?.kind === "fields" ? value.fields : [];
  return {
    line,
    isChanged: false,
    fields: fields.map(({ name, nameAt, value: said }, i) => ({
      name,
      before: i === 0 ? "" : text.slice(fields[i - 1]!.value.end, nameAt.start),
      text: text.slice(nameAt.start, said.end),
    })),
  };
}
