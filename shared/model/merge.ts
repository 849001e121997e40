/** Merges the files of a craft: later files win, and every value keeps its source line. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Condition } from "../syntax/condition.ts";
import { printCondition, printValue } from "../syntax/print-value.ts";
import type { Cols } from "../syntax/span.ts";
import type { Field, Value } from "../syntax/value.ts";
import {
  baseOf,
  type Control,
  type Craft,
  type DroppedNothing,
  type FollowingSetting,
  type Mode,
  type Placed,
  type RemovedSetting,
  type Setting,
  type Source,
} from "./craft.ts";
import { sameGaps } from "./gaps.ts";
import { craftOf, tablesOf } from "./listened-craft.ts";
import type { CoreMemo } from "./memo.ts";
import { repeatableIn } from "./repeatable.ts";
import { withSame } from "./same-settings.ts";
import type { Drop, Entry, Kept, Script, SectionReading } from "./script.ts";
import { touchedSections } from "./touched-sections.ts";
import type { Plan } from "./uses.ts";

const NO_FIELDS: ReadonlyMap<string, Source> = new Map();

/** The result of merging all files up to the current one. */
interface MergeState {
  readonly settings: Map<string, Map<string, Setting>>;
  readonly modes: Map<string, Mode>;
  readonly outputs: Map<string, Mode>;
  readonly controls: Map<string, Control>;
  readonly osd: Map<string, Placed>;
  readonly osdSecond: Map<string, Placed>;
  readonly adjust: Map<string, FollowingSetting>;
  readonly sections: Map<string, Source>;
  kept: Kept[];
  readonly droppedNothing: DroppedNothing[];
  readonly removedByDrop: Map<string, RemovedSetting>;
}

function nothingYet(): MergeState {
  return {
    settings: new Map(),
    modes: new Map(),
    outputs: new Map(),
    controls: new Map(),
    osd: new Map(),
    osdSecond: new Map(),
    adjust: new Map(),
    sections: new Map(),
    kept: [],
    droppedNothing: [],
    removedByDrop: new Map(),
  };
}

/** A craft, and the plan by which it was merged. */
export interface Merged {
  readonly plan: Plan;
  readonly craft: Craft;
}

/**
 * Merges the files of a plan, in its order, into the effective craft; `coreMemo` is that of the core that asks for it.
 * `before` only saves work: parts of which no line has changed since are the same objects.
 */
export function mergeCraft(
  craft: Script,
  plan: Plan,
  catalogue: Catalogue,
  coreMemo: CoreMemo,
  before?: Merged,
): Craft {
  const touched = before ? touchedSections(before.plan, plan) : null;
  const again = before && touched ? mergedAgain(before.craft, plan, touched, catalogue) : null;
  const { file, name, tree } = craft;
  return craftOf(
    {
      script: craft,
      file,
      name,
      handset: plan.handset,
      scripts: plan.parts.map((part) => part.script),
      gaps: before && sameGaps(before.plan.gaps, plan.gaps) ? before.craft.gaps : plan.gaps,
      ...(again ?? mergedParts(plan, catalogue)),
      answersFor: again ? before!.craft.answersFor : answering(file, tree.header ?? 0, plan),
    },
    coreMemo,
  );
}

function answering(file: string, header: number, { parts }: Plan): Craft["answersFor"] {
  const via = new Map<string, number>();
  for (const { script, viaLine } of parts) if (!via.has(script.file)) via.set(script.file, viaLine);
  return (source) => (source.file === file ? source : { file, line: via.get(source.file) ?? header });
}

function mergedParts({ parts }: Plan, catalogue: Catalogue): MergeState {
  const state = nothingYet();
  for (const { script } of parts) {
    for (const drop of script.drops) applyDrop(state, drop, script, catalogue);
    for (const { section, line, known, misplaced, cleared } of script.sections) {
      if (known && !misplaced && !cleared) state.sections.set(section, { file: script.file, line });
    }
    applyEntries(state, script, script.readings, catalogue);
    if (script.kept.length > 0) state.kept = state.kept.concat(script.kept);
  }
  return state;
}

/** The parts of a craft after lines of some sections have changed; null where a section begins to hold settings, or no longer does. */
function mergedAgain(before: Craft, { parts }: Plan, touched: ReadonlySet<string>, catalogue: Catalogue) {
  const state = nothingYet();
  for (const { script } of parts) {
    const readings = script.readings.filter(({ about }) => touched.has(about.section));
    applyEntries(state, script, readings, catalogue);
  }
  let settings = tablesOf(before);
  for (const section of touched) {
    const table = state.settings.get(section);
    // The order of the sections is that in which files first say something in them.
    if ((table !== undefined) !== settings.has(section)) return null;
    if (table) settings = new Map(settings).set(section, withSame(settings.get(section)!, table));
  }
  const { kept, droppedNothing, removedByDrop, sections } = before;
  return {
    settings,
    modes: touched.has("modes") ? state.modes : before.modes,
    outputs: touched.has("outputs") ? state.outputs : before.outputs,
    controls: touched.has("controls") ? state.controls : before.controls,
    osd: touched.has("osd") ? state.osd : before.osd,
    osdSecond: touched.has("osd-second") ? state.osdSecond : before.osdSecond,
    adjust: touched.has("adjust") ? state.adjust : before.adjust,
    kept,
    droppedNothing,
    removedByDrop,
    sections,
  };
}

function applyEntries(
  state: MergeState,
  script: Script,
  readings: readonly SectionReading[],
  catalogue: Catalogue,
): void {
  const joint = new Map<string, Entry[]>();
  for (const { about, entries } of readings) {
    const { section } = about;
    const repeatable = repeatableIn(baseOf(section), catalogue);
    // All lines of one section go to one table, which is looked up once.
    let table: Map<string, Setting> | undefined;
    for (const entry of entries) {
      if (entry.kind === "setting") table ??= tableOf(state, section);
      if (isJoint(entry, repeatable)) {
        const key = `${section} ${entry.name}`;
        const lines = joint.get(key);
        if (lines) lines.push(entry);
        else joint.set(key, [entry]);
      } else if (table && entry.kind === "setting") applySetting(state, entry, script, table);
      else applyEntry(state, entry, script);
    }
  }
  for (const lines of joint.values()) applyJointLines(state, lines, script);
}

/** Whether all lines of this name in one file combine, and together replace those of earlier files. */
function isJoint({ kind, name }: Entry, repeatable: ReadonlySet<string>): boolean {
  return kind === "mode" || kind === "output" || (kind === "setting" && repeatable.has(name));
}

/** Applies all lines of one mode, output or repeatable setting of one file. */
function applyJointLines(state: MergeState, entries: readonly Entry[], script: Script): void {
  const { kind, name, section } = entries[0]!;
  const lines = entries.map((entry) => ({
    value: entry.value,
    text: entry.text,
    source: { file: script.file, line: entry.line },
  }));
  if (kind === "setting") {
    const before = earlierSetting(state.settings.get(section)?.get(name), state, section, name, script);
    putSetting(state, listOf(section, name, lines, before));
  } else (kind === "mode" ? state.modes : state.outputs).set(name, modeOf(name, lines));
}

/** One line of several that combine. */
interface SourceLine {
  readonly value: Value | null;
  readonly text: string;
  readonly source: Source;
}

function applyEntry(state: MergeState, entry: Entry, script: Script): void {
  const { name, value, text, section } = entry;
  const source = { file: script.file, line: entry.line };

  switch (entry.kind) {
    case "control":
      state.controls.set(name, {
        name,
        value: value?.kind === "control" ? value : null,
        text,
        source,
        fromHandset: script.kind === "handset",
      });
      return;
    case "element":
      (section === "osd-second" ? state.osdSecond : state.osd).set(name, { name, value, text, source });
      return;
    case "follows":
      state.adjust.set(name, { name, value, text, source });
  }
}

/** Applies a line of a setting; `table` is that of its section. */
function applySetting(state: MergeState, entry: Entry, script: Script, table: Map<string, Setting>): void {
  const { name, text, section, line } = entry;
  const now = table.get(name);
  const before = earlierSetting(now, state, section, name, script);
  table.set(name, mergeSetting(now, entry, text, { file: script.file, line }, before));
  if (state.removedByDrop.size > 0) state.removedByDrop.delete(`${section}.${name}`);
}

/**
 * The value that files before `script` gave a setting, also if a `drop` of `script` removed it; null if none did.
 * `now` is the value merged so far.
 */
function earlierSetting(
  now: Setting | undefined,
  state: MergeState,
  section: string,
  name: string,
  script: Script,
): Setting | null {
  if (now) return now.source.file === script.file ? now.before : now;
  return state.removedByDrop.size === 0 ? null : (state.removedByDrop.get(`${section}.${name}`)?.setting ?? null);
}

function putSetting(state: MergeState, setting: Setting): void {
  tableOf(state, setting.section).set(setting.name, setting);
  if (state.removedByDrop.size > 0) state.removedByDrop.delete(`${setting.section}.${setting.name}`);
}

function tableOf(state: MergeState, section: string): Map<string, Setting> {
  let table = state.settings.get(section);
  if (!table) {
    table = new Map();
    state.settings.set(section, table);
  }
  return table;
}

/** A mode whose condition is that of all its lines, joined by `or`. */
function modeOf(name: string, lines: readonly SourceLine[]): Mode {
  const conditions = lines.map(({ value, source }) => ({
    source,
    condition: value?.kind === "condition" ? value.condition : null,
  }));
  const joined = joinConditions(conditions.map(({ condition }) => condition));
  const text = joined ? printCondition(joined) : lines.map((line) => line.text).join("; ");
  return { name, condition: joined, text, lines: conditions };
}

function joinConditions(conditions: readonly (Condition | null)[]): Condition | null {
  const parts: Condition[] = [];
  for (const condition of conditions) {
    if (!condition) return null;
    parts.push(condition);
  }
  return parts.length === 1 ? parts[0]! : { kind: "or", parts, start: 0, end: 0 };
}

/** Fields override one by one those set before, in the same file or an earlier one; any other value is replaced. */
function mergeSetting(
  now: Setting | undefined,
  entry: Entry,
  text: string,
  source: Source,
  before: Setting | null,
): Setting {
  const { section, name, value } = entry;
  if (value?.kind !== "fields")
    return { section, name, value, text, source, fieldSources: NO_FIELDS, items: null, before };
  const fields = new Map<string, Field>();
  const sources = new Map<string, Source>();
  if (now?.value?.kind === "fields") {
    for (const field of now.value.fields) {
      fields.set(field.name, field);
      sources.set(field.name, now.fieldSources.get(field.name) ?? now.source);
    }
  }
  for (const field of value.fields) {
    fields.set(field.name, field);
    sources.set(field.name, source);
  }
  // A line by itself gives the very value that was read of it, by which it is known again.
  const isAlone = now?.value?.kind !== "fields" && fields.size === value.fields.length;
  const merged: Value = isAlone ? value : { ...value, fields: [...fields.values()] };
  return {
    section,
    name,
    value: merged,
    text: isAlone ? text : printValue(merged),
    source,
    fieldSources: sources,
    items: null,
    before,
  };
}

/** A repeatable setting, with one item for each of its lines, in order. */
function listOf(section: string, name: string, lines: readonly SourceLine[], before: Setting | null): Setting {
  const { value, source } = lines.at(-1)!;
  return {
    section,
    name,
    value,
    text: lines.map((line) => line.text).join("; "),
    source,
    fieldSources: NO_FIELDS,
    items: lines.map((line) => ({ value: line.value, source: line.source })),
    before,
  };
}

function applyDrop(state: MergeState, drop: Drop, script: Script, catalogue: Catalogue): void {
  const source = { file: script.file, line: drop.line };
  const { node } = script.tree.lines[drop.line]!;
  const reportIdleDrop = (name: string, at: { start: number; end: number }) =>
    state.droppedNothing.push({ section: drop.section, name, source, start: at.start, end: at.end });
  if (drop.all) {
    const at = node.kind === "drop" ? (node.all ?? node.word) : { start: 0, end: 0 };
    for (const setting of state.settings.get(drop.section)?.values() ?? []) recordRemoved(state, setting, source, at);
    if (!dropAll(state, drop.section)) reportIdleDrop("all", at);
    return;
  }
  for (const word of drop.names) {
    const setting = state.settings.get(drop.section)?.get(word.text);
    if (setting) recordRemoved(state, setting, source, word);
    const deleted = mapsOf(state, drop.section).map((map) => map.delete(word.text));
    if (!deleted.includes(true) && isKnown(drop.section, word.text, catalogue)) reportIdleDrop(word.text, word);
  }
}

function recordRemoved(state: MergeState, setting: Setting, source: Source, { start, end }: Cols): void {
  state.removedByDrop.set(`${setting.section}.${setting.name}`, { setting, source, start, end });
}

/** Whether a name can occur in a section at all; one that cannot is reported as unknown elsewhere. */
function isKnown(section: string, name: string, catalogue: Catalogue): boolean {
  const spec = catalogue.section(baseOf(section));
  if (spec?.holds === "modes") return catalogue.mode(name) !== undefined;
  if (spec?.holds === "places" && catalogue.element(name)) return true;
  if (spec?.holds === "places" || spec?.holds === "settings") return catalogue.setting(spec.name, name) !== undefined;
  return true;
}

function dropAll(state: MergeState, section: string): boolean {
  state.sections.delete(section);
  const before = state.kept.length;
  if (section.startsWith("verbatim/")) {
    const dialect = section.slice("verbatim/".length);
    state.kept = state.kept.filter((line) => line.dialect !== dialect);
    return state.kept.length < before;
  }
  const maps = mapsOf(state, section).filter((map) => map.size > 0);
  for (const map of maps) map.clear();
  return maps.length > 0;
}

function mapsOf(state: MergeState, section: string): Map<string, unknown>[] {
  const settings = state.settings.get(section);
  const own = {
    modes: state.modes,
    outputs: state.outputs,
    controls: state.controls,
    adjust: state.adjust,
    osd: state.osd,
    "osd-second": state.osdSecond,
  }[section];
  return [settings, own].filter((map) => map !== undefined);
}
