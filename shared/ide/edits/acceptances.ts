/** The notes by which a finding can be accepted: on its line, in its section, in its file. */
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { type Range, touches } from "../../syntax/span.ts";
import { whyNotWritable } from "./script-edits.ts";

const acceptable: ReadonlySet<string> = new Set(
  rules.filter((rule) => rule.acceptable !== false).map(({ code }) => code),
);

export interface OfferedNote {
  readonly finding: Finding;
  readonly title: string;
  readonly edits: Finding["fixes"][number]["edits"];
}

/** A line above which a note accepts, and how far it reaches from there. */
interface NotePlace {
  readonly line: number;
  readonly where: string;
}

/**
 * For every finding whose range touches this one, the notes that accept it, the narrowest first; none
 * for a range of several lines, since findings are accepted one by one. The reason is left out, for
 * whoever accepts to write: until then `allow-unexplained` asks for it.
 */
export function acceptancesAt(workspace: Workspace, file: string, range: Range): OfferedNote[] {
  const script = workspace.script(file);
  if (!script || range.start.line !== range.end.line) return [];
  const offered = new Set<string>();
  return findingsOf(workspace, file)
    .filter((finding) => touches(finding.range, range) && acceptable.has(finding.code))
    .flatMap((finding) =>
      placesFor(script, finding.range.start.line).flatMap(({ line, where }) => {
        const title = `Accept ${finding.code} ${where}`;
        if (offered.has(title) || whyNotWritable(workspace, script, line) !== null) return [];
        offered.add(title);
        return { finding, title, edits: [noteAbove(script, line, finding)] };
      }),
    );
}

function placesFor({ tree, sections }: Script, line: number): NotePlace[] {
  const index = tree.sections.findLastIndex((each) => each.line <= line);
  const section = tree.sections[index];
  const places: NotePlace[] = [];
  if (line !== tree.header && line !== section?.line) places.push({ line, where: "on this line" });
  if (section && (section.line === line || section.entries.includes(line)))
    places.push({ line: section.line, where: `in all of ${sections[index]!.section}` });
  if (tree.header !== null) places.push({ line: tree.header, where: "in this file" });
  return places;
}

function noteAbove({ tree, file }: Script, line: number, { code }: Finding): Finding["fixes"][number]["edits"][number] {
  const at = { line, character: 0 };
  const indent = /^[ \t]*/.exec(tree.lines[line]!.text)![0];
  const end = tree.ends[line] || tree.ends.find((each) => each !== "") || "\n";
  return { file, range: { start: at, end: at }, text: `${indent}# allow ${code}: ${end}` };
}
