/** Writes what is chosen of an offer into a craft or a layer of it: its values, its notes where there are none, and kept lines. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { quote } from "../../syntax/scanner.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { textWith, withFile } from "../context/trial.ts";
import { adoptEdits } from "../edits/adopt.ts";
import type { FileEdits } from "../edits/osd-write.ts";
import { whyNotWritable } from "../edits/script-edits.ts";
import { writeUse } from "../edits/use-line.ts";
import { compose, type Insertion } from "./compose.ts";
import type { Unknown } from "./offer.ts";

/** Where is written, and what is known before anything is. */
export interface AdoptScope {
  readonly workspace: Workspace;
  readonly mine: Craft;
  /** The file that is written: the craft's own, a layer of it, or one that does not exist yet. */
  readonly into: FilePath;
  /** The name of a layer that is made; null where the file exists. */
  readonly newLayer: string | null;
  /** Kept lines are text of this board. */
  readonly dialect: string;
  /** How a note that comes along begins. */
  readonly noteMark: string;
}

export interface Adopted {
  readonly files: readonly FileEdits[];
  readonly creates: readonly { readonly file: FilePath; readonly text: string }[];
  /** By name, why it could not be written. */
  readonly left: ReadonlyMap<string, string>;
  /** The files as they would be. */
  readonly after: Workspace;
  /** Why nothing at all was written; null where something was, or where nothing was asked for. */
  readonly refused: string | null;
}

/**
 * The edits after which the craft has in `whats` what `laid` has, and keeps the lines of `unknown`. `notes` are the
 * comments of the offer, by name. Files are changed as one step, or not at all.
 */
export function adopted(
  scope: AdoptScope,
  laid: (mine: Craft, workspace: Workspace) => Craft,
  whats: readonly string[],
  unknown: readonly Unknown[],
  notes: ReadonlyMap<string, string>,
): Adopted {
  const { workspace, mine, into, newLayer } = scope;
  const nothing = { files: [], creates: [], left: new Map(), after: workspace };
  if (whats.length === 0 && unknown.length === 0) return { ...nothing, refused: null };
  const use = newLayer === null ? null : writeUse(mine.script, into);
  if (use) {
    const why = whyNotWritable(workspace, mine.script, use.range.start.line);
    if (why !== null) return { ...nothing, refused: why };
  }
  const eol = lineEnd(mine.script.tree, 0);
  const begun = use
    ? withFile(withFile(workspace, into, `layer ${quote(newLayer!)}${eol}`), mine.file, textWith(mine.script, [use]))
    : workspace;
  const base = use ? begun.craftLike(mine.file) : mine;
  const script = begun.script(into);
  if (!base || !script) return { ...nothing, refused: `There is no file ${into} that could be written.` };
  const adoption =
    whats.length === 0
      ? ({ kind: "edits", files: [], left: [] } as const)
      : adoptEdits(begun, base, laid(base, begun), whats, into);
  if (adoption.kind === "refused" && unknown.length === 0)
    return { ...nothing, left: new Map(whats.map((what) => [what, adoption.message])), refused: adoption.message };
  const left = new Map(
    adoption.kind === "refused"
      ? whats.map((what) => [what, adoption.message])
      : adoption.left.map(({ what, message }) => [what, message]),
  );
  const edits = adoption.kind === "refused" ? [] : (adoption.files.find(({ file }) => file === into)?.edits ?? []);
  const others = adoption.kind === "refused" ? [] : adoption.files.filter(({ file }) => file !== into);
  if (unknown.length > 0) {
    const why = whyNotWritable(begun, script, script.tree.lines.length - 1);
    if (why !== null) return { ...nothing, refused: why };
  }
  const taken = whats.filter((what) => !left.has(what));
  const changed = withFile(begun, into, textWith(script, edits)).script(into)!;
  const insertions = [
    ...noteInsertions(changed, taken, notes, scope.noteMark),
    ...keptInsertions(changed, unknown, scope.dialect),
  ];
  const all = compose(textWith(script, []), edits, insertions);
  const text = textWith(script, all);
  let after = withFile(begun, into, text);
  for (const { file, edits: more } of others) after = withFile(after, file, textWith(after.script(file)!, more));
  const files = use
    ? [{ file: mine.file, edits: [use] }, ...others]
    : [...(all.length > 0 ? [{ file: into, edits: all }] : []), ...others];
  return { files, creates: use ? [{ file: into, text }] : [], left, after, refused: null };
}

/** The offer's comments above lines that were written and have none. */
function noteInsertions(
  changed: Script,
  whats: readonly string[],
  notes: ReadonlyMap<string, string>,
  mark: string,
): readonly Insertion[] {
  const wanted = new Set(whats.filter((what) => notes.has(what)));
  if (wanted.size === 0) return [];
  const lines = new Map<string, number[]>();
  for (const { section, name, line } of changed.entries) {
    const what = `${section}.${name}`;
    if (wanted.has(what)) lines.set(what, [...(lines.get(what) ?? []), line]);
  }
  return [...lines].flatMap(([what, of]) => {
    if (of.some((line) => changed.noteOf(line).text !== "")) return [];
    const line = of[0]!;
    const indent = /^[ \t]*/.exec(changed.tree.lines[line]!.text)![0];
    const eol = lineEnd(changed.tree, line);
    const comments = notes
      .get(what)!
      .split("\n")
      .map((text, i) => `${indent}# ${i === 0 ? `${mark} ` : ""}${text}${eol}`);
    return [{ at: { line, character: 0 }, text: comments.join("") }];
  });
}

/** Lines that were not understood, as text of a board: below those that are kept already, else in a section of their own. */
function keptInsertions({ tree }: Script, unknown: readonly Unknown[], dialect: string): readonly Insertion[] {
  const texts = unknown.flatMap((each) => each.texts);
  if (texts.length === 0) return [];
  const section = tree.sections.findLast((each) => each.name === "verbatim" && each.title === dialect);
  const line = section ? Math.max(section.line, ...section.entries) : tree.lines.length - 1;
  const eol = lineEnd(tree, line);
  const sample = section?.entries.map((each) => tree.lines[each]!.text).find((text) => /^[ \t]+\|/.test(text));
  const lead = sample ? /^[ \t]+\|[ \t]?/.exec(sample)![0] : "  | ";
  const kept = texts.map((text) => lead + text);
  const last = tree.lines[line]!.text;
  const at = { line, character: last.length };
  if (section) return [{ at, text: kept.map((each) => eol + each).join("") }];
  const isAtStart = last.trim() === "";
  const isApart = isAtStart && (line === 0 || tree.lines[line - 1]!.text.trim() === "");
  const gap = isApart ? "" : isAtStart ? eol : eol + eol;
  const body = [`verbatim ${quote(dialect)}`, ...kept].join(eol);
  return [{ at, text: `${gap}${body}${isAtStart ? eol : ""}` }];
}

export function editsOf({ files }: Adopted, file: FilePath): readonly TextEdit[] {
  return files.find((each) => each.file === file)?.edits ?? [];
}
