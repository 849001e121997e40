/** The notes by which a finding can be accepted: on its line, in its section, in its file, or in a layer of the craft. */
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { type Position, type Range, touches } from "../../syntax/span.ts";
import { fileForNewLayer } from "./new-layer-file.ts";
import { whyNotWritable } from "./script-edits.ts";
import { lineForUse, writeUse } from "./use-line.ts";

const acceptable: ReadonlySet<string> = new Set(
  rules.filter((rule) => rule.acceptable !== false).map(({ code }) => code),
);

/** How far a note reaches: in the last two on every craft that uses the layer. */
export type Reach = "line" | "section" | "file" | "layer" | "new-layer";

export interface OfferedNote {
  readonly finding: Finding;
  readonly reach: Reach;
  readonly title: string;
  /** Where it is written, in a few words: the layer, or the file that is begun. */
  readonly place: string;
  /** How far it reaches, in a few words. */
  readonly extent: string;
  readonly edits: readonly { readonly file: FilePath; readonly range: Range; readonly text: string }[];
  /** The file that has to be made before, empty; null where all are there. */
  readonly creates: FilePath | null;
  /** Where the reason is to be written, once the edits are made. */
  readonly reasonAt: { readonly file: FilePath; readonly position: Position };
}

/**
 * For every finding whose range touches this one, the notes that accept it, the narrowest first; none
 * for a range of several lines, since findings are accepted one by one. The reason is left out, for
 * whoever accepts to write: until then `allow-unexplained` asks for it. Which layers a note reaches is
 * known only where all scripts have been read.
 */
export function acceptancesAt(workspace: Workspace, file: FilePath, range: Range): OfferedNote[] {
  const script = workspace.script(file);
  if (!script || range.start.line !== range.end.line) return [];
  const offered = new Set<string>();
  return acceptableAt(workspace, file, range).flatMap((finding) =>
    [...notesInFile(workspace, script, finding), ...notesInLayers(workspace, script, finding)].filter(({ title }) => {
      const isNew = !offered.has(title);
      offered.add(title);
      return isNew;
    }),
  );
}

/** Whether a note may accept one of the findings that touch a range. */
export function mayAcceptAt(workspace: Workspace, file: FilePath, range: Range): boolean {
  return range.start.line === range.end.line && acceptableAt(workspace, file, range).length > 0;
}

function acceptableAt(workspace: Workspace, file: FilePath, range: Range): Finding[] {
  return findingsOf(workspace, file).filter((finding) => touches(finding.range, range) && acceptable.has(finding.code));
}

/** A line above which a note accepts, and how far it reaches from there. */
interface NotePlace {
  readonly line: number;
  readonly reach: Reach;
  readonly title: string;
  readonly extent: string;
}

function notesInFile(workspace: Workspace, script: Script, finding: Finding): OfferedNote[] {
  return placesFor(script, finding.range.start.line).flatMap(({ line, ...place }) => {
    if (whyNotWritable(workspace, script, line) !== null) return [];
    const note = noteAbove(script, line, finding);
    return [{ ...place, ...note, title: titled(place.title, finding), finding, place: script.name, creates: null }];
  });
}

function placesFor({ tree, sections, kind }: Script, line: number): NotePlace[] {
  const index = tree.sections.findLastIndex((each) => each.line <= line);
  const section = tree.sections[index];
  const places: NotePlace[] = [];
  if (line !== tree.header && line !== section?.line)
    places.push({ line, reach: "line", title: "Accept this here", extent: "on this line" });
  if (section && (section.line === line || section.entries.includes(line))) {
    const extent = `in all of ${sections[index]!.section}`;
    places.push({ line: section.line, reach: "section", title: `Accept it ${extent}`, extent });
  }
  if (tree.header !== null) {
    const extent = kind === "craft" ? "in this whole craft" : `in this whole ${kind}`;
    places.push({ line: tree.header, reach: "file", title: `Accept it ${extent}`, extent });
  }
  return places;
}

/** As “Accept this here, because… (osd-overlap)”: what is left to write is the reason. */
function titled(words: string, { code }: Finding): string {
  return `${words}, because… (${code})`;
}

function noteAbove(script: Script, line: number, finding: Finding): Pick<OfferedNote, "edits" | "reasonAt"> {
  const { tree, file } = script;
  const at = { line, character: 0 };
  const note = `${/^[ \t]*/.exec(tree.lines[line]!.text)![0]}${noteOf(finding)}`;
  return {
    edits: [{ file, range: { start: at, end: at }, text: `${note}${lineEnd(tree, line)}` }],
    reasonAt: { file, position: { line, character: note.length } },
  };
}

function noteOf({ code }: Finding): string {
  return `# allow ${code}: `;
}

/** Above the headers of the layers that a craft uses, the one that reaches fewest craft first; and in a layer to be begun. */
function notesInLayers(workspace: Workspace, script: Script, finding: Finding): OfferedNote[] {
  const craft = workspace.craft(script.file);
  if (!craft || craft.gaps.some(({ why }) => why === "cycle")) return [];
  const layers = craft.scripts
    .filter(({ kind, tree, file }) => kind === "layer" && tree.header !== null && isWritable(workspace, file))
    .map((layer) => ({ layer, craftCount: workspace.craftFilesWith(layer.file).length }))
    .sort((a, b) => a.craftCount - b.craftCount);
  const inLayers = layers.map(({ layer, craftCount }): OfferedNote => {
    const extent = craftCount === 1 ? "on this craft" : `on the ${craftCount} craft that use it`;
    return {
      finding,
      reach: "layer",
      title: titled(`Accept it in the layer “${layer.name}”, ${extent}`, finding),
      place: `${layer.name} (${pathBetween(script.file, layer.file)})`,
      extent,
      ...noteAbove(layer, layer.tree.header!, finding),
      creates: null,
    };
  });
  const begun = noteInNewLayer(workspace, script, finding);
  return begun ? [...inLayers, begun] : inLayers;
}

function isWritable(workspace: Workspace, file: FilePath): boolean {
  const layer = workspace.script(file)!;
  return whyNotWritable(workspace, layer, layer.tree.header!) === null;
}

/** A layer that holds nothing but what the pilot accepts, used by this craft and, later, by others. */
function noteInNewLayer(workspace: Workspace, script: Script, finding: Finding): OfferedNote | null {
  const begun = fileForNewLayer(workspace, script);
  const line = Math.max(0, lineForUse(script));
  if (!begun || whyNotWritable(workspace, script, line) !== null) return null;
  const eol = lineEnd(script.tree, line);
  const start = { line: 0, character: 0 };
  const note = noteOf(finding);
  const path = pathBetween(script.file, begun.file);
  return {
    finding,
    reach: "new-layer",
    title: titled(`Accept it in a new layer, ${path}`, finding),
    place: `a new layer, ${path}`,
    extent: "on this craft, and on every other that uses it",
    edits: [
      { file: begun.file, range: { start, end: start }, text: `${note}${eol}layer "${begun.name}"${eol}` },
      { file: script.file, ...writeUse(script, begun.file) },
    ],
    creates: begun.file,
    reasonAt: { file: begun.file, position: { line: 0, character: note.length } },
  };
}
