/** The outline of a script: its header, sections and entries. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import { rangeOf, spanAt } from "../../syntax/span.ts";
import { dialectSectionOf } from "./dialect-symbols.ts";
import type { ScriptSymbol } from "./script-symbol.ts";

/** The header as parent of the sections after it, each section as parent of its entries. */
export function symbolsOf(script: Script, catalogue: Catalogue): ScriptSymbol[] {
  const header = headerSymbolOf(script);
  const sections = script.sections.map((_, i) => sectionSymbolOf(script, i, catalogue));
  if (!header) return sections;
  const { line } = header.range.start;
  return [
    { ...header, children: sections.filter(({ range }) => range.start.line > line) },
    ...sections.filter(({ range }) => range.start.line < line),
  ];
}

/** The header by itself, with all that comes after it as its range; null where there is none. */
export function headerSymbolOf({ name, tree: { lines, header } }: Script): ScriptSymbol | null {
  const node = header === null ? null : lines[header]!.node;
  if (header === null || node?.kind !== "header") return null;
  const end = lines.length - 1;
  const nameAt = { start: node.word.start, end: node.name?.end ?? node.word.end };
  return {
    name: name || node.fileKind,
    detail: node.fileKind,
    kind: "header",
    range: { start: { line: header, character: 0 }, end: { line: end, character: lines[end]!.text.length } },
    nameRange: rangeOf(spanAt(header, nameAt)),
    children: [],
  };
}

/** The section of this number with its entries. It follows from the section's reading alone (`Script.readings`), and in a dialect from its lines. */
export function sectionSymbolOf({ kind, tree, readings }: Script, i: number, catalogue: Catalogue): ScriptSymbol {
  const { lines, sections } = tree;
  if (kind === "dialect") return dialectSectionOf(tree, sections[i]!, catalogue);
  const { about, entries } = readings[i]!;
  const { section, line } = about;
  const last = sections[i]!.entries.at(-1) ?? line;
  const { node, text } = lines[line]!;
  const name = node.kind === "section" ? node.name : { start: 0, end: text.length };
  return {
    name: section.replace("/", " "),
    detail: "",
    kind: "section",
    range: { start: { line, character: 0 }, end: { line: last, character: lines[last]!.text.length } },
    nameRange: rangeOf(spanAt(line, name)),
    children: entries.map((entry) => {
      const entryLine = lines[entry.line]!;
      const value =
        entryLine.node.kind === "entry"
          ? entryLine.text.slice(entryLine.node.value.start, entryLine.node.value.end)
          : "";
      return {
        name: entry.name,
        detail: value,
        kind: entry.kind,
        range: rangeOf(spanAt(entry.line, { start: 0, end: entryLine.text.length })),
        nameRange: rangeOf(spanAt(entry.line, entry.head)),
        children: [],
      };
    }),
  };
}
