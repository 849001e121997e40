/** By what a finding is known again in another state of its files: what it is about and what it says, wherever its line has gone. */
import type { Workspace } from "../../model/workspace.ts";
import type { Finding, Place } from "../../protocol/findings.ts";
import { ITS_LINE } from "../../rules/engine/engine.ts";

export interface FindingIdentity {
  readonly code: string;
  /** The file with the line that the finding is about, which is another than it is shown in where a layer says it. */
  readonly file: string;
  readonly line: number;
  /** The section as resolved, such as `pack/big`; empty outside of any. */
  readonly section: string;
  /** The name of the entry; `use`, `header` or `section` of such a line; empty for a line that has none. */
  readonly name: string;
  /** Which of the lines of its section with this name it is, from 0. */
  readonly index: number;
  /** The message, without numbers of lines and without folders. */
  readonly words: string;
  /** What the line says, with a value as it is spelled canonically: without comment and columns. */
  readonly text: string;
}

/** What a finding is about, and in which words. */
export function identityOf(finding: Finding, workspace: Workspace): FindingIdentity {
  const { file, line } = placeOf(finding);
  const script = workspace.script(file);
  const tree = script?.tree;
  const node = tree?.lines[line]?.node;
  const index = tree?.sections.findLastIndex((each) => each.line <= line) ?? -1;
  const section = script?.sections[index]?.section ?? "";
  const entry = node?.kind === "entry" ? script!.entries.find((each) => each.line === line) : undefined;
  const text = entry ? `${entry.name} ${collapsed(entry.text)}` : lineText(script?.tree.lines[line]);
  const named = { code: finding.code, file, line, section, words: wordsOf(finding.message), text };
  if (node?.kind !== "entry") return { ...named, name: node && KINDS.has(node.kind) ? node.kind : "", index: 0 };
  const name = node.head.text;
  const alike = tree!.sections[index]?.entries.filter((each) => {
    const other = tree!.lines[each]!.node;
    return each < line && other.kind === "entry" && other.head.text === name;
  });
  return { ...named, name, index: alike?.length ?? 0 };
}

/** Lines of which each file, or each section, has a certain one. */
const KINDS: ReadonlySet<string> = new Set(["header", "use", "section"]);

/** The line that a finding is about: that of a layer, where it is shown on the line that uses it. */
function placeOf({ file, range, related }: Finding): { readonly file: string } & Place {
  const [first] = related;
  return first?.message === ITS_LINE ? { file: first.file, ...first.range.start } : { file, ...range.start };
}

function lineText(line: { readonly text: string; readonly comment: { readonly start: number } | null } | undefined) {
  return collapsed(line?.text.slice(0, line.comment?.start ?? line.text.length) ?? "");
}

function collapsed(text: string): string {
  return text.trim().replace(/\s+/g, " ");
}

/** What the engine adds to a message that is shown in another file than its line. */
const ADDED_LINE = / (?:It stands in|The other line is) lines? \d+[\s\S]*$/;
const LINE_NUMBERS =
  /\b(lines?) \d+(?:(?:, | and )\d+)*(?: of [^.,;:()“”]+\.fettle)?(?:(?:, | and )\d+(?: of [^.,;:()“”]+\.fettle)?)*/g;
const FOLDERS = /(?:[^\s“”"/]*\/)+([^“”"/]+\.fettle)/g;

/** A message as it stays while lines move and files are put elsewhere. */
function wordsOf(message: string): string {
  return message.replace(ADDED_LINE, "").replace(LINE_NUMBERS, "line").replace(FOLDERS, "$1");
}
