/** Hovers of a header and of a `use` line. */
import { dialectOf, scriptsNaming } from "../../dialect/dialects.ts";
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { plainText } from "../../text/plain-text.ts";
import type { CursorContext } from "../context/cursor-context.ts";
import { formatCount } from "../context/format.ts";
import { list, paragraphs, quoteNote } from "../context/markdown.ts";
import type { PageName } from "../reference/page-names.ts";
import { fileLink, type LinkTargets, pageLink } from "./links.ts";

const FILE_KINDS_IN_WORDS = {
  craft: "One whole machine: its files laid over each other, later files win.",
  layer: "Part of a configuration, made to be reused by several craft.",
  handset: "The pilot's transmitter: its module and its physical controls.",
  dialect: "How one board's text and our words map onto each other; no craft uses it by `use`.",
} as const;

/** The most craft and files that one hover names. */
const MOST_NAMED = 12;

/** The hover of a header: the files it uses or its users, the note above the header, and the kind of file. */
export function hoverHeader(
  workspace: Workspace,
  { script }: CursorContext,
  page: PageName | null,
  links: LinkTargets,
): string {
  const craft = workspace.craft(script.file);
  const told =
    script.kind === "dialect"
      ? dialectText(workspace, script, links)
      : craft
        ? laidText(craft, script, links)
        : usersText(workspace, script, links);
  return paragraphs(
    `**${script.kind} “${plainText(script.name)}”** — ${told}`,
    headerNote(script),
    `${FILE_KINDS_IN_WORDS[script.kind]}`,
    (page && pageLink(page, links)) ?? "",
  );
}

function laidText({ scripts }: Craft, own: Script, links: LinkTargets): string {
  const files = scripts.filter((each) => each !== own).map((each) => fileLine(each, own.file, links));
  return files.length === 0
    ? "uses no other file."
    : `laid over, from the top to the bottom:\n\n${some(files.toReversed())}`;
}

/** How much a dialect reads, and which files name it as that of their board. */
function dialectText(workspace: Workspace, { file }: Script, links: LinkTargets): string {
  const dialect = dialectOf(workspace, file);
  const lines = dialect?.lefts.length ?? 0;
  const reads = `reads ${formatCount(lines, "kind of line", "kinds of lines")} with ${formatCount(dialect?.codes.size ?? 0, "code")}`;
  const users = scriptsNaming(workspace, file).map((script) => fileLine(script, file, links));
  return users.length === 0
    ? `${reads}; no craft of this workspace names it in \`board\`.`
    : `${reads}. The dialect of:\n\n${some(users)}`;
}

function usersText(workspace: Workspace, { file }: Script, links: LinkTargets): string {
  const users = workspace.craftFilesWith(file).flatMap((each) => {
    const script = workspace.script(each);
    return script ? [fileLine(script, file, links)] : [];
  });
  return users.length === 0 ? "no craft of this workspace uses it." : `used by:\n\n${some(users)}`;
}

/** The hover of a `use` line: the file, its sections, its note; why it cannot be used; null where that is not known. */
export function hoverUse(
  workspace: Workspace,
  { script, line }: CursorContext,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  const use = script.uses.find((each) => each.line === line);
  const target = use && workspace.target(script, use);
  if (target?.kind !== "script") return target?.kind === "none" ? `Not used: ${plainText(target.why)}.` : null;
  const sections = target.script.sections.map(({ section }) => section);
  return paragraphs(
    fileLine(target.script, script.file, links),
    headerNote(target.script),
    sections.length > 0 ? `Says: ${[...new Set(sections)].map(plainText).join(", ")}.` : "It says nothing yet.",
    (page && pageLink(page, links)) ?? "",
  );
}

function fileLine(script: Script, from: string, links: LinkTargets): string {
  return `**${script.kind} “${plainText(script.name)}”**, ${fileLink(script.file, from, links)}`;
}

function some(lines: readonly string[]): string {
  const more = lines.length - MOST_NAMED;
  return list([...lines.slice(0, MOST_NAMED), ...(more > 0 ? [`and ${more} more`] : [])]);
}

/** The note above a file's header. */
function headerNote({ tree, noteOf }: Script): string {
  return tree.header === null ? "" : quoteNote(noteOf(tree.header).text);
}
