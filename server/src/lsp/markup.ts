/** Texts for clients that show Markdown, and for those that do not. */
import type { MarkupContent } from "vscode-languageserver-types";
import { visibleText } from "../../../shared/text/visible-text.ts";

/** Whether a client shows Markdown in some place, by what it says of it; one that says nothing gets Markdown. */
export function showsMarkdown(formats: readonly string[] | undefined): boolean {
  return formats?.includes("markdown") ?? true;
}

/** A text in Markdown as the client can show it. */
export function markup(words: string, isMarkdownShown: boolean): MarkupContent {
  const markdown = visibleText(words);
  return isMarkdownShown ? { kind: "markdown", value: markdown } : { kind: "plaintext", value: unmarked(markdown) };
}

const SIGN = /\\([\\`*_{}[\]<>#|~!&@:.)=+-])/g;

/** The text without its marks, as it would be read aloud; what stands in backquotes stays as it is. */
function unmarked(markdown: string): string {
  const isMarked = (part: string) => !part.startsWith("`");
  return markdown
    .split("\n")
    .filter((line) => !line.startsWith("```"))
    .join("\n")
    .split(/(`[^`\n]+`)/)
    .map((part) => (isMarked(part) ? unmarkedWords(part) : part.slice(1, -1)))
    .join("")
    .replace(/\[([^\]\n]*)\]\((?:[a-z][a-z-]*:|#)[^)\n]*\)/g, "$1");
}

function unmarkedWords(text: string): string {
  return text
    .replace(/\*\*(.*?)\*\*|(?<!\\)\*\*/g, "$1")
    .replace(/^#{1,6} /gm, "")
    .replace(/^> ?/gm, "")
    .replace(/ {2}$/gm, "")
    .replace(/^---$/gm, "")
    .replace(SIGN, "$1");
}
