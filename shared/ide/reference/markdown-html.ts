/**
 * Converts reference pages from Markdown to HTML that is safe to show. It knows what the pages are made of, and
 * nothing else: headings, paragraphs, lists by indent, fences, rules, code, strong and emphasised text. HTML and
 * addresses, for example in a pilot's own files, stay the text that they are.
 */
import { escapeHtml } from "../../text/html.ts";

/** The address for a name in code, depending on its chapter; null if it is not a name. */
export type LinkTo = (name: string, chapter: string) => string | null;

/** The HTML of a fenced script; what comes is plain text. */
export type ColourScript = (script: string) => string;

interface Rendering {
  readonly linkTo: LinkTo;
  readonly colour: ColourScript;
  /** The heading above, from the second level on. */
  chapter: string;
}

/** Converts a page. Every heading goes one level down, since what shows the page has a heading of its own. */
export function htmlOf(markdown: string, linkTo: LinkTo, colour: ColourScript = escapeHtml): string {
  return blocksOf(markdown.split("\n"), { linkTo, colour, chapter: "" }).join("\n");
}

const HEADING = /^(#{1,5}) +(.*)$/;
/** The languages that pages use: what a pilot writes behind the marks of a fence is text, and not lost. */
const FENCE = /^```(fettle|sh|yaml|text|ini)?\s*$/;
const RULE = /^---+\s*$/;
const ITEM = /^( *)- (.*)$/;

function blocksOf(lines: readonly string[], to: Rendering): string[] {
  const blocks: string[] = [];
  let at = 0;
  const takeWhile = (isTaken: (line: string) => boolean): string[] => {
    const from = at;
    while (at < lines.length && isTaken(lines[at]!)) at++;
    return lines.slice(from, at);
  };
  while (at < lines.length) {
    const line = lines[at]!;
    const [, marks = "", title = ""] = HEADING.exec(line) ?? [];
    const fence = FENCE.exec(line);
    if (line.trim() === "") at++;
    else if (fence) {
      at++;
      const script = takeWhile((each) => !/^```\s*$/.test(each)).join("\n");
      at++;
      const code = fence[1] === "fettle" ? to.colour(script) : escapeHtml(script);
      blocks.push(`<pre tabindex="0"><code>${code}</code></pre>`);
    } else if (marks !== "") {
      at++;
      if (marks.length > 1) to.chapter = title;
      blocks.push(`<h${marks.length + 1}>${inlineOf(title, to)}</h${marks.length + 1}>`);
    } else if (RULE.test(line)) {
      at++;
      blocks.push("<hr>");
    } else if (ITEM.test(line))
      blocks.push(
        listOf(
          takeWhile((each) => ITEM.test(each) || /^ {2,}\S/.test(each)),
          to,
        ),
      );
    else {
      const text = takeWhile((each) => each.trim() !== "" && ![HEADING, FENCE, RULE, ITEM].some((of) => of.test(each)));
      blocks.push(`<p>${inlineOf(text.map((each) => each.trim()).join("\n"), to)}</p>`);
    }
  }
  return blocks;
}

/** A list whose items may have lists below them, by indent. */
function listOf(lines: readonly string[], to: Rendering): string {
  const indentOf = (line: string) => line.length - line.trimStart().length;
  const own = indentOf(lines[0]!);
  const items: { text: string[]; below: string[] }[] = [];
  for (const line of lines) {
    const item = items.at(-1);
    if (!item || (ITEM.test(line) && indentOf(line) <= own)) items.push({ text: [line.trim().slice(2)], below: [] });
    else if (item.below.length > 0 || ITEM.test(line)) item.below.push(line);
    else item.text.push(line.trim());
  }
  const html = items.map(({ text, below }) => {
    const nested = below.length > 0 ? `${listOf(below, to)}\n` : "";
    return `<li>${inlineOf(text.join("\n"), to)}${nested}</li>`;
  });
  return `<ul>\n${html.join("\n")}\n</ul>`;
}

/** Code, strong, emphasised, and a sign that is meant as itself. A star with a blank inside is a star. */
const INLINE =
  /(`+)(.+?)\1(?!`)|\*\*(?=[^\s*])((?:`[^`]*`|[^`])*?[^\s])\*\*(?!\*)|\*(?=[^\s*])((?:`[^`]*`|\*\*.*?\*\*|[^`*])*?[^\s*])\*(?!\*)|\\([!-/:-@[-`{-~])/gs;

function inlineOf(text: string, to: Rendering): string {
  let html = "";
  let from = 0;
  for (const match of text.matchAll(INLINE)) {
    const [whole, , code, strong, emphasised, sign] = match;
    html += escapeHtml(text.slice(from, match.index));
    from = match.index + whole.length;
    if (code !== undefined) html += codeOf(code, to);
    else if (strong !== undefined) html += `<strong>${inlineOf(strong, to)}</strong>`;
    else if (emphasised !== undefined) html += `<em>${inlineOf(emphasised, to)}</em>`;
    else html += escapeHtml(sign ?? "");
  }
  return html + escapeHtml(text.slice(from));
}

function codeOf(text: string, { linkTo, chapter }: Rendering): string {
  // A blank at either end only keeps a sign apart from the marks.
  const plain = /^ .*\S.* $/s.test(text) ? text.slice(1, -1) : text;
  const link = linkTo(plain, chapter);
  const code = `<code>${escapeHtml(plain)}</code>`;
  return link === null ? code : `<a href="${escapeHtml(link)}">${code}</a>`;
}
