/** A pilot's text in Markdown stays the text that it is, whatever stands in it. */
import { Lexer, Parser, type Token } from "marked";
import { expect, test } from "vitest";
import { codeBlock, codeSpan, quoteNote } from "../../../shared/ide/context/markdown.ts";
import { plainText } from "../../../shared/text/plain-text.ts";
import { visibleLine } from "../../../shared/text/visible-text.ts";
import { hostileTexts } from "../../hostile-texts.ts";

/** The kinds of what a reader of Markdown makes of it, once each. */
function kindsOf(markdown: string): string[] {
  const kinds = new Set<string>();
  const walk = (tokens: readonly Token[]) => {
    for (const token of tokens) {
      kinds.add(token.type);
      walk(("tokens" in token ? token.tokens : undefined) ?? []);
    }
  };
  walk(new Lexer({ gfm: true }).lex(markdown));
  return [...kinds].sort();
}

/** What is read. */
function wordsOf(markdown: string): string {
  const html = Parser.parse(new Lexer({ gfm: true }).lex(markdown));
  const signs: Readonly<Record<string, string>> = { lt: "<", gt: ">", quot: '"', "#39": "'", amp: "&" };
  return html.replaceAll(/<[^>]*>/g, "").replaceAll(/&(lt|gt|quot|#39|amp);/g, (_, name: string) => signs[name]!);
}

const lines = hostileTexts.map(visibleLine).filter((text) => text.trim() !== "" && text.length < 5000);

test.each(lines)("%j is words", (text) => {
  expect(kindsOf(plainText(text)).filter((kind) => !["escape", "paragraph", "text"].includes(kind))).toEqual([]);
  expect(wordsOf(plainText(text)).trim()).toBe(text.trim());
  expect(
    kindsOf(quoteNote(`first\n${text}\nlast`)).filter((kind) => !"escape paragraph text blockquote br".includes(kind)),
  ).toEqual([]);
});

test.each(lines)("%j is code", (text) => {
  expect(kindsOf(codeSpan(text))).toEqual(["codespan", "paragraph"]);
  expect(wordsOf(codeSpan(text)).trim()).toBe(text.trim());
  expect(kindsOf(codeBlock(`${text}\n\n${text}`))).toEqual(["code"]);
});
