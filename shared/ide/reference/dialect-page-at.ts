/** The page about what stands at a position of a dialect. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { adjustable } from "../../model/read-entry.ts";
import { type CursorContext, coversColumn } from "../context/cursor-context.ts";
import { type FactLine, factLineAt } from "../dialect-files/fact-line.ts";
import type { PageName } from "./page-names.ts";

/** Our name, or the page that explains this part of a dialect; null where nothing does. */
export function dialectPageAt(
  { script, node, line, column, text }: CursorContext,
  catalogue: Catalogue,
): PageName | null {
  if (node.kind === "section" && coversColumn(node.name, column)) {
    const { text: name } = node.name;
    if (catalogue.section(name)) return { name, kind: "section" };
    return word(name === "codes" ? "dialect-codes" : "dialect");
  }
  const fact = factLineAt(script.tree, line, catalogue);
  const piece = fact?.pieces.findLast((each) => coversColumn(each, column));
  if (!fact || !piece) return null;
  const said = text.slice(piece.start, piece.end);
  switch (piece.kind) {
    case "mode":
      return catalogue.mode(said) ? { name: said, kind: "mode" } : null;
    case "element":
      return { name: said, kind: "element" };
    case "setting":
      return settingAt(fact, said, catalogue);
    default:
      return word(PAGES[fact.kind]);
  }
}

const PAGES: Readonly<Record<FactLine["kind"], string>> = {
  text: "dialect",
  code: "dialect-codes",
  under: "dialect-reading",
  cannot: "dialect-lines",
  line: "dialect-lines",
};

function word(name: string): PageName {
  return { name, kind: "word" };
}

function settingAt({ spec }: FactLine, name: string, catalogue: Catalogue): PageName | null {
  if (spec && catalogue.setting(spec.name, name)) return { name: `${spec.name}.${name}`, kind: "setting" };
  const moved = adjustable(name, catalogue);
  const owner = moved && catalogue.sections.find(({ settings }) => settings.includes(moved));
  return owner ? { name: `${owner.name}.${name}`, kind: "setting" } : word("dialect-lines");
}
