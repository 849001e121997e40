/** Folding ranges of a script: sections, runs of comments, the `use` lines. */
import type { Script } from "../../model/script.ts";
import { headingFoldsOf } from "./dialect-symbols.ts";

export interface Fold {
  readonly startLine: number;
  /** Included. */
  readonly endLine: number;
  readonly kind: "region" | "comment" | "imports";
}

/** The folds of a script in order of line; a section of one line has none. */
export function foldsOf(script: Script): Fold[] {
  const { tree } = script;
  const folds: Fold[] = [];
  const add = (startLine: number, endLine: number | undefined, kind: Fold["kind"]) => {
    if (endLine !== undefined && endLine > startLine) folds.push({ startLine, endLine, kind });
  };
  for (const section of tree.sections) add(section.line, section.entries.at(-1), "region");
  if (tree.kind === "dialect")
    for (const { startLine, endLine } of headingFoldsOf(script)) add(startLine, endLine, "region");
  if (tree.uses.length > 0) add(tree.uses[0]!, tree.uses.at(-1), "imports");
  let first: number | null = null;
  for (let i = 0; i <= tree.lines.length; i++) {
    const comment = tree.lines[i]?.node.kind === "comment";
    if (comment) first ??= i;
    else if (first !== null) {
      add(first, i - 1, "comment");
      first = null;
    }
  }
  return folds.sort((a, b) => a.startLine - b.startLine);
}
