/** Lines that were not understood to their end: whether a word on them is a name is then not known. */
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { occurrencesIn } from "./occurrences.ts";
import type { Thing } from "./thing.ts";

const known = new WeakMap<Script, readonly number[]>();

/** The first line of a file on which a name may stand that nobody can be sure of; null without. */
export function doubtfulLineWith(workspace: Workspace, file: FilePath, what: Thing): number | null {
  const script = workspace.script(file);
  if (!script || (what.kind !== "control" && what.kind !== "position" && what.kind !== "output")) return null;
  for (const line of doubtfulLines(script)) {
    const { text, comment } = script.tree.lines[line]!;
    const said = text.slice(0, comment?.start ?? text.length);
    if (what.kind === "position" && wordsAt(said, what.of).length === 0) continue;
    const places = wordsAt(said, what.name);
    if (places.length === 0) continue;
    const named = occurrencesIn(workspace, file).filter((each) => each.line === line);
    if (places.some((at) => !named.some(({ start, end }) => at >= start && at < end))) return line;
  }
  return null;
}

function doubtfulLines(script: Script): readonly number[] {
  let found = known.get(script);
  if (!found) {
    found = script.kind === "dialect" || script.tree.newer ? [] : findLines(script);
    known.set(script, found);
  }
  return found;
}

function findLines({ tree, entries, drops }: Script): number[] {
  const found: number[] = [];
  const values = new Map(entries.map(({ line, value }) => [line, value]));
  const understood = new Set(drops.map(({ line }) => line));
  for (const [line, { node }] of tree.lines.entries()) {
    if (node.kind === "stray" || node.kind === "conflict") found.push(line);
    // An entry of a section that is not known, that may not stand here, or of none, is read by nobody.
    else if (node.kind === "entry" && !values.get(line)) found.push(line);
    else if (node.kind === "drop" && !understood.has(line)) found.push(line);
  }
  return found;
}

/** The columns at which a word stands by itself. */
function wordsAt(text: string, word: string): number[] {
  const places: number[] = [];
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1))
    if (!/[A-Za-z0-9_-]/.test(text.charAt(at - 1)) && !/[A-Za-z0-9_-]/.test(text.charAt(at + word.length)))
      places.push(at);
  return places;
}
