/** The HTML of pages is that which a full reader of Markdown makes of them, for all that a page may hold. */
import fc from "fast-check";
import { Marked, type Tokenizer } from "marked";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { languagePage } from "../../../shared/ide/reference/language-page.ts";
import { htmlOf } from "../../../shared/ide/reference/markdown-html.ts";
import { pageOfNamed } from "../../../shared/ide/reference/page.ts";
import { everyName } from "../../../shared/ide/reference/page-names.ts";
import { escapeHtml } from "../../../shared/text/html.ts";

const nothing = () => undefined;
const tokenizer: Partial<Tokenizer> = {
  html: nothing,
  tag: nothing,
  link: nothing,
  reflink: nothing,
  autolink: nothing,
  def: nothing,
};
const marked = new Marked({
  gfm: false,
  tokenizer,
  renderer: {
    heading({ tokens, depth }) {
      return `<h${depth + 1}>${this.parser.parseInline(tokens)}</h${depth + 1}>\n`;
    },
    code: ({ text }) => `<pre tabindex="0"><code>${escapeHtml(text)}</code></pre>\n`,
    codespan: ({ text }) => `<code>${escapeHtml(text)}</code>`,
  },
});
const bare = (html: string) =>
  html
    .replace(/\s*\n\s*/g, "\n")
    .replace(/\n(?=<)|(?<=>)\n/g, "")
    .replaceAll("&#39;", "'")
    .trim();
const ours = (markdown: string) => bare(htmlOf(markdown, () => null));
const theirs = (markdown: string) => bare(marked.parse(markdown, { async: false }));

test("of every page", () => {
  const catalogue = makeCatalogue();
  const names = everyName(catalogue);
  expect(names.length).toBeGreaterThan(650);
  for (const each of names)
    expect(ours(pageOfNamed(catalogue, each)), each.name).toBe(theirs(pageOfNamed(catalogue, each)));
  expect(ours(languagePage())).toBe(theirs(languagePage()));
});

test.each([
  "5 * 3 * 2 and a*b*c",
  "**strong** and *so*, **both *of* them**, ***",
  "`a * b` is code, ``b ` c`` too",
  "a \\* star, a \\` mark, a back\\slash",
  "- one\n- two\n  - below\n    - deeper\n  - again\n- three",
  "- one *is\n  long*\n- two",
  "text\n- a list straight below",
  "# A `name`\ntext straight below",
  "```\nunclosed",
  'a < b & c > "d"',
  "one\ntwo\n\nthree\n\n---\n\nfour",
])("of %j", (markdown) => {
  expect(ours(markdown)).toBe(theirs(markdown));
});

test("whatever a pilot writes, every element is closed and nothing is lost", () => {
  const piece = fc.constantFrom(
    "*",
    "**",
    "`",
    "``",
    "\\",
    "<b>",
    "- ",
    "  - ",
    "# ",
    "```",
    "```fettle\n",
    "\n",
    "\n\n",
    " ",
    "word",
    "&",
    "[a](b)",
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 25 }), (pieces) => {
      const html = htmlOf(pieces.join(""), () => "#x");
      const open: string[] = [];
      for (const [, close, name = ""] of html.matchAll(/<(\/?)([a-z0-9]+)[^>]*>/g)) {
        if (name === "hr") continue;
        if (!close) open.push(name);
        else expect(open.pop()).toBe(name);
      }
      expect(open).toEqual([]);
      const words = (text: string) => text.match(/word/g)?.length ?? 0;
      expect(words(html)).toBe(words(pieces.join("")));
    }),
    { seed: 14, numRuns: 300 },
  );
});
