/** Detects lines of a flight controller's own text that were pasted into a script unchanged. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Line, Tree } from "../syntax/tree.ts";
import type { Issue } from "./script.ts";

/** So many lines in a row are not a mistake in a single entry. */
const MIN_LINES = 2;

/** The issues of a file, with one issue in place of all those on each run of pasted board text. */
export function replacePastedIssues(issues: Issue[], tree: Tree, catalogue: Catalogue): Issue[] {
  const runs = pastedRuns(tree, catalogue);
  if (runs.length === 0) return issues;
  const within = (line: number) => runs.some(({ first, last }) => line >= first && line <= last);
  return [...issues.filter(({ span }) => !within(span.line)), ...runs.map((run) => pastedIssue(run, tree))];
}

interface Run {
  readonly first: number;
  readonly last: number;
}

/** Runs of lines that start with a name unknown to the language and have more after it. */
function pastedRuns(tree: Tree, catalogue: Catalogue): Run[] {
  const runs: Run[] = [];
  let last = -1;
  for (const { span } of tree.issues) {
    if (span.line <= last || !isForeign(tree.lines[span.line]!, catalogue)) continue;
    last = span.line;
    let count = 1;
    for (let line = span.line + 1; continuesRun(tree.lines[line], catalogue); line++) {
      const { kind } = tree.lines[line]!.node;
      if (kind !== "blank" && kind !== "comment") last = line;
      if (isForeign(tree.lines[line]!, catalogue)) count++;
    }
    if (count >= MIN_LINES) runs.push({ first: span.line, last });
  }
  return runs;
}

function isForeign({ node, issues }: Line, catalogue: Catalogue): boolean {
  return node.kind === "section" && issues.length > 0 && !isKnown(node.name.text, catalogue);
}

/** Whether a line may be part of board text: any line that starts with no known name. */
function continuesRun(line: Line | undefined, catalogue: Catalogue): boolean {
  if (!line) return false;
  const { kind } = line.node;
  if (kind === "section") return !isKnown(line.node.name.text, catalogue);
  return kind === "blank" || kind === "comment" || (kind === "stray" && /^[^ \t]/.test(line.text));
}

function isKnown(name: string, catalogue: Catalogue): boolean {
  return (
    catalogue.section(name) !== undefined ||
    catalogue.mode(name) !== undefined ||
    catalogue.element(name) !== undefined ||
    catalogue.sections.some((section) => catalogue.setting(section.name, name))
  );
}

function pastedIssue({ first, last }: Run, tree: Tree): Issue {
  const lines = Array.from({ length: last - first + 1 }, (_, i) => first + i);
  const insertions = lines.map((line) => ({
    range: { start: { line, character: 0 }, end: { line, character: 0 } },
    text: line === first ? 'verbatim "board"\n  | ' : "  | ",
  }));
  return {
    code: "syntax",
    message: `The lines from here to line ${last + 1} read like a board's own text. It is kept, and not understood, in a section verbatim "NAME", each line indented and behind “|”.`,
    span: { line: first, start: 0, end: tree.lines[first]!.text.length },
    ...(tree.kind !== "handset" && { fixes: [{ title: "Keep them as board text", edits: insertions }] }),
  };
}
