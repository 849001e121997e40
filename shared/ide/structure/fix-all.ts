/** All certain repairs of a file at once. */
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import { findingSteps } from "../../rules/engine/engine.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { Steps } from "../../text/steps.ts";
import { withFile } from "../context/trial.ts";
import { whyNotWritable } from "../edits/script-edits.ts";
import { type EditedLines, editsFrom, linesOf, withEdits } from "./line-edits.ts";

/** A repair leads to another one now and then; more rounds than this nobody's text takes. */
const MOST_ROUNDS = 12;

/**
 * The edits that make every repair of which nothing else can have been meant, until no such repair is left. A repair
 * after which the line could not be understood either is left out. What stands in an unresolved merge, and a file that is
 * not rewritten, stays as it is. No edits where there is nothing to repair.
 */
export function* certainFixesOf(workspace: Workspace, file: FilePath): Steps<TextEdit[]> {
  const script = workspace.script(file);
  if (!script) return [];
  const trials = makeTrials(workspace, script);
  const repaired = yield* repairedBy(workspace, script, trials, "to be repaired");
  if (yield* isSound(trials, workspace, trials.withLines(repaired), file, "nothing"))
    return editsFrom(script.tree, repaired);
  return editsFrom(script.tree, yield* repairedBy(workspace, script, trials, "nothing"));
}

/** What may come to light with a repair: what can be repaired in turn, or nothing at all. */
type Allowed = "to be repaired" | "nothing";

function* repairedBy(workspace: Workspace, script: Script, trials: Trials, allowed: Allowed): Steps<EditedLines> {
  const { file } = script;
  const refused = new Set<string>();
  let lines = linesOf(script.tree);
  let now = workspace;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const due = (yield* certainIn(trials, now, file)).filter((repair) => !refused.has(repair.key));
    if (due.length === 0) break;
    const kept = yield* sound({ script, trials, lines, now, allowed, refused }, due);
    if (kept.length === 0) continue;
    lines = withEdits(
      lines,
      kept.flatMap(({ edits }) => edits),
    );
    now = trials.withLines(lines);
  }
  return lines;
}

interface Repair {
  readonly edits: readonly TextEdit[];
  /** The same for the same repair of a line in any round. */
  readonly key: string;
}

/** The certain repairs of a file's own lines, of those that overlap the first one. */
function* certainIn(trials: Trials, workspace: Workspace, file: FilePath): Steps<Repair[]> {
  const script = workspace.script(file)!;
  const found: Repair[] = [];
  let done = { line: -1, character: 0 };
  for (const { code, fixes } of yield* trials.findingsIn(workspace))
    for (const { title, edits, certain } of fixes) {
      if (!certain || edits.length === 0 || !edits.every((edit) => edit.file === file)) continue;
      const sorted = [...edits].sort((a, b) => a.range.start.character - b.range.start.character);
      const [first, last] = [sorted[0]!.range.start, sorted.at(-1)!.range.end];
      const isApart = first.line > done.line || (first.line === done.line && first.character > done.character);
      if (!isApart || whyNotWritable(workspace, script, first.line) !== null) continue;
      const key = `${code}\n${title}\n${script.tree.lines[first.line]?.text}`;
      found.push({ edits: sorted.map(({ range, text }) => ({ range, text })), key });
      done = last;
    }
  return found;
}

interface Trying {
  readonly script: Script;
  readonly trials: Trials;
  readonly allowed: Allowed;
  readonly lines: EditedLines;
  /** The workspace with these lines. */
  readonly now: Workspace;
  /** Takes the keys of repairs that make nothing better. */
  readonly refused: Set<string>;
}

/** Those of some repairs after which nothing is wrong that was not before: all of them at once where that is so, else by halves. */
function* sound(trying: Trying, repairs: readonly Repair[], among: readonly Repair[] = []): Steps<Repair[]> {
  const { script, trials, lines, now, allowed, refused } = trying;
  const edits = [...among, ...repairs].flatMap((repair) => repair.edits);
  const tried = trials.withLines(withEdits(lines, edits));
  yield;
  if (yield* isSound(trials, now, tried, script.file, allowed)) return [...repairs];
  if (repairs.length === 1) {
    refused.add(repairs[0]!.key);
    return [];
  }
  const half = repairs.length >> 1;
  const first = yield* sound(trying, repairs.slice(0, half), among);
  const second = yield* sound(trying, repairs.slice(half), [...among, ...first]);
  return [...first, ...second];
}

/** Rules about what a line says by itself, besides those that say that it could not be read. */
const OF_LINES: ReadonlySet<string> = new Set(["unusual-value", "use-missing", "use-kind", "use-cycle", "board-file"]);

/**
 * Whether nothing about a line by itself is wrong that was not before. What a line means on the craft is another matter:
 * a mode that could not be read and is on at rest was so all along.
 */
function* isSound(
  trials: Trials,
  before: Workspace,
  after: Workspace,
  file: FilePath,
  allowed: Allowed,
): Steps<boolean> {
  const counts = new Map<string, number>();
  const add = (text: string, count: number) => counts.set(text, (counts.get(text) ?? 0) + count);
  for (const { text, isCertain } of yield* toldOf(trials, after, file))
    if (allowed === "nothing" || !isCertain) add(text, 1);
  for (const { text } of yield* toldOf(trials, before, file)) add(text, -1);
  return [...counts.values()].every((count) => count <= 0);
}

interface Told {
  /** Without the numbers of other lines, which move. */
  readonly text: string;
  readonly isCertain: boolean;
}

/** What is told of lines by themselves. */
function* toldOf(trials: Trials, workspace: Workspace, file: FilePath): Steps<Told[]> {
  const { issues } = workspace.script(file)!;
  const found = (yield* trials.findingsIn(workspace)).filter(({ code }) => OF_LINES.has(code));
  return [...issues, ...found].map(({ code, message, fixes = [] }) => ({
    text: `${code} ${message.replace(/\bline \d+/g, "")}`,
    isCertain: fixes.some(({ certain }) => certain),
  }));
}

/** What is tried out for one answer. */
interface Trials {
  /** The workspace with other lines of the file: the same one for the same lines. */
  withLines(lines: EditedLines): Workspace;
  /** The findings of the file, worked out once for each of these workspaces. */
  findingsIn(workspace: Workspace): Steps<readonly Finding[]>;
}

function makeTrials(workspace: Workspace, { file, tree }: Script): Trials {
  const known = new Map<Workspace, readonly Finding[]>();
  let last = { text: "", tried: workspace };
  return {
    withLines({ texts, origins }) {
      const text = texts.map((each, i) => each + (i < texts.length - 1 ? lineEnd(tree, origins[i]!) : "")).join("");
      if (text !== last.text) last = { text, tried: withFile(workspace, file, (tree.bom ? "\uFEFF" : "") + text) };
      return last.tried;
    },
    *findingsIn(tried) {
      const found = known.get(tried) ?? (yield* findingSteps(tried, file));
      known.set(tried, found);
      return found;
    },
  };
}
