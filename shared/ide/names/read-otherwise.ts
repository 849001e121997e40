/** Whether a line with another name in it is still read as it was, though for the name: each is read again before it is written. */
import { readDialect } from "../../dialect/read-dialect.ts";
import type { FilePath } from "../../model/files.ts";
import { type ScriptReader, scriptReader } from "../../model/read-script.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { Steps } from "../../text/steps.ts";
import { textWith } from "../context/trial.ts";
import { namesOfDialect } from "./dialect-names.ts";
import { occurrencesIn } from "./occurrences.ts";
import { placeInWords } from "./refusals.ts";
import { renamedThing } from "./renamed-thing.ts";
import { namesOfScript } from "./script-names.ts";
import { type Occurrence, sameThing, type Thing } from "./thing.ts";

/** What is being tried. */
interface Trial {
  readonly workspace: Workspace;
  readonly reader: ScriptReader;
  readonly after: (thing: Thing) => Thing;
  /** By section, line and changed line: of a thousand craft most have the same. */
  readonly known: Map<string, boolean>;
}

/** Where a line would be read as something else with the new name, in a sentence; null where all are what they were. */
export function* whyMeansElse(
  workspace: Workspace,
  what: Thing,
  [old, name]: readonly [old: string, now: string],
  edits: readonly (TextEdit & { readonly file: FilePath })[],
): Steps<string | null> {
  const trial: Trial = {
    workspace,
    reader: scriptReader(workspace.catalogue),
    after: (each) => renamedThing(each, what, name),
    known: new Map(),
  };
  const byFile = new Map<FilePath, TextEdit[]>();
  for (const edit of edits) {
    const list = byFile.get(edit.file);
    if (list) list.push(edit);
    else byFile.set(edit.file, [edit]);
  }
  for (const [file, own] of byFile) {
    const script = workspace.script(file)!;
    const line = script.kind === "dialect" ? inDialect(trial, script, own) : inScript(trial, script, own);
    if (line !== null)
      return `With “${name}” in place of “${old}”, ${placeInWords(script, line)} would be read as something else. Take another name.`;
    yield;
  }
  return null;
}

/** Each changed line by itself: what it means depends on its section alone. */
function inScript(trial: Trial, { tree }: Script, edits: readonly TextEdit[]): number | null {
  const lines = new Map<number, TextEdit[]>();
  for (const edit of edits) {
    const at = edit.range.start.line;
    lines.set(at, [...(lines.get(at) ?? []), edit]);
  }
  for (const [line, own] of lines) {
    const { text, node } = tree.lines[line]!;
    const section = tree.sections.findLast((each) => each.line < line);
    const isInside = node.kind === "entry" || node.kind === "drop";
    const above = isInside && section ? tree.lines[section.line]!.text : "";
    const changed = withEdits(text, own);
    const key = JSON.stringify([above, text, changed]);
    let same = trial.known.get(key);
    if (same === undefined) {
      same = isReadAlike(trial, above, text, changed);
      trial.known.set(key, same);
    }
    if (!same) return line;
  }
  return null;
}

function withEdits(text: string, edits: readonly TextEdit[]): string {
  let made = text;
  for (const { range, text: put } of [...edits].sort((a, b) => b.range.start.character - a.range.start.character))
    made = made.slice(0, range.start.character) + put + made.slice(range.end.character);
  return made;
}

/** Whether a line means the same before and after, below the name of a section. */
function isReadAlike({ workspace, reader, after }: Trial, above: string, before: string, now: string): boolean {
  const isHeader = above === "" && /^(craft|layer|handset)\b/.test(before);
  const read = (line: string) => reader.read("line", isHeader ? line : `layer "A"\n${above}\n${line}`, true);
  const old = read(before);
  const oldNames = namesOfScript(old, workspace.catalogue);
  const script = read(now);
  return firstOther(oldNames, namesOfScript(script, workspace.catalogue), after) === null && sameIssues(old, script);
}

/** What a line of a dialect means may depend on any other. */
function inDialect({ workspace, reader, after }: Trial, before: Script, edits: readonly TextEdit[]): number | null {
  const { catalogue } = workspace;
  const script = reader.read(before.file, textWith(before, edits), true);
  const dialect = readDialect(before.file, script.tree, catalogue);
  const line = firstOther(occurrencesIn(workspace, before.file), namesOfDialect(script, dialect, catalogue), after);
  return line ?? (sameIssues(before, script) ? null : edits[0]!.range.start.line);
}

/** What is wrong is as it was: a name is neither better nor worse than another. */
function sameIssues(before: Script, now: Script): boolean {
  return before.issues.length === now.issues.length;
}

/** The line of the first name that is not what it was, though for the new name. */
function firstOther(
  before: readonly Occurrence[],
  now: readonly Occurrence[],
  after: (thing: Thing) => Thing,
): number | null {
  const groups = new Pairs();
  for (let i = 0; i < Math.max(before.length, now.length); i++) {
    const [a, b] = [before[i], now[i]];
    if (!a || !b || !isSame(a, b, after, groups)) return (a ?? b)!.line;
  }
  return null;
}

function isSame(a: Occurrence, b: Occurrence, after: (thing: Thing) => Thing, groups: Pairs): boolean {
  const thing = after(a.thing);
  // A group of slots is known by one of its names: it may have another, and is to hold the same slots.
  const same =
    thing.kind === "slot"
      ? b.thing.kind === "slot" && b.thing.name === thing.name && groups.fit(a.thing.of, b.thing.of)
      : sameThing(thing, b.thing);
  return a.line === b.line && a.does === b.does && same;
}

/** What goes with what, each with one other alone. */
class Pairs {
  readonly #there = new Map<string, string>();
  readonly #back = new Map<string, string>();

  /** Pairs the two, unless one of them goes with another already. */
  fit(one: string, other: string): boolean {
    const [there, back] = [this.#there.get(one) ?? other, this.#back.get(other) ?? one];
    this.#there.set(one, there);
    this.#back.set(other, back);
    return there === other && back === one;
  }
}
