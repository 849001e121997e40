/** Lines that were not understood to their end: whether a word on them is a name is then not known. */
import type { Script } from "../../model/script.ts";
import type { Thing } from "./thing.ts";

interface DoubtfulLine {
  readonly line: number;
  /** What was not understood, without the comment. */
  readonly rest: string;
  readonly whole: string;
}

const known = new WeakMap<Script, readonly DoubtfulLine[]>();

/** The first line on which a name may stand that nobody can be sure of; null without. */
export function doubtfulLineWith(script: Script, { kind, name, of }: Thing): number | null {
  if (kind !== "control" && kind !== "position" && kind !== "output") return null;
  for (const { line, rest, whole } of doubtfulLines(script))
    if (hasWord(rest, name) && (kind !== "position" || hasWord(whole, of))) return line;
  return null;
}

function doubtfulLines(script: Script): readonly DoubtfulLine[] {
  let found = known.get(script);
  if (!found) {
    found = script.kind === "dialect" || script.tree.newer ? [] : findLines(script);
    known.set(script, found);
  }
  return found;
}

function findLines({ tree, entries, drops }: Script): DoubtfulLine[] {
  const found: DoubtfulLine[] = [];
  const understood = new Set(drops.map(({ line }) => line));
  const add = (line: number, from: number) => {
    const { text, comment } = tree.lines[line]!;
    const end = comment?.start ?? text.length;
    found.push({ line, rest: text.slice(from, end), whole: text.slice(0, end) });
  };
  for (const { line, value, pieces } of entries) {
    understood.add(line);
    if (value === null) add(line, Math.max(0, ...pieces.map(({ end }) => end)));
  }
  for (const [line, { node }] of tree.lines.entries()) {
    if (node.kind === "stray" || node.kind === "conflict") add(line, 0);
    // An entry of a section that is not known, that may not stand here, or of none.
    else if ((node.kind === "entry" || node.kind === "drop") && !understood.has(line)) add(line, 0);
  }
  return found.sort((a, b) => a.line - b.line);
}

function hasWord(text: string, word: string): boolean {
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1))
    if (!/[A-Za-z0-9_-]/.test(text.charAt(at - 1)) && !/[A-Za-z0-9_-]/.test(text.charAt(at + word.length))) return true;
  return false;
}
