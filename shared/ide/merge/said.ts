/** What a file says of each name, as texts that are equal where it means the same: what a merge is held to. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";
import type { Value } from "../../syntax/value.ts";
import { meaningOf } from "../compare/meaning.ts";
import { type Document, resolvedName, type Unit } from "./document.ts";
import { inOneSpacing } from "./statement.ts";

/** A name of a section; `*` stands for all of it, and board text that is kept has the name `|`. */
export function saidKey(section: string, name: string): string {
  return `${section}\0${name}`;
}

export const ALL = "*";
export const KEPT = "|";

/**
 * All that a file says, by name: the lines that count of those that say it, joined as reading joins them, and whether
 * what earlier files said is taken back. `renamed` gives the name under which a section is compared.
 */
export function saidIn(
  script: Script,
  catalogue: Catalogue,
  renamed: (section: string) => string,
): ReadonlyMap<string, string> {
  const said = new Map<string, string>();
  const dropped = new Set<string>();
  for (const { section, all, names } of script.drops) {
    if (all) dropped.add(saidKey(renamed(section), ALL));
    for (const { text } of names) dropped.add(saidKey(renamed(section), text));
  }
  for (const key of dropped) said.set(key, "dropped");
  for (const [key, entries] of entriesByName(script, renamed)) {
    const section = key.slice(0, key.indexOf("\0"));
    const isFresh = dropped.has(key) || dropped.has(saidKey(section, ALL));
    said.set(key, textOfAll(entries, isFresh, catalogue));
  }
  for (const { dialect, text } of script.kept) {
    const key = saidKey(renamed(`verbatim/${dialect}`), KEPT);
    said.set(key, `${said.get(key) ?? ""}${text}\n`);
  }
  addUnread(script, renamed, said);
  return said;
}

function entriesByName(script: Script, renamed: (section: string) => string): Map<string, Entry[]> {
  const names = new Map<string, Entry[]>();
  for (const entry of script.entries) {
    const key = saidKey(renamed(entry.section), entry.name);
    const list = names.get(key);
    if (list) list.push(entry);
    else names.set(key, [entry]);
  }
  return names;
}

function textOfAll(entries: readonly Entry[], isFresh: boolean, catalogue: Catalogue): string {
  const [first] = entries;
  if (first!.kind === "mode" || first!.kind === "output")
    return [...new Set(entries.map(meaningOfEntry))].sort().join("; ");
  // Of a setting that is not known nobody knows how its lines are joined, so every one of them counts.
  const isUnknown = first!.kind === "setting" && !catalogue.setting(baseOf(first!.section), first!.name);
  if (isUnknown || isListed(first!.section, first!.name, catalogue)) return entries.map(meaningOfEntry).join("; ");
  // Fields join those of earlier lines, and of earlier files unless those are taken back; another value replaces all.
  let fields = new Map<string, string>();
  let whole: string | null = null;
  for (const entry of entries) {
    if (entry.value?.kind === "fields") {
      whole = null;
      for (const field of entry.value.fields) fields.set(field.name, meaningOf(field.value, entry.text));
    } else {
      whole = meaningOfEntry(entry);
      fields = new Map();
    }
  }
  if (whole !== null) return whole;
  return (
    (isFresh ? "afresh: " : "") +
    [...fields]
      .map(([name, text]) => `${name} ${text}`)
      .sort()
      .join("  ")
  );
}

/** Whether all lines of a name are a list, each a thing of its own. */
export function isListed(section: string, name: string, catalogue: Catalogue): boolean {
  return catalogue.setting(baseOf(section), name)?.repeatable === true;
}

/** By value, as equal lines share one. */
const meanings = new WeakMap<Value, string>();

function meaningOfEntry({ value, text }: Entry): string {
  if (value === null) return meaningOf(null, inOneSpacing(text));
  let meaning = meanings.get(value);
  if (meaning === undefined) {
    meaning = meaningOf(value, text);
    meanings.set(value, meaning);
  }
  return meaning;
}

/** Entries of sections that are not known: nothing is known of how they are read, so each line counts as it is written. */
function addUnread(script: Script, renamed: (section: string) => string, said: Map<string, string>): void {
  if (script.kind === "dialect") return;
  const read = new Set(script.entries.map(({ line }) => line));
  for (const section of script.tree.sections) {
    for (const at of section.entries) {
      const { node, text } = script.tree.lines[at]!;
      if (node.kind !== "entry" || read.has(at)) continue;
      const key = saidKey(renamed(resolvedName(section)), node.head.text);
      said.set(key, `${said.get(key) ?? ""}${inOneSpacing(text.slice(node.value.start, node.value.end))}\n`);
    }
  }
}

/** What a unit says, as a text that is equal for units of one name that say the same. */
export function meaningOfUnits(documents: readonly { readonly document: Document; readonly script: Script }[]) {
  const entries = new Map<Unit, Entry>();
  for (const { document, script } of documents) {
    const byLine = new Map(script.entries.map((entry) => [entry.line, entry]));
    for (const { units } of document.blocks) {
      for (const unit of units) {
        const entry = unit.kind === "entry" ? byLine.get(unit.at) : undefined;
        if (entry) entries.set(unit, entry);
      }
    }
  }
  return (unit: Unit): string => {
    const entry = entries.get(unit);
    if (entry) return meaningOfEntry(entry);
    const { node, text, comment, issues } = unit.line!;
    if (node.kind === "header" && node.name && issues.length === 0)
      return `${node.fileKind} ${node.name.text} ${node.edition}`;
    if (node.kind === "drop") return [...node.names.map((name) => name.text), node.all?.text ?? ""].sort().join(" ");
    return inOneSpacing(text.slice(0, comment?.start ?? text.length));
  };
}
