/** What an entry comes to in the effective craft: its value, its lines, its note. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Entry } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";

export interface EffectiveEntry {
  /** Canonical spelling of the value that counts. */
  readonly text: string;
  /** The lines that it comes from; of fields, each with the field's name. */
  readonly sources: readonly { readonly part: string; readonly source: Source }[];
}

/** What the craft makes of a name; null where no line of it says the name. */
export function effectiveEntryIn(craft: Craft, entry: Pick<Entry, "kind" | "section" | "name">): EffectiveEntry | null {
  const { name, section } = entry;
  switch (entry.kind) {
    case "mode":
    case "output": {
      const mode = (entry.kind === "mode" ? craft.modes : craft.outputs).get(name);
      return mode
        ? { text: `when ${mode.text}`, sources: mode.lines.map(({ source }) => ({ part: "", source })) }
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
      if (setting.items)
        return { text: setting.text, sources: setting.items.map(({ source }) => ({ part: "", source })) };
      const parts = [...setting.fieldSources].map(([part, source]) => ({ part, source }));
      return { text: setting.text, sources: parts.length > 0 ? parts : [{ part: "", source: setting.source }] };
    }
  }
}

function single(entry: { readonly text: string; readonly source: Source } | undefined): EffectiveEntry | null {
  return entry ? { text: entry.text, sources: [{ part: "", source: entry.source }] } : null;
}

/** Whether a line takes part in the effective value of its name on a craft. */
export function lineCounts(
  craft: Craft,
  file: string,
  entry: Pick<Entry, "kind" | "section" | "name" | "line">,
): boolean {
  const sources = effectiveEntryIn(craft, entry)?.sources ?? [];
  return sources.some(({ source }) => source.file === file && source.line === entry.line);
}

/** The notes of some lines, each once, in order; empty where there is none. */
export function notesOf(workspace: Workspace, sources: readonly Source[]): string {
  const texts = sources.map(({ file, line }) => workspace.script(file)?.noteOf(line).text ?? "");
  return [...new Set(texts.filter((text) => text !== ""))].join("\n");
}
