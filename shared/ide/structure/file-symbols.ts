/** Everything in a file that has a name. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { EntryKind, Script } from "../../model/script.ts";
import { type Cols, type Range, rangeOf, spanAt } from "../../syntax/span.ts";
import type { FileKind } from "../../syntax/tree.ts";
import type { ScriptSymbol } from "../editor/script-symbol.ts";
import { symbolsOf } from "../editor/symbols.ts";
import { pageAddress } from "../reference/page-names.ts";

/** `code`, `fact` and `line` are those of a dialect. */
export type SymbolKind = FileKind | EntryKind | "section" | "position" | "code" | "fact" | "line";

/** A name with its place. */
export interface FileSymbol {
  readonly name: string;
  readonly kind: SymbolKind;
  /** Whose it is: the name of the file, and the section. */
  readonly container: string;
  /** Of a section, a setting, a mode or an element: the address of its page, by which plain words find it. */
  readonly page: string | null;
  readonly nameRange: Range;
}

/** The names of a file in order of line. */
export function fileSymbols(script: Script, catalogue: Catalogue): FileSymbol[] {
  const found: FileSymbol[] = [];
  const sections: ScriptSymbol[] = [];
  for (const symbol of symbolsOf(script, catalogue)) {
    if (symbol.kind !== "header") sections.push(symbol);
    else {
      found.push({
        name: symbol.name,
        kind: script.kind,
        container: script.kind,
        page: null,
        nameRange: symbol.nameRange,
      });
      sections.push(...symbol.children);
    }
  }
  for (const section of sections) addSection(found, script, section);
  for (const { kind, name, value, line } of script.entries) {
    if (kind !== "control" || value?.kind !== "control") continue;
    for (const { name: position, nameAt } of value.positions)
      found.push({
        name: `${name} is ${position}`,
        kind: "position",
        container: `${script.name}, controls`,
        page: null,
        nameRange: rangeAt(line, nameAt),
      });
  }
  return found;
}

function rangeAt(line: number, cols: Cols): Range {
  return rangeOf(spanAt(line, cols));
}

function addSection(found: FileSymbol[], script: Script, { name, nameRange, children }: ScriptSymbol): void {
  // A named pack stands in the outline as “pack NAME”.
  const base = name.split(" ", 1)[0]!;
  const isDialect = script.kind === "dialect";
  found.push({
    name,
    kind: "section",
    container: script.name,
    page: isDialect ? null : pageAddress({ kind: "section", name: base }),
    nameRange,
  });
  const container = `${script.name}, ${name}`;
  const add = (symbol: ScriptSymbol): void => {
    const kind = isDialect ? dialectKind(base, symbol) : symbol.kind === "header" ? "section" : symbol.kind;
    const page = isDialect ? null : pageOf(base, symbol);
    found.push({ name: symbol.name, kind, container, page, nameRange: symbol.nameRange });
    symbol.children.forEach(add);
  };
  children.forEach(add);
}

function dialectKind(section: string, { kind }: ScriptSymbol): SymbolKind {
  if (section === "codes") return "code";
  return section === "text" ? "fact" : kind === "section" ? "section" : "line";
}

function pageOf(section: string, { kind, name }: ScriptSymbol): string | null {
  switch (kind) {
    case "mode":
    case "element":
      return pageAddress({ kind, name });
    case "setting":
      return pageAddress({ kind: "setting", name: `${section}.${name}` });
    default:
      return null;
  }
}
