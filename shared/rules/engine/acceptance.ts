/** Which `allow` comments accept a finding: in the note of a line that it rests on, of its section, or of a whole file. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Allowance, Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Location, Report, Rule } from "./rule.ts";

/**
 * The allowances that accept a finding which rests on these lines. `scripts` are the files whose
 * sections and headers have a say in it: of a craft all that take part, so that what one layer
 * accepts in a section or altogether is accepted in the whole craft.
 */
export function acceptedBy(
  { code, acceptable }: Pick<Rule, "code" | "acceptable">,
  lines: readonly Source[],
  scripts: readonly Script[],
  workspace: Workspace,
): Allowance[] {
  if (acceptable === false) return [];
  const accepting: Allowance[] = [];
  for (const { file, allowances } of scripts) {
    for (const each of allowances) {
      if (each.code === code && reaches(each, file, lines, workspace)) accepting.push(each);
    }
  }
  return accepting;
}

function reaches(
  { holds, line, section }: Allowance,
  file: string,
  lines: readonly Source[],
  workspace: Workspace,
): boolean {
  switch (holds) {
    case "file":
      return true;
    case "section":
      return lines.some((each) => sectionAt(each, workspace) === section);
    case "line":
      return lines.some((each) => each.file === file && each.line === line);
    case "nothing":
      return false;
  }
}

/** The section, as resolved, in which a line stands; null outside of any. */
function sectionAt({ file, line }: Source, workspace: Workspace): string | null {
  const script = workspace.script(file);
  const index = script?.tree.sections.findLastIndex((each) => each.line <= line) ?? -1;
  const section = script?.tree.sections[index];
  if (!section || (section.line !== line && !section.entries.includes(line))) return null;
  return script!.sections[index]!.section;
}

/** The files that have a say in what is reported of one file by itself: those of the craft, where it is one. */
export function scriptsOf(script: Script, workspace: Workspace): readonly Script[] {
  return (!script.tree.newer && workspace.craft(script.file)?.scripts) || [script];
}

/** The lines whose notes may accept what a rule reports of one file by itself. */
export function linesOf({ at, alsoOf = [] }: Report): Source[] {
  return [at.source, ...alsoOf];
}

/**
 * Where in the craft's own file a report is shown: where it stands; else at the first other place that it rests on
 * there; else at the `use` line that leads to it, for which only the line is given.
 */
export function shownIn({ at, related = [] }: Report, craft: Craft): Location | Source {
  if (at.source.file === craft.file) return at;
  const own = related.find((each) => each.at.source.file === craft.file);
  return own ? own.at : craft.answersFor(at.source);
}

/** The lines whose notes may accept what a rule reports of a craft: with the `use` line that leads to it, and the line at which it is shown. */
export function linesInCraft(report: Report, craft: Craft): Source[] {
  const shown = shownIn(report, craft);
  const use = craft.answersFor(report.at.source);
  return [...linesOf(report), use, ...("source" in shown ? [shown.source] : [])];
}
