/** The outline of a dialect: its sections, in them codes, facts and what each line means, below their headings. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import { type Cols, rangeOf, spanAt } from "../../syntax/span.ts";
import type { Section, Tree } from "../../syntax/tree.ts";
import { type FactLine, factLineIn } from "../dialect-files/fact-line.ts";
import type { ScriptSymbol } from "./script-symbol.ts";

/** A section of a dialect with its facts; those behind an `under` stand below it. */
export function dialectSectionOf({ lines }: Tree, section: Section, catalogue: Catalogue): ScriptSymbol {
  const { line, title } = section;
  const { node, text } = lines[line]!;
  const last = section.entries.at(-1) ?? line;
  return {
    name: title === null ? section.name : `${section.name} ${title}`,
    detail: "",
    kind: "section",
    range: { start: { line, character: 0 }, end: { line: last, character: lines[last]!.text.length } },
    nameRange: rangeOf(spanAt(line, node.kind === "section" ? node.name : { start: 0, end: text.length })),
    children: factSymbols(lines, section, catalogue),
  };
}

type Lines = Tree["lines"];
type Mutable = Omit<ScriptSymbol, "children" | "range"> & { children: ScriptSymbol[]; range: ScriptSymbol["range"] };

function factSymbols(lines: Lines, { name, entries }: Section, catalogue: Catalogue): ScriptSymbol[] {
  const symbols: ScriptSymbol[] = [];
  let under: Mutable | null = null;
  for (const line of entries) {
    const fact = factLineIn(name, lines[line]!, catalogue);
    if (!fact?.head && fact?.texts.length === 0) continue;
    const symbol = fact && symbolOf(line, lines[line]!.text, fact);
    if (!symbol) continue;
    if (fact.kind === "under") {
      under = { ...symbol, children: [] };
      symbols.push(under);
    } else if (under) {
      under.children.push(symbol);
      under.range = { start: under.range.start, end: symbol.range.end };
    } else symbols.push(symbol);
  }
  return symbols;
}

function symbolOf(line: number, text: string, fact: FactLine): ScriptSymbol {
  const { kind, head, texts, pieces } = fact;
  const last = pieces.at(-1)?.end ?? text.length;
  const words = (at: Cols) => text.slice(at.start, at.end);
  const whole = rangeOf(spanAt(line, { start: 0, end: text.length }));
  const [first] = texts;
  if (kind === "line" && first) {
    const lefts = { start: first.start, end: texts.at(-1)!.end };
    const right = head ? text.slice(head.start, last) : "";
    return symbol(words(lefts), right, lefts, "setting");
  }
  const named = head ?? { start: pieces[0]!.start, end: pieces[0]!.end };
  if (kind === "under")
    return symbol(words({ start: named.start, end: last }), "", { start: named.start, end: last }, "section");
  return symbol(words(named), text.slice(named.end, last).trim(), named, kind === "code" ? "control" : "setting");

  function symbol(name: string, detail: string, at: Cols, as: ScriptSymbol["kind"]): ScriptSymbol {
    return { name, detail, kind: as, range: whole, nameRange: rangeOf(spanAt(line, at)), children: [] };
  }
}

/** The lines of each `under` with the facts below it, for folding. */
export function headingFoldsOf({ tree }: Script): { readonly startLine: number; readonly endLine: number }[] {
  const folds: { startLine: number; endLine: number }[] = [];
  for (const { entries } of tree.sections) {
    let open: { startLine: number; endLine: number } | null = null;
    for (const line of entries) {
      if (isUnder(tree.lines[line]!.text)) {
        open = { startLine: line, endLine: line };
        folds.push(open);
      } else if (open) open.endLine = line;
    }
  }
  return folds;
}

function isUnder(text: string): boolean {
  return /^\s+under(?![\w-])/.test(text);
}
