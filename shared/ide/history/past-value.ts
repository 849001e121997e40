/** What one name comes to on one craft, at whatever moment its files are looked at. */
import { baseOf, type Craft, type Setting, type Source } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import { knownPart } from "../../model/known-part.ts";
import { copyOf } from "../../model/listened-craft.ts";
import type { Script } from "../../model/script.ts";
import { resolvePath } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { printValue } from "../../syntax/print-value.ts";
import { quote } from "../../syntax/scanner.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { meaningOf } from "../compare/meaning.ts";
import { canonicalText } from "../context/canonical-text.ts";
import { effectiveEntryIn, type NamedEntry, notesOf } from "../context/effective-entry.ts";

/** A name in a section of a craft as resolved, such as `pack/Winter` and `cells`; of a value of several fields one of them, or null. */
export interface ValueName {
  readonly section: string;
  readonly name: string;
  readonly field: string | null;
}

/** What one line says of a name. */
export interface SaidPart {
  readonly text: string;
  readonly source: Source;
}

/** What a name came to. */
export type PastValue =
  | {
      readonly kind: "said";
      /** In canonical spelling. */
      readonly text: string;
      /** Equal for texts that mean the same, such as 1.1 Ah and 1100 mAh. */
      readonly meaning: string;
      /** What its lines say of it, the last one last: fields, items of a list, lines of a mode, or all of it in one. */
      readonly parts: readonly SaidPart[];
      readonly note: string;
    }
  /** No file says it; `source` is the line that took it back, where one did. */
  | { readonly kind: "unsaid"; readonly source: Source | null }
  /** It cannot be told, for the reason `why`: a sentence without its full stop. `text` is what the line holds, if one does. */
  | { readonly kind: "unknown"; readonly why: string; readonly text: string; readonly source: Source | null }
  /** The craft is not there. */
  | { readonly kind: "absent" };

/** What a name comes to on the craft of a file, or on a layer or a handset by itself. */
export function pastValue(workspace: Workspace, file: FilePath, name: ValueName): PastValue {
  const answer = workspace.view.read(file);
  if (answer?.kind === "missing") return { kind: "absent" };
  const script = workspace.script(file);
  const craft = script && workspace.craftLike(file);
  if (!craft) return unknown(answer?.kind === "unreadable" ? answer.why : "the file cannot be read");
  const why = whyNoScript(script);
  if (why !== null) return unknown(why);
  const said = saidOn(craft, workspace, name);
  const conflict = conflictOver(craft, name, said);
  if (conflict) return unknown("a merge left a conflict here", said?.text, conflict);
  if (said?.isFaulty) return unknown("the line has a fault", said.text, said.parts.at(-1)?.source);
  const missing = whyMissing(craft, workspace, name);
  if (missing) return unknown(missing.why, said?.text, missing.source);
  if (!said) return { kind: "unsaid", source: droppedBy(craft, name) };
  const { text, meaning, parts } = said;
  const note = notesOf(
    workspace,
    parts.map(({ source }) => source),
  );
  return { kind: "said", text, meaning, parts, note };
}

/** The line that a value is told of: of several the last that says what `before` does not. */
export function placeOf(value: PastValue, before: PastValue): Source | null {
  if (value.kind === "absent") return null;
  if (value.kind !== "said") return value.source;
  const earlier = new Set(before.kind === "said" ? before.parts.map(({ text }) => text) : []);
  return (value.parts.findLast(({ text }) => !earlier.has(text)) ?? value.parts.at(-1))?.source ?? null;
}

/** Whether two of them are the same in canonical spelling. A craft that is not there says nothing. */
export function isSameValue(a: PastValue, b: PastValue): boolean {
  if (a.kind === "said") return b.kind === "said" && a.text === b.text;
  if (a.kind === "unknown") return b.kind === "unknown" && a.why === b.why && a.text === b.text;
  return b.kind === "unsaid" || b.kind === "absent";
}

function unknown(why: string, text = "", source: Source | null = null): PastValue {
  return { kind: "unknown", why, text, source };
}

function whyNoScript(script: Script): string | null {
  if (script.tree.newer) return "it was written in a newer edition of the language than this program knows";
  if (script.kind === "dialect") return "the file was a dialect";
  const isEmpty = script.entries.length + script.uses.length + script.kept.length + script.drops.length === 0;
  return script.tree.header === null && isEmpty ? "the file was no script" : null;
}

interface Said {
  readonly text: string;
  readonly meaning: string;
  readonly parts: readonly SaidPart[];
  readonly isFaulty: boolean;
}

function saidOn(craft: Craft, workspace: Workspace, { section, name, field }: ValueName): Said | null {
  if (section === "handset") return handsetName(craft);
  if (section.startsWith("verbatim/")) return keptText(craft, section.slice("verbatim/".length));
  const setting = craft.settings.get(section)?.get(name);
  if (!setting) return entryNamed(craft, workspace, section, name);
  const { value, items, fieldSources, source } = setting;
  if (field !== null && !items && value?.kind === "fields") {
    const found = value.fields.find((each) => each.name === field);
    if (!found) return null;
    const text = printValue(found.value);
    const parts = [{ text, source: fieldSources.get(field) ?? source }];
    return { text, meaning: meaningOf(found.value, text), parts, isFaulty: false };
  }
  const text = canonicalText(setting, workspace.catalogue.setting(baseOf(section), name));
  const values = items ? items.map((item) => item.value) : [value];
  return {
    text,
    meaning: values.map((each) => meaningOf(each, text)).join("; "),
    parts: partsOf(setting, text),
    isFaulty: values.includes(null),
  };
}

function partsOf({ value, items, fieldSources, source }: Setting, text: string): SaidPart[] {
  if (items) return items.map((item) => ({ text: item.value ? printValue(item.value) : "", source: item.source }));
  if (value?.kind !== "fields") return [{ text, source }];
  return value.fields.map((field) => ({
    text: `${field.name} ${printValue(field.value)}`,
    source: fieldSources.get(field.name) ?? source,
  }));
}

/** A mode, an output, an element, a control or what a dial adjusts. */
function entryNamed(craft: Craft, workspace: Workspace, section: string, name: string): Said | null {
  const kind = kindIn(workspace, section);
  const entry = kind && effectiveEntryIn(craft, { kind, section, name });
  if (!entry) return null;
  const text = entry.text.replace(/^when /, "");
  return {
    text,
    meaning: text,
    parts: entry.sources.map(({ source }) => ({ text: lineText(workspace, source), source })),
    isFaulty: entry.faulty.length > 0,
  };
}

/** As what a section holds its names; null where it holds settings only. */
function kindIn({ catalogue }: Workspace, section: string): NamedEntry["kind"] | null {
  const holds = catalogue.section(baseOf(section))?.holds;
  if (holds === "modes") return "mode";
  if (holds === "places") return "element";
  if (section === "outputs") return "output";
  if (section === "controls") return "control";
  return section === "adjust" ? "follows" : null;
}

function lineText(workspace: Workspace, { file, line }: Source): string {
  return workspace.script(file)?.entries.find((each) => each.line === line)?.text ?? "";
}

function handsetName({ handset }: Craft): Said | null {
  if (!handset) return null;
  const text = quote(handset.name);
  const parts = [{ text, source: { file: handset.file, line: handset.tree.header ?? 0 } }];
  return { text, meaning: text, parts, isFaulty: false };
}

function keptText({ kept }: Craft, dialect: string): Said | null {
  const lines = kept.filter((each) => each.dialect === dialect);
  if (lines.length === 0) return null;
  const text = lines.map((line) => line.text).join("\n");
  return { text, meaning: text, parts: lines, isFaulty: false };
}

/** Why nothing is certain of the name, since a file that may say it could not be read. */
function whyMissing(craft: Craft, workspace: Workspace, name: ValueName) {
  // A line with a fault takes its own name away, and one beyond its limits counts.
  const gaps = craft.gaps.filter(({ why }) => why !== "fault");
  if (gaps.length === 0) return null;
  const known = saidOn(knownPart({ ...copyOf(craft), gaps, memo: new Map() }, workspace.catalogue), workspace, name);
  const isSure = known ? !known.isFaulty : !saidOn(craft, workspace, name) && name.field === null;
  if (isSure) return null;
  const gap = gaps.find(({ sections }) => sections === null || sections.includes(name.section)) ?? gaps[0]!;
  if (gap.path === null) return { why: "a “use” line cannot be read", source: gap.source };
  const path = resolvePath(gap.source.file, gap.path) === null ? gap.path : fileNameOf(gap.path);
  return { why: `${path}, which may say it, could not be read`, source: gap.source };
}

/** The line in which git left both sides of a merge, where the name stands in one of them. */
function conflictOver({ scripts }: Craft, { section, name }: ValueName, said: Said | null): Source | null {
  for (const script of scripts) {
    const { lines } = script.tree;
    const unread = lines.findIndex(
      ({ node, text }) => node.kind === "conflict" && text.trimStart().split(/\s+/, 1)[0] === name && name !== "",
    );
    if (unread >= 0) return { file: script.file, line: unread };
    if (!lines.some(({ node }) => node.kind === "conflict")) continue;
    const inside = said?.parts.find(({ source }) => source.file === script.file && isInConflict(script, source.line));
    if (inside) return inside.source;
    if (lines.some(({ node, text }) => node.kind === "conflict" && text.trim() === baseOf(section)))
      return { file: script.file, line: lines.findIndex(({ node }) => node.kind === "conflict") };
  }
  return null;
}

/** Whether a line stands on the side of a conflict that is read: after its first marker, before the next. */
function isInConflict({ tree: { lines } }: Script, line: number): boolean {
  for (let i = line; i >= 0; i--) if (lines[i]!.node.kind === "conflict") return lines[i]!.text.startsWith("<<<<<<<");
  return false;
}

function droppedBy({ removedByDrop, scripts }: Craft, { section, name }: ValueName): Source | null {
  const removed = removedByDrop.get(`${section}.${name}`);
  if (removed) return removed.source;
  for (const script of scripts.toReversed()) {
    const drop = script.drops.findLast(
      (each) => each.section === section && (each.all || each.names.some(({ text }) => text === name)),
    );
    if (drop) return { file: script.file, line: drop.line };
  }
  return null;
}
