/** The outline of a script: its header, sections and entries. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Entry, Script } from "../../model/script.ts";
import { rangeOf, spanAt } from "../../syntax/span.ts";
import { dialectSectionsOf } from "./dialect-symbols.ts";
import type { ScriptSymbol } from "./script-symbol.ts";

/** The header as parent of the sections after it, each section as parent of its entries. */
export function symbolsOf(script: Script, catalogue: Catalogue): ScriptSymbol[] {
  const { lines, header } = script.tree;
  const sections = script.kind === "dialect" ? dialectSectionsOf(script, catalogue) : sectionsOf(script);
  const node = header === null ? null : lines[header]!.node;
  if (header === null || node?.kind !== "header") return sections;
  const end = lines.length - 1;
  const nameAt = { start: node.word.start, end: node.name?.end ?? node.word.end };
  return [
    {
      name: script.name || node.fileKind,
      detail: node.fileKind,
      kind: "header",
      range: { start: { line: header, character: 0 }, end: { line: end, character: lines[end]!.text.length } },
      nameRange: rangeOf(spanAt(header, nameAt)),
      children: sections.filter((section) => section.range.start.line > header),
    },
    ...sections.filter((section) => section.range.start.line < header),
  ];
}

function sectionsOf(script: Script): ScriptSymbol[] {
  const { lines } = script.tree;
  const ends = new Map(script.tree.sections.map((each) => [each.line, each.entries.at(-1) ?? each.line]));
  let next = 0;
  return script.sections.map(({ section, line }): ScriptSymbol => {
    const last = ends.get(line) ?? line;
    const own: Entry[] = [];
    // Entries are in order of line, so each section continues where the one before it ended.
    while (next < script.entries.length && script.entries[next]!.line <= last) own.push(script.entries[next++]!);
    const { node, text } = lines[line]!;
    const name = node.kind === "section" ? node.name : { start: 0, end: text.length };
    return {
      name: section.replace("/", " "),
      detail: "",
      kind: "section",
      range: { start: { line, character: 0 }, end: { line: last, character: lines[last]!.text.length } },
      nameRange: rangeOf(spanAt(line, name)),
      children: own.map((entry) => {
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
  });
}
