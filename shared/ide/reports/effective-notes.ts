/** The comments that go with a craft's values into its effective script, with the findings that they accept. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { craftReports } from "../../rules/engine/idle-allowances.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { idleLinesOfLayers } from "../../rules/lib/needs-in-use.ts";

/** The comments above a line of the effective script, each from its `#`. */
export interface NoteReader {
  /** Above the header: the craft's own, and what its layers accept altogether. */
  ofHeader(): string[];
  /** Above a section's name: of every file that has the section. */
  ofSection(section: string): string[];
  /** Above an entry: of the line that it comes from, and what is accepted where its file is used. */
  ofLine(source: Source): string[];
}

/** Reads them from the files of a craft. */
export function notesOf(craft: Craft, workspace: Workspace): NoteReader {
  const idle = new Set(idleLinesOfLayers(craft, workspace).map(keyOf));
  const accepted = acceptedWhereUsed(craft, workspace);
  return {
    ofHeader: () =>
      distinct(
        craft.scripts.flatMap((script) => {
          if (script.tree.header === null) return [];
          if (script.file === craft.file) return noteLines(script, script.tree.header);
          return script.allowances
            .filter(({ holds }) => holds === "file")
            .map(({ span }) => commentAt(script, span.line));
        }),
      ),
    ofSection: (section) =>
      distinct(
        craft.scripts.flatMap((script) =>
          script.sections
            .filter((each) => each.section === section && each.known && !each.misplaced)
            .flatMap(({ line }) => noteLines(script, line)),
        ),
      ),
    ofLine(source) {
      const script = workspace.script(source.file);
      if (!script) return [];
      const own = noteLines(script, source.line);
      if (idle.has(keyOf(source)) && !own.some((comment) => comment.includes(IDLE.code))) own.push(IDLE.comment);
      return [...own, ...(accepted.get(keyOf(source)) ?? [])];
    },
  };
}

/** Of what lies idle a rule is silent in a layer, where it may serve another craft, and not in a craft's own file. */
const IDLE = { code: "setting-needs", comment: "# allow setting-needs: it comes from a layer, and idles here" };

function keyOf({ file, line }: Source): string {
  return `${line}:${file}`;
}

/**
 * The comments on `use` lines that accept a finding, by the line of the used file that has it: in one file there is
 * no `use` on which they could stand.
 */
function acceptedWhereUsed(craft: Craft, workspace: Workspace): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  for (const { holds, line, code, span } of craft.script.allowances) {
    const rule = holds === "line" && isUse(craft.script, line) && rules.find((each) => each.code === code);
    if (!rule) continue;
    for (const { at } of craftReports(rule, craft, workspace)) {
      if (at.source.file === craft.file || craft.answersFor(at.source).line !== line) continue;
      const comments = found.get(keyOf(at.source)) ?? [];
      found.set(keyOf(at.source), [...comments, commentAt(craft.script, span.line)]);
    }
  }
  return found;
}

function isUse({ uses }: Script, line: number): boolean {
  return uses.some((use) => use.line === line);
}

/** The note of a line, what stands at its end last. */
function noteLines(script: Script, line: number): string[] {
  const above = script.noteOf(line).lines.map((each) => commentAt(script, each));
  const own = script.tree.lines[line]?.comment ? [commentAt(script, line)] : [];
  return [...above, ...own];
}

function commentAt({ tree }: Script, line: number): string {
  const { text, comment } = tree.lines[line]!;
  return comment ? text.slice(comment.start, comment.end).trim() : "";
}

function distinct(texts: readonly string[]): string[] {
  return [...new Set(texts)];
}
