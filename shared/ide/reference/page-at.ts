/** Finds the reference page for a position. */
import { baseOf } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Position } from "../../syntax/span.ts";
import { coversColumn, cursorContextAt } from "../context/cursor-context.ts";
import type { NamedPage } from "./names.ts";

export type PageName = Pick<NamedPage, "name" | "kind">;

/** The section, setting, mode or element at a position, as its page is named; null if there is none. */
export function pageNameAt(workspace: Workspace, file: string, at: Position): PageName | null {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor) return null;
  const { node, column, spec, section, entry, piece, text } = cursor;
  const { catalogue } = workspace;
  const inSection = (name: string): PageName | null => {
    const base = section === null ? "" : baseOf(section);
    if (spec?.holds === "modes") return modeNamed(name);
    if (spec?.holds === "places" && catalogue.element(name)) return { name, kind: "element" };
    return catalogue.setting(base, name) ? { name: `${base}.${name}`, kind: "setting" } : null;
  };
  const modeNamed = (name: string): PageName | null => (catalogue.mode(name) ? { name, kind: "mode" } : null);
  switch (node.kind) {
    case "section":
      return spec && coversColumn(node.name, column) ? { name: spec.name, kind: "section" } : null;
    case "drop": {
      const word = node.names.find((each) => coversColumn(each, column));
      return word ? inSection(word.text) : null;
    }
    case "entry":
      if (coversColumn(node.head, column)) return inSection(node.head.text);
      if (piece?.kind === "mode") return modeNamed(text.slice(piece.start, piece.end));
      return entry?.kind === "setting" && piece ? inSection(entry.name) : null;
    default:
      return null;
  }
}
