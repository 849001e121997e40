/** What is told of a header and of a `use`. */
import type { Script } from "../model/script.ts";
import type { Workspace } from "../model/workspace.ts";
import { list, paragraphs, plainText } from "./describe.ts";
import { pathBetween, type Standing } from "./standing.ts";

const KINDS = {
  craft: "One whole machine: its files laid over each other, later ones first to be heard.",
  layer: "Part of a configuration, made to be reused by several craft.",
  handset: "The pilot's transmitter: its module and its physical controls.",
} as const;

export function hoverHeader(workspace: Workspace, { script }: Standing): string {
  const craft = workspace.craft(script.file);
  const users = craft ? [] : workspace.craftsWith(script.file).map((each) => plainText(each.name));
  return paragraphs(
    `**${script.kind} “${plainText(script.name)}”** — ${KINDS[script.kind]}`,
    craft
      ? paragraphs(
          "Its files, from the bottom to the top:",
          list(craft.scripts.map((each) => fileLine(each, script.file))),
        )
      : users.length > 0
        ? `Used by ${users.join(", ")}.`
        : "No craft of this workspace uses it.",
    quotedNote(script, script.tree.header),
  );
}

export function hoverUse(workspace: Workspace, { script, line }: Standing): string | null {
  const use = script.uses.find((each) => each.line === line);
  const target = use && workspace.target(script, use);
  if (target?.kind !== "script") return target?.kind === "none" ? `Not used: ${target.why}.` : null;
  const sections = target.script.sections.map(({ section }) => section);
  return paragraphs(
    `**${target.script.kind} “${plainText(target.script.name)}”** — ${pathBetween(script.file, target.script.file)}`,
    sections.length > 0 ? `Says: ${[...new Set(sections)].join(", ")}.` : "It says nothing yet.",
    quotedNote(target.script, target.script.tree.header),
  );
}

function fileLine(script: Script, from: string): string {
  return `${script.kind} “${plainText(script.name)}” (${script.file === from ? "this file" : pathBetween(from, script.file)})`;
}

function quotedNote(script: Script, line: number | null): string {
  const note = line === null ? "" : script.noteOf(line).text;
  return note === "" ? "" : `> ${note.split("\n").map(plainText).join("  \n> ")}`;
}
