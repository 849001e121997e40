/** Converts reference pages from Markdown to HTML that is safe to show: HTML in a page is escaped. */
import { Marked, type Tokenizer } from "marked";

/** The address for a name in code, depending on its chapter; null if it is not a name. */
export type LinkTo = (name: string, chapter: string) => string | null;

const nothing = () => undefined;

/** Pages contain no HTML and no addresses: what looks like them, for example in a pilot's own files, is text. */
const tokenizer: Partial<Tokenizer> = {
  html: nothing,
  tag: nothing,
  link: nothing,
  reflink: nothing,
  autolink: nothing,
  def: nothing,
};

/** Converts a page. Every heading goes one level down, since the whole site has a heading of its own. */
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

/** Escapes text for HTML, also for attributes. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"]/g, (character) => ENTITIES[character]!);
}
