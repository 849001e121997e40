/** Writes changed lines of the OSD: into which file each is written, and whether the pilot is asked first. */
import type { Craft, Placed, Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Grid } from "../../osd/placed.ts";
import type { WriteWhere } from "../../protocol/osd-edit.ts";
import type { OsdPage } from "../../protocol/panel.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { appendEntries, lineForEntry, type NewEntry, whyNotWritable } from "./script-edits.ts";

/** The result of a gesture. */
export type OsdEdit =
  | { readonly kind: "edits"; readonly files: readonly FileEdits[] }
  /** A question: the line stands in a layer, where a change affects these craft as well. */
  | { readonly kind: "choose"; readonly layer: string; readonly sharedWith: readonly string[] }
  /** Why nothing can be written, in a sentence. */
  | { readonly kind: "refused"; readonly message: string };

/** The edits of one file; none overlaps another, and all ranges are those of the unchanged file. */
export interface FileEdits {
  readonly file: string;
  readonly edits: readonly TextEdit[];
}

/** The input of every edit of the OSD. */
export interface OsdEditScope {
  readonly workspace: Workspace;
  readonly craft: Craft;
  /** The file that the picture was drawn for. */
  readonly file: string;
  readonly grid: Grid;
  readonly page: OsdPage;
  readonly placed: ReadonlyMap<string, Placed>;
  readonly where: WriteWhere | null;
}

/** An entry that changes: its section, and the edits of its line. */
export interface LineChange {
  readonly source: Source;
  readonly section: string;
  readonly edits: readonly TextEdit[];
}

/** A result without edits; `message` is the reason, in a sentence. */
export function refusal(message: string): OsdEdit {
  return { kind: "refused", message };
}

/** The edits for all changes, or none: each in its own line or, with `where` “override”, as a new line in the craft. */
export function writeAll(scope: OsdEditScope, changes: readonly LineChange[]): OsdEdit {
  const { craft, workspace, where } = scope;
  const changed = changes.filter(({ edits }) => edits.length > 0);
  const question = sharedLineQuestion(
    scope,
    changed.map(({ source }) => source),
  );
  if (question) return question;
  const files = new Map<string, TextEdit[]>();
  const overrides = new Map<string, NewEntry[]>();
  for (const { source, section, edits } of changed) {
    const script = scriptOfSource(scope, source);
    const { text, node } = script.tree.lines[source.line]!;
    if (where === "override" && source.file !== craft.file && node.kind === "entry") {
      const { start, end } = node.value;
      push(overrides, section, { name: node.head.text, rest: applyEdits(text.slice(0, end), edits).slice(start) });
      continue;
    }
    const why = whyNotWritable(workspace, script, source.line);
    if (why !== null) return refusal(why);
    push(files, source.file, ...edits);
  }
  for (const section of overrides.keys()) {
    const why = whyNotWritable(workspace, craft.script, lineForEntry(craft.script, section));
    if (why !== null) return refusal(why);
  }
  if (overrides.size > 0) push(files, craft.file, ...appendEntries(craft.script, overrides));
  return { kind: "edits", files: [...files].map(([file, edits]) => ({ file, edits })) };
}

/**
 * The question to ask before lines of layers are changed. Null where it was answered, or all lines are the
 * craft's own, or of the layer that the picture was drawn for and effective on no other craft. `effective` gives the
 * lines of what is drawn that are effective on a craft.
 */
export function sharedLineQuestion(
  { workspace, craft, file, where }: Pick<OsdEditScope, "workspace" | "craft" | "file" | "where">,
  sources: readonly Source[],
  effective: (craft: Craft) => readonly Source[] = osdLines,
): OsdEdit | null {
  if (where !== null) return null;
  const inLayers = sources.filter((source) => source.file !== craft.file);
  const layers = [...new Set(inLayers.map((source) => source.file))];
  const others = new Set<string>();
  for (const layer of layers) {
    const lines = new Set(inLayers.filter((source) => source.file === layer).map(({ line }) => line));
    for (const other of workspace.craftsWith(layer)) {
      const depends = () => effective(other).some((each) => each.file === layer && lines.has(each.line));
      if (other.file !== craft.file && depends()) others.add(other.name);
    }
  }
  if (others.size === 0 && layers.every((layer) => layer === file)) return null;
  const names = layers.map((layer) => workspace.script(layer)?.name ?? layer);
  return { kind: "choose", layer: names.join(", "), sharedWith: [...others] };
}

/** The lines that lay out the OSD of a craft. */
function osdLines({ osd, osdSecond, settings }: Craft): Source[] {
  const all = [...osd.values(), ...osdSecond.values(), settings.get("osd")?.get("grid")];
  return all.flatMap((each) => (each ? [each.source] : []));
}

/** The script of a line of the craft. */
export function scriptOfSource(
  { workspace, craft }: Pick<OsdEditScope, "workspace" | "craft">,
  { file }: Source,
): Script {
  return craft.scripts.find((script) => script.file === file) ?? workspace.script(file) ?? craft.script;
}

function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const fromBehind = [...edits].sort((a, b) => b.range.start.character - a.range.start.character);
  return fromBehind.reduce((lines, edit) => {
    const { start, end } = edit.range;
    return lines.slice(0, start.character) + edit.text + lines.slice(end.character);
  }, text);
}

function push<T>(lists: Map<string, T[]>, key: string, ...items: T[]): void {
  const list = lists.get(key);
  if (list) list.push(...items);
  else lists.set(key, items);
}
