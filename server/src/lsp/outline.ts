/** The outline of a script as a client with a tree has it, written as JSON. */
import type { DocumentSymbol } from "vscode-languageserver-types";
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { headerSymbolOf, sectionSymbolOf } from "../../../shared/ide/editor/symbols.ts";
import type { Script, SectionReading } from "../../../shared/model/script.ts";
import { toSymbol } from "./to-lsp.ts";
import { written } from "./written.ts";

/**
 * Gives what writes outlines. An editor asks for one after each key, and that of a long script is megabytes: what a key
 * does not touch is kept as it was written, of the script that was asked about last.
 */
export function makeOutlines(): (script: Script, catalogue: Catalogue) => DocumentSymbol[] {
  let known: ReadonlyMap<SectionReading, string> = new Map();
  return (script, catalogue) => {
    const now = new Map<SectionReading, string>();
    const header = headerSymbolOf(script);
    const below: string[] = [];
    const beside: string[] = [];
    for (const [i, reading] of script.readings.entries()) {
      const text = known.get(reading) ?? JSON.stringify(toSymbol(sectionSymbolOf(script, i, catalogue)));
      now.set(reading, text);
      (header && reading.about.line > header.range.start.line ? below : beside).push(text);
    }
    known = now;
    if (header) beside.unshift(withChildren(JSON.stringify(toSymbol(header)), below));
    return written(`[${beside.join(",")}]`);
  };
}

/** The text of an object with one member more, as `toSymbol` has it. */
function withChildren(text: string, children: readonly string[]): string {
  return children.length === 0 ? text : `${text.slice(0, -1)},"children":[${children.join(",")}]}`;
}
