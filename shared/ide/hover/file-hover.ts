/** Hovers of a header and of a `use` line. */
import type { Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { CursorContext } from "../context/cursor-context.ts";
import { list, paragraphs, plainText, quoteNote } from "../context/markdown.ts";

const FILE_KINDS_IN_WORDS = {
  craft: "One whole machine: its files laid over each other, later files win.",
  layer: "Part of a configuration, made to be reused by several craft.",
  handset: "The pilot's transmitter: its module and its physical controls.",
} as const;

/** The hover of a header: the kind of file, the files it uses or its users, and the note above the header. */
export function hoverHeader(workspace: Workspace, { script }: CursorContext): string {
  const craft = workspace.craft(script.file);
  const users = craft ? [] : workspace.craftsWith(script.file).map((each) => plainText(each.name));
  return paragraphs(
    `**${script.kind} “${plainText(script.name)}”** — ${FILE_KINDS_IN_WORDS[script.kind]}`,
    craft
      ? paragraphs(
          "Its files, from the bottom to the top:",
          list(craft.scripts.map((each) => fileLine(each, script.file))),
        )
      : users.length > 0
        ? `Used by ${users.join(", ")}.`
        : "No craft of this workspace uses it.",
    headerNote(script),
  );
}

/** The hover of a `use` line: the file, its sections, its note; why it cannot be used; null where that is not known. */
export function hoverUse(workspace: Workspace, { script, line }: CursorContext): string | null {
  const use = script.uses.find((each) => each.line === line);
  const target = use && workspace.target(script, use);
  if (target?.kind !== "script") return target?.kind === "none" ? `Not used: ${target.why}.` : null;
  const sections = target.script.sections.map(({ section }) => section);
  return paragraphs(
    `**${target.script.kind} “${plainText(target.script.name)}”** — ${pathBetween(script.file, target.script.file)}`,
    sections.length > 0 ? `Says: ${[...new Set(sections)].join(", ")}.` : "It says nothing yet.",
    headerNote(target.script),
  );
}

function fileLine(script: Script, from: string): string {
  return `${script.kind} “${plainText(script.name)}” (${script.file === from ? "this file" : pathBetween(from, script.file)})`;
}

/** The note above a file's header. */
function headerNote({ tree, noteOf }: Script): string {
  return tree.header === null ? "" : quoteNote(noteOf(tree.header).text);
}
