/** The reference as files: complete, the same each time, and without a link that leads nowhere. */
import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { benchPages } from "../../../shared/ide/reference/bench/pages.ts";
import { dialectPages } from "../../../shared/ide/reference/dialect/pages.ts";
import { fleetPages } from "../../../shared/ide/reference/fleet/pages.ts";
import { gitPages } from "../../../shared/ide/reference/git/pages.ts";
import { htmlOf } from "../../../shared/ide/reference/markdown-html.ts";
import { listNames } from "../../../shared/ide/reference/page-names.ts";
import { referenceOf } from "../../../shared/ide/reference/reference.ts";
import { REFERENCE_SCRIPT, REFERENCE_SCRIPT_HASH } from "../../../shared/ide/reference/reference-script.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import { glow } from "../own-words/glow.ts";

const catalogue = makeCatalogue();
const files = new Map(referenceOf(catalogue).map(({ path, text }) => [path, text]));
const site = files.get("index.html")!;

test("the same catalogue gives the same bytes", () => {
  expect(referenceOf(makeCatalogue())).toEqual([...files].map(([path, text]) => ({ path, text })));
});

test("every name has one article, under an address of its own", () => {
  const ids = [...site.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const articles = [...site.matchAll(/<article id="[^"]+" data-kind="([a-z]+)"[^>]*>\n<h2>([^<]+)<\/h2>/g)];
  const named = articles.map(([, kind, name]) => `${kind} ${name!.replaceAll("&amp;", "&")}`);
  expect(named.sort()).toEqual(
    [
      ...listNames(catalogue).map(({ kind, name }) => `${kind} ${name}`),
      ...[...dialectPages, ...gitPages, ...benchPages, ...fleetPages].map(({ title }) => `word ${title}`),
      "page Speed",
    ].sort(),
  );
});

test("every link leads to an article", () => {
  const ids = new Set([...site.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
  const links = [...site.matchAll(/href="([^"]+)"/g)].map(([, href]) => href!);
  expect(links.length).toBeGreaterThan(2000);
  expect(links.filter((href) => !href.startsWith("#") || !ids.has(href.slice(1)))).toEqual([]);
});

test("the page is one whole: every element is closed, and nothing is fetched", () => {
  const body = site.replace(/<script>[\s\S]*<\/script>/, "").replace(/<style>[\s\S]*<\/style>/, "");
  const open: string[] = [];
  const crossed: string[] = [];
  for (const [tag, close, name = ""] of body.matchAll(/<(\/?)([a-z0-9]+)([^>]*)>/g)) {
    if (["meta", "input", "br"].includes(name) || tag.endsWith("/>")) continue;
    if (!close) open.push(name);
    else if (open.pop() !== name) crossed.push(tag);
  }
  expect(crossed).toEqual([]);
  expect(open).toEqual([]);
  expect(site).not.toMatch(/(src|href)="(https?:|\/\/)|url\(|@import|fetch\(/);
  expect(site.match(/<script/g)).toHaveLength(1);
});

test("the Markdown holds every page too, a file for each section and each other kind", () => {
  const { sections } = catalogue;
  expect([...files.keys()].filter((path) => path.startsWith("markdown/sections/"))).toHaveLength(sections.length);
  for (const { name, kind } of listNames(catalogue)) {
    const section = kind === "setting" || kind === "section" ? name.split(".")[0] : null;
    const text = files.get(section ? `markdown/sections/${section}.md` : `markdown/${kind}s.md`)!;
    expect(text.split("\n"), name).toContain(kind === "section" ? `# ${name}` : `## ${name}`);
  }
  const contents = files.get("markdown/README.md")!;
  for (const [, path] of contents.matchAll(/\]\(([^)]+)\)/g)) expect(files.has(`markdown/${path}`), path).toBe(true);
});

test("what a pilot adds is there as well, and signs in it stay signs", () => {
  const own = makeCatalogue(
    [{ ...glow, what: "Waits <b>long</b> & glows." }],
    [{ word: 'a "quoted" word', name: "arm" }],
  );
  const [index] = referenceOf(own);
  expect(index!.text).toContain('<article id="setting/lights.glow-delay"');
  expect(index!.text).toContain("Waits &lt;b&gt;long&lt;/b&gt; &amp; glows.");
  expect(index!.text).toContain("a &quot;quoted&quot; word");
});

test("what the pages use of Markdown becomes HTML", () => {
  const text =
    "# arm\n\n*mode*\n\n**Bold** and `arm` & `none`.\n\n## Rules\n\n- one\n  - `a<b`\n    - deep\n- two\n\n```fettle\nmodes\n  # note\n```\n\n- alone";
  const html = htmlOf(text, (name, chapter) => (name === "arm" ? `#${chapter}` : null));
  expect(html).toBe(
    [
      "<h2>arm</h2>",
      "<p><em>mode</em></p>",
      '<p><strong>Bold</strong> and <a href="#"><code>arm</code></a> &amp; <code>none</code>.</p>',
      "<h3>Rules</h3>",
      "<ul>\n<li>one<ul>\n<li><code>a&lt;b</code><ul>\n<li>deep</li>\n</ul>\n</li>\n</ul>\n</li>\n<li>two</li>\n</ul>",
      '<pre tabindex="0"><code>modes\n  # note</code></pre>',
      "<ul>\n<li>alone</li>\n</ul>",
    ].join("\n"),
  );
});

test("names in code lead to their pages wherever they stand", () => {
  const html = htmlOf("## `arm`\n\n**Needs `arm`, *always*.**", () => "#arm");
  const link = '<a href="#arm"><code>arm</code></a>';
  expect(html).toBe(`<h3>${link}</h3>\n<p><strong>Needs ${link}, <em>always</em>.</strong></p>`);
});

test.each([
  "<script>alert(1)</script>",
  "an <img src=x onerror=alert(1)> in a line",
  "<!-- hidden -->",
  "[a link](javascript:alert(1)) and ![a picture](https://example.org/a.png)",
  "[a link][there]\n\n[there]: javascript:alert(1)",
  "<https://example.org> and https://example.org and me@example.org",
  "```\n</code></pre><script>\n```",
  "`<b>`",
])("%s puts neither HTML nor an address into a page", (markdown) => {
  const html = htmlOf(markdown, () => null);
  const tags = [...html.matchAll(/<\/?([^\s>]+)/g)].map(([, name]) => name);
  expect(tags.filter((name) => !["p", "pre", "code"].includes(name!))).toEqual([]);
  expect(html).not.toMatch(/<[^>]*\s(?!tabindex="0")\w+=/);
});

test("nothing in it turns the text or hides, also where a rule tells of just that", () => {
  expect([...files.values()].join("\n")).toContain("Port 3 is ‹U+202E right-to-left override›nrot");
  for (const [path, text] of files) expect(visibleText(text), path).toBe(text);
});

test("the policy of the page permits its own script and no other", () => {
  const hash = `sha256-${createHash("sha256").update(REFERENCE_SCRIPT).digest("base64")}`;
  expect(REFERENCE_SCRIPT_HASH).toBe(hash);
  expect(site).toContain(`script-src '${hash}';`);
  expect(site.split("<script")).toHaveLength(2);
});
