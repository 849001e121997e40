/** Entries in the effective craft: their values, their lines, their notes. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Entry } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Value } from "../../syntax/value.ts";

/** A name in a section, as something of that kind. */
export type NamedEntry = Pick<Entry, "kind" | "section" | "name">;

export interface EffectiveEntry {
  /** Canonical spelling of the effective value. */
  readonly text: string;
  /** The lines that it comes from; for a value of fields, each with the field's name as `part`. */
  readonly sources: readonly { readonly part: string; readonly source: Source }[];
  /** Those of the lines that have a fault. */
  readonly faulty: readonly Source[];
}

/** The effective entry of a name on a craft; null where none of the craft's lines gives it. */
export function effectiveEntryIn(craft: Craft, entry: NamedEntry): EffectiveEntry | null {
  const { name, section } = entry;
  switch (entry.kind) {
    case "mode":
    case "output": {
      const mode = (entry.kind === "mode" ? craft.modes : craft.outputs).get(name);
      return mode
        ? {
            text: `when ${mode.text}`,
            sources: mode.lines.map(({ source }) => ({ part: "", source })),
            faulty: mode.lines.filter(({ condition }) => condition === null).map(({ source }) => source),
          }
        : null;
    }
    case "control":
      return single(craft.controls.get(name));
    case "element":
      return single((section === "osd-second" ? craft.osdSecond : craft.osd).get(name));
    case "follows":
      return single(craft.adjust.get(name));
    case "setting": {
      const setting = craft.settings.get(section)?.get(name);
      if (!setting) return null;
      const { text, items, value, source } = setting;
      if (items)
        return {
          text,
          sources: items.map((item) => ({ part: "", source: item.source })),
          faulty: items.filter((item) => item.value === null).map((item) => item.source),
        };
      const parts = [...setting.fieldSources].map(([part, of]) => ({ part, source: of }));
      return {
        text,
        sources: parts.length > 0 ? parts : [{ part: "", source }],
        faulty: value === null ? [source] : [],
      };
    }
  }
}

function single(
  entry: { readonly text: string; readonly source: Source; readonly value: Value | null } | undefined,
): EffectiveEntry | null {
  return entry
    ? {
        text: entry.text,
        sources: [{ part: "", source: entry.source }],
        faulty: entry.value === null ? [entry.source] : [],
      }
    : null;
}

/** Whether the effective value of an entry's name comes from this line, in whole or in part. */
export function lineCounts(craft: Craft, file: string, entry: NamedEntry & Pick<Entry, "line">): boolean {
  const sources = effectiveEntryIn(craft, entry)?.sources ?? [];
  return sources.some(({ source }) => source.file === file && source.line === entry.line);
}

/** The notes of lines, joined in order without duplicates; empty where there is none. */
export function notesOf(workspace: Workspace, sources: readonly Source[]): string {
  const texts = sources.map(({ file, line }) => workspace.script(file)?.noteOf(line).text ?? "");
  return [...new Set(texts.filter((text) => text !== ""))].join("\n");
}
