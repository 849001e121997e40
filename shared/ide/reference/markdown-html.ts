/** Reference pages, which are Markdown, as HTML that is safe to show: no HTML of a page's own comes through. */
import { Marked, type Tokenizer } from "marked";

/** The address that a name in code leads to, by the chapter that it stands in; null for what is no name. */
export type LinkTo = (name: string, chapter: string) => string | null;

const nothing = () => undefined;

/** A page has no HTML and no addresses of its own: what looks like them, in a pilot's own words say, is text. */
const tokenizer: Partial<Tokenizer> = {
  html: nothing,
  tag: nothing,
  link: nothing,
  reflink: nothing,
  autolink: nothing,
  def: nothing,
};

/** Every heading goes one level down, since the page as a whole has its own. */
export function htmlOf(markdown: string, linkTo: LinkTo): string {
  let chapter = "";
  const marked = new Marked({
    gfm: false,
    tokenizer,
    renderer: {
      heading({ tokens, text, depth }) {
        if (depth > 1) chapter = text;
        return `<h${depth + 1}>${this.parser.parseInline(tokens)}</h${depth + 1}>\n`;
      },
      code: ({ text }) => `<pre tabindex="0"><code>${escapeHtml(text)}</code></pre>\n`,
      codespan({ text }) {
        const link = linkTo(text, chapter);
        const code = `<code>${escapeHtml(text)}</code>`;
        return link === null ? code : `<a href="${escapeHtml(link)}">${code}</a>`;
      },
    },
  });
  return marked.parse(markdown, { async: false }).trim();
}

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** Text as it may stand in HTML, in an attribute too. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"]/g, (character) => ENTITIES[character]!);
}
