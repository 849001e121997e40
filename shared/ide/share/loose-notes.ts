/** The comments of a script that belong to no line: between sections, above a blank line, at the end. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Source } from "../../model/craft.ts";
import { isAllow } from "../../model/notes.ts";
import type { Script } from "../../model/script.ts";

/** Comments line below line. */
export interface LooseNote {
  /** The section in which they stand, as resolved; null before the first. */
  readonly section: string | null;
  /** Each from its `#`. */
  readonly comments: readonly { readonly text: string; readonly source: Source }[];
}

/** In order of line. Settings that were made comments are none: what was taken back is not told on. */
export function looseNotes(script: Script, catalogue: Catalogue): readonly LooseNote[] {
  const { tree, file } = script;
  const noted = new Set(tree.lines.flatMap((_, line) => script.noteOf(line).lines));
  const found: { section: string | null; until: number; comments: { text: string; source: Source }[] }[] = [];
  tree.lines.forEach(({ text, node, comment }, line) => {
    if (node.kind !== "comment" || !comment || noted.has(line) || isAllow(tree, line)) return;
    const section = script.sections.findLast((each) => each.line < line)?.section ?? null;
    const words = text.slice(comment.start).trimEnd();
    if (isCommentedOut(words, section, catalogue)) return;
    const one = { text: words, source: { file, line } };
    const last = found.at(-1);
    if (last && last.until === line - 1 && last.section === section) {
      last.comments.push(one);
      last.until = line;
    } else found.push({ section, until: line, comments: [one] });
  });
  return found;
}

/** A comment, from its `#`, that begins as a line of its section: the name of a setting, and a value behind it. */
export function isCommentedOut(comment: string, section: string | null, catalogue: Catalogue): boolean {
  const [, name, rest] = /^#+\s*([A-Za-z][\w-]*)\s+(\S.*)$/.exec(comment) ?? [];
  if (!name || !rest) return false;
  const base = section?.split("/")[0];
  const known =
    base !== undefined && (catalogue.setting(base, name) ?? catalogue.element(name) ?? catalogue.mode(name));
  return Boolean(known) && /^(?:when|at|follows|["\d-]|yes\b|no\b)/.test(rest);
}
