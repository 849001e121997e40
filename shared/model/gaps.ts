/** What a craft's files were to say and do not, since a file they use, or a line of one, could not be read. */
import { NOT_AS_MEANT } from "./line-faults.ts";
import type { Script } from "./script.ts";

/** Something that is missing from a craft: a whole file, or what a line with a fault was to say. */
export interface Gap {
  /** It would have been merged before the craft's part of this number: what later parts say counts all the same. */
  readonly before: number;
  /** What may be missing; null: anything. */
  readonly sections: readonly string[] | null;
  /** Of one section, the one name that may be missing; null: any of it. */
  readonly name: string | null;
  /** The `use` line that leads nowhere, or the line with the fault. */
  readonly source: { readonly file: string; readonly line: number };
  /** The file as its `use` writes it; null where the line has a fault of another kind, or no readable path. */
  readonly path: string | null;
  readonly why: GapCause;
  /** The words of the finding or of the look-up, where the cause alone does not tell. */
  readonly words: string;
}

/** `unread`: the file has not been read yet, and may be at the next moment. */
export type GapCause = "missing" | "unread" | "kind" | "cycle" | "newer" | "fault";

export type FoundGap = Omit<Gap, "before">;

/** All that a handset may say. */
export const HANDSET_SECTIONS = ["transmitter", "controls"];

const NO_GAPS: readonly FoundGap[] = [];

/** What the lines of a used file leave unsaid by their faults. */
export function gapsInLines(script: Script): readonly FoundGap[] {
  if (script.issues.length === 0) return NO_GAPS;
  return script.issues.flatMap(({ code, message, span: { line } }): FoundGap[] => {
    if (!NOT_AS_MEANT.has(code) || script.uses.some((use) => use.line === line)) return [];
    const source = { file: script.file, line };
    return [{ ...lostAt(script, line), source, path: null, why: "fault", words: message }];
  });
}

/** What a line may have been about: its own name, where that is known; else its section; else anything. */
function lostAt({ entries, tree, sections, kind }: Script, line: number): Pick<Gap, "sections" | "name"> {
  const entry = entries.find((each) => each.line === line);
  const index = tree.sections.findLastIndex((each) => each.line <= line);
  const section = sections[index];
  const isInside = section?.known && !section.misplaced && section.line < line;
  if (isInside) {
    const namesItself = entry?.pieces.some((each) => each.start === entry.head.start);
    return { sections: [section.section], name: namesItself ? entry!.name : null };
  }
  return { sections: kind === "handset" ? HANDSET_SECTIONS : null, name: null };
}

/** Whether two lists of gaps are the same, but for the order in which they were found. */
export function sameGaps(a: readonly Gap[], b: readonly Gap[]): boolean {
  return (
    a.length === b.length &&
    a.every((gap, i) => {
      const other = b[i]!;
      return (
        gap.before === other.before &&
        gap.source.file === other.source.file &&
        gap.source.line === other.source.line &&
        gap.path === other.path &&
        gap.why === other.why &&
        gap.words === other.words
      );
    })
  );
}
