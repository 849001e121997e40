/** The name that a position in a script is about, and the craft on which it is looked at. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Position } from "../../syntax/span.ts";
import { coversColumn, cursorContextAt } from "../context/cursor-context.ts";
import { pickedCraft } from "../context/picked-craft.ts";
import { isJoint, type SaidName } from "./chain.ts";

/** The name at a position: of an entry, of a field of it, in a `drop`, or of kept board text; null where there is none. */
export function saidNameAt(workspace: Workspace, file: FilePath, at: Position): SaidName | null {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor || cursor.section === null) return null;
  const { node, section, entry, column } = cursor;
  if (node.kind === "kept") return { section, name: "", field: null };
  if (node.kind === "drop") {
    const word =
      node.names.find((each) => coversColumn(each, column)) ?? (node.names.length === 1 ? node.names[0] : undefined);
    return word ? { section, name: word.text, field: null } : null;
  }
  if (!entry) return null;
  const said: SaidName = { section: entry.section, name: entry.name, field: null };
  if (entry.value?.kind !== "fields" || isJoint(entry, said, workspace.catalogue)) return said;
  const { fields } = entry.value;
  const field = fields.find(({ nameAt, value }) => column >= nameAt.start && column <= value.end);
  return field ? { ...said, field: field.name } : said;
}

/** The craft on which a file is looked at: the file itself, else the picked one of those that use it, else the first. */
export function craftAt(workspace: Workspace, file: FilePath, picked: FilePath | undefined): Craft | null {
  return pickedCraft(workspace, file, picked);
}

/** SECTION.NAME, and for a field SECTION.NAME.FIELD; of kept board text `verbatim "DIALECT"`. */
export function wordsOf({ section, name, field }: SaidName): string {
  if (name === "") return section.replace(/^verbatim\/(.*)$/, 'verbatim "$1"');
  return [section, name, ...(field === null ? [] : [field])].join(".");
}
