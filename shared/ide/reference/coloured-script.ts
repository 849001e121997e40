/** Scripts of the pages with their words in the colours that they have in an editor. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { type ScriptReader, scriptReader } from "../../model/read-script.ts";
import { escapeHtml } from "../../text/html.ts";
import { type TokenKind, tokensOf } from "../editor/tokens.ts";

/** The class of each kind of word, for styles: words that look alike in an editor share one. */
const CLASSES: Readonly<Record<TokenKind, string>> = {
  header: "keyword",
  keyword: "keyword",
  operator: "keyword",
  section: "section",
  setting: "name",
  field: "name",
  element: "name",
  mode: "mode",
  output: "mode",
  control: "control",
  channel: "control",
  position: "word",
  choice: "word",
  colour: "word",
  anchor: "word",
  number: "number",
  date: "number",
  unit: "unit",
  string: "string",
  comment: "comment",
  kept: "kept",
  left: "string",
  slot: "control",
  code: "mode",
};

const readers = new WeakMap<Catalogue, ScriptReader>();

/** The HTML of a script, or of a part of one, with a class for each kind of word: `t-number`. */
export function colouredScript(catalogue: Catalogue, text: string): string {
  const reader = readers.get(catalogue) ?? scriptReader(catalogue);
  readers.set(catalogue, reader);
  const tokens = tokensOf(reader.read("example", text, true), catalogue);
  let next = 0;
  const lines = text.split("\n").map((line, number) => {
    let html = "";
    let from = 0;
    for (; tokens[next]?.line === number; next++) {
      const { kind, start, end } = tokens[next]!;
      html += `${escapeHtml(line.slice(from, start))}<span class="t-${CLASSES[kind]}">${escapeHtml(line.slice(start, end))}</span>`;
      from = end;
    }
    return html + escapeHtml(line.slice(from));
  });
  return lines.join("\n");
}
