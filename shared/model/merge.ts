/** Files laid over one another: later wins, and every value knows its line. */
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
  type Follow,
  type Mode,
  type Placed,
  type Setting,
  type Source,
  type TakenBack,
} from "./craft.ts";
import type { Drop, Entry, Kept, Script } from "./script.ts";
import type { Part, Plan } from "./uses.ts";

const NO_FIELDS: ReadonlyMap<string, Source> = new Map();

/** What has been said so far, by all files up to the present one. */
interface Said {
  readonly settings: Map<string, Map<string, Setting>>;
  readonly modes: Map<string, Mode>;
  readonly outputs: Map<string, Mode>;
  readonly controls: Map<string, Control>;
  readonly osd: Map<string, Placed>;
  readonly osdSecond: Map<string, Placed>;
  readonly adjust: Map<string, Follow>;
  readonly sections: Map<string, Source>;
  kept: Kept[];
  readonly droppedNothing: DroppedNothing[];
  readonly takenBack: Map<string, TakenBack>;
}

/** The effective craft of a plan. */
export function mergeCraft(craft: Script, plan: Plan, catalogue: Catalogue): Craft {
  const said: Said = {
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
    takenBack: new Map(),
  };
  const via = new Map<string, number>();
  for (const part of plan.parts) {
    if (!via.has(part.script.file)) via.set(part.script.file, part.viaLine);
    layOver(said, part, catalogue);
  }
  return {
    script: craft,
    file: craft.file,
    name: craft.name,
    handset: plan.handset,
    scripts: plan.parts.map((part) => part.script),
    ...said,
    memo: new Map(),
    answersFor: (source) =>
      source.file === craft.file ? source : { file: craft.file, line: via.get(source.file) ?? craft.tree.header ?? 0 },
  };
}

function layOver(said: Said, { script }: Part, catalogue: Catalogue): void {
  for (const drop of script.drops) takeBack(said, drop, script, catalogue);
  for (const { section, line, known, misplaced, cleared } of script.sections) {
    if (known && !misplaced && !cleared) said.sections.set(section, { file: script.file, line });
  }
  const joint = new Map<string, Entry[]>();
  for (const entry of script.entries) {
    if (!joins(entry, catalogue)) layEntry(said, entry, script);
    else {
      const key = `${entry.section} ${entry.name}`;
      const lines = joint.get(key);
      if (lines) lines.push(entry);
      else joint.set(key, [entry]);
    }
  }
  for (const lines of joint.values()) layTogether(said, lines, script);
  if (script.kept.length > 0) said.kept = said.kept.concat(script.kept);
}

/** Whether the lines of this name in one file count together, and replace those of earlier files. */
function joins({ kind, section, name }: Entry, catalogue: Catalogue): boolean {
  if (kind === "mode" || kind === "output") return true;
  return kind === "setting" && catalogue.setting(baseOf(section), name)?.repeatable === true;
}

/** All lines of one mode, output or repeatable setting in one file. */
function layTogether(said: Said, entries: readonly Entry[], script: Script): void {
  const { kind, name, section } = entries[0]!;
  const lines = entries.map((entry) => ({
    value: entry.value,
    text: entry.text,
    source: { file: script.file, line: entry.line },
  }));
  if (kind === "setting") {
    const before = earlier(said.settings.get(section)?.get(name), said, section, name, script);
    laySetting(said, listOf(section, name, lines, before));
  } else (kind === "mode" ? said.modes : said.outputs).set(name, modeOf(name, lines));
}

/** One line of several that count together. */
interface LineSaid {
  readonly value: Value | null;
  readonly text: string;
  readonly source: Source;
}

function layEntry(said: Said, entry: Entry, script: Script): void {
  const { name, value, text, section } = entry;
  const source = { file: script.file, line: entry.line };

  switch (entry.kind) {
    case "control":
      said.controls.set(name, {
        name,
        value: value?.kind === "control" ? value : null,
        text,
        source,
        fromHandset: script.kind === "handset",
      });
      return;
    case "element":
      (section === "osd-second" ? said.osdSecond : said.osd).set(name, { name, value, text, source });
      return;
    case "follows":
      said.adjust.set(name, { name, value, text, source });
      return;
    case "setting": {
      const now = said.settings.get(section)?.get(name);
      laySetting(said, joinSetting(now, entry, text, source, earlier(now, said, section, name, script)));
    }
  }
}

/** What the files before this one said of a setting, its own drop notwithstanding; `now` is how it stands. */
function earlier(now: Setting | undefined, said: Said, section: string, name: string, script: Script): Setting | null {
  if (now) return now.source.file === script.file ? now.before : now;
  return said.takenBack.size === 0 ? null : (said.takenBack.get(`${section}.${name}`)?.setting ?? null);
}

function laySetting(said: Said, setting: Setting): void {
  tableOf(said, setting.section).set(setting.name, setting);
  if (said.takenBack.size > 0) said.takenBack.delete(`${setting.section}.${setting.name}`);
}

function tableOf(said: Said, section: string): Map<string, Setting> {
  const table = said.settings.get(section) ?? new Map<string, Setting>();
  said.settings.set(section, table);
  return table;
}

/** The lines of one mode, joined as "or". */
function modeOf(name: string, lines: readonly LineSaid[]): Mode {
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

/** Fields merge one by one over those said before, in the same file or an earlier one; all else is replaced. */
function joinSetting(
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
  const merged: Value = { ...value, fields: [...fields.values()] };
  return {
    section,
    name,
    value: merged,
    text: printValue(merged),
    source,
    fieldSources: sources,
    items: null,
    before,
  };
}

/** The lines of a repeatable setting: a list, in order. */
function listOf(section: string, name: string, lines: readonly LineSaid[], before: Setting | null): Setting {
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

function takeBack(said: Said, drop: Drop, script: Script, catalogue: Catalogue): void {
  const source = { file: script.file, line: drop.line };
  const { node } = script.tree.lines[drop.line]!;
  const nothing = (name: string, at: { start: number; end: number }) =>
    said.droppedNothing.push({ section: drop.section, name, source, start: at.start, end: at.end });
  if (drop.all) {
    const at = node.kind === "drop" ? (node.all ?? node.word) : { start: 0, end: 0 };
    for (const setting of said.settings.get(drop.section)?.values() ?? []) remember(said, setting, source, at);
    if (!takeAll(said, drop.section)) nothing("all", at);
    return;
  }
  for (const word of drop.names) {
    const setting = said.settings.get(drop.section)?.get(word.text);
    if (setting) remember(said, setting, source, word);
    const taken = mapsOf(said, drop.section).map((map) => map.delete(word.text));
    if (!taken.includes(true) && isKnown(drop.section, word.text, catalogue)) nothing(word.text, word);
  }
}

function remember(said: Said, setting: Setting, source: Source, { start, end }: Cols): void {
  said.takenBack.set(`${setting.section}.${setting.name}`, { setting, source, start, end });
}

/** Whether a section could hold a name at all; one that it could not is told as unknown. */
function isKnown(section: string, name: string, catalogue: Catalogue): boolean {
  const spec = catalogue.section(baseOf(section));
  if (spec?.holds === "modes") return catalogue.mode(name) !== undefined;
  if (spec?.holds === "places" && catalogue.element(name)) return true;
  if (spec?.holds === "places" || spec?.holds === "settings") return catalogue.setting(spec.name, name) !== undefined;
  return true;
}

function takeAll(said: Said, section: string): boolean {
  said.sections.delete(section);
  const before = said.kept.length;
  if (section.startsWith("verbatim/")) {
    const dialect = section.slice("verbatim/".length);
    said.kept = said.kept.filter((line) => line.dialect !== dialect);
    return said.kept.length < before;
  }
  const maps = mapsOf(said, section).filter((map) => map.size > 0);
  for (const map of maps) map.clear();
  return maps.length > 0;
}

function mapsOf(said: Said, section: string): Map<string, unknown>[] {
  const settings = said.settings.get(section);
  const own = {
    modes: said.modes,
    outputs: said.outputs,
    controls: said.controls,
    adjust: said.adjust,
    osd: said.osd,
    "osd-second": said.osdSecond,
  }[section];
  return [settings, own].filter((map) => map !== undefined);
}
