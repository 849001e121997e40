/** The name at a position of a script, as its page is called. */
import { unitFamily } from "../../catalogue/units.ts";
import { baseOf } from "../../model/craft.ts";
import { adjustable } from "../../model/read-entry.ts";
import type { Workspace } from "../../model/workspace.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import type { Position } from "../../syntax/span.ts";
import { allowanceAt, type CursorContext, coversColumn, cursorContextAt } from "../context/cursor-context.ts";
import { dialectPageAt } from "./dialect-page-at.ts";
import { languageWord } from "./language-words.ts";
import type { PageName } from "./page-names.ts";

/** The section, setting, mode, element, unit, accepted rule or word of the language at a position; null if there is none. */
export function pageNameAt(workspace: Workspace, file: string, at: Position): PageName | null {
  const cursor = cursorContextAt(workspace, file, at);
  if (!cursor) return null;
  const { node, column, spec } = cursor;
  const code = allowanceAt(cursor)?.code;
  if (code !== undefined) return rules.some((rule) => rule.code === code) ? { name: code, kind: "rule" } : null;
  if (cursor.script.kind === "dialect" && node.kind !== "header") return dialectPageAt(cursor, workspace.catalogue);
  switch (node.kind) {
    case "header":
      return coversColumn(node.word, column) ? { name: cursor.script.kind, kind: "word" } : null;
    case "use":
      return { name: "use", kind: "word" };
    case "section":
      return spec && coversColumn(node.name, column) ? { name: spec.name, kind: "section" } : null;
    case "drop": {
      const word = node.names.find((each) => coversColumn(each, column));
      return word ? nameInSection(workspace, cursor, word.text) : { name: "drop", kind: "word" };
    }
    case "entry":
      return coversColumn(node.head, column)
        ? nameInSection(workspace, cursor, node.head.text)
        : nameOfPiece(workspace, cursor);
    default:
      return null;
  }
}

function nameInSection({ catalogue }: Workspace, { section, spec }: CursorContext, name: string): PageName | null {
  const base = section === null ? "" : baseOf(section);
  switch (spec?.holds) {
    case "modes":
      return catalogue.mode(name) ? { name, kind: "mode" } : null;
    case "controls":
      return { name: "controls", kind: "section" };
    case "outputs":
      return { name: "outputs", kind: "section" };
    case "follows": {
      const setting = adjustable(name, catalogue);
      const owner = setting && catalogue.sections.find(({ settings }) => settings.includes(setting));
      return owner ? { name: `${owner.name}.${name}`, kind: "setting" } : null;
    }
  }
  if (spec?.holds === "places" && catalogue.element(name)) return { name, kind: "element" };
  return catalogue.setting(base, name) ? { name: `${base}.${name}`, kind: "setting" } : null;
}

/** Of a value, the unit, mode or word itself; else the name whose value it is. */
function nameOfPiece(workspace: Workspace, cursor: CursorContext): PageName | null {
  const { piece, entry, text } = cursor;
  if (!piece || !entry) return null;
  const word = text.slice(piece.start, piece.end);
  switch (piece.kind) {
    case "mode":
      return workspace.catalogue.mode(word) ? { name: word, kind: "mode" } : null;
    case "unit": {
      const unit = unitFamily(word)?.units.find(({ symbol, also }) => symbol === word || also?.includes(word));
      return unit ? { name: unit.symbol, kind: "unit" } : null;
    }
    case "keyword":
    case "operator":
      return languageWord(word) ? { name: word, kind: "word" } : null;
    case "control":
    case "channel":
    case "position":
      return { name: "controls", kind: "section" };
    default:
      return entry.kind === "setting" || entry.kind === "element" ? nameInSection(workspace, cursor, entry.name) : null;
  }
}
