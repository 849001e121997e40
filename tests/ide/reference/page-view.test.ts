/** The pages as an editor shows them: every one there, coloured, and no link without a page behind it. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { languageTopic } from "../../../shared/ide/reference/language-page.ts";
import { languageWords } from "../../../shared/ide/reference/language-words.ts";
import { everyName, pageAddress } from "../../../shared/ide/reference/page-names.ts";
import { pageView } from "../../../shared/ide/reference/page-view.ts";
import { glow } from "../own-words/glow.ts";

const catalogue = makeCatalogue();
const names = everyName(catalogue);
const linksIn = (html: string) => [...html.matchAll(/<a href="#([^"]*)">/g)].map(([, to]) => to!);
const textOf = (html: string) => html.replace(/<[^>]*>/g, "");

test("every name has a page under its address, which begins with it", () => {
  for (const page of names.filter(({ kind }) => kind !== "word")) {
    const { title, html } = pageView(catalogue, pageAddress(page));
    expect(title).toBe(page.name);
    expect(textOf(html).split("\n")[0]).toBe(page.name);
    expect(html.match(/<h2>/g)).toHaveLength(1);
  }
  for (const { word } of languageWords) {
    expect(languageTopic(word), word).not.toBeNull();
    expect(pageView(catalogue, `word/${word}`).html, word).not.toContain("Nothing is called");
  }
});

test("every link of every page leads to a page", () => {
  const addresses = new Set(names.map(pageAddress));
  const dangling: string[] = [];
  let links = 0;
  const pages = [...names.map(pageAddress), "wran-at", "nothing of the kind whatsoever", "recorder", "video-power"];
  for (const page of pages)
    for (const to of linksIn(pageView(catalogue, page).html)) {
      links++;
      if (!addresses.has(to) || to === page) dangling.push(`${page} → ${to}`);
    }
  expect(dangling).toEqual([]);
  expect(links).toBeGreaterThan(4000);
});

test("links come both ways between a setting and the rules that look at it", () => {
  expect(linksIn(pageView(catalogue, "setting/pack.warn-at").html)).toContain("rule/pack-order");
  expect(linksIn(pageView(catalogue, "rule/pack-order").html)).toContain("setting/pack.warn-at");
  expect(linksIn(pageView(catalogue, "section/pack").html)).toContain("setting/pack.warn-at");
  // A name that is an element and a rule: each chapter leads to its own.
  expect(linksIn(pageView(catalogue, "setting/video.power").html)).toContain("rule/video-power");
});

test("examples are coloured as an editor does it, and read as they are written", () => {
  const { html } = pageView(catalogue, "pack.warn-at");
  expect(html).toContain(
    '<span class="t-section">pack</span>\n  <span class="t-name">warn-at</span>  <span class="t-number">3.5</span> <span class="t-unit">V/cell</span>',
  );
  expect(pageView(catalogue, "word/use").html).not.toContain("t-undefined");
  const plain = names.filter((page) => !/class="t-/.test(pageView(catalogue, pageAddress(page)).html));
  const kinds = new Set(plain.map(({ kind }) => kind));
  // Units have no example, nor have sections of settings, nor what only its own board's text can show.
  expect([...kinds].filter((kind) => !["unit", "section", "word"].includes(kind))).toEqual([]);
});

test("one name of two kinds has both pages, with a kind before it one of them", () => {
  expect(pageView(catalogue, "recorder").html.match(/<h2>/g)!.length).toBe(2);
  expect(pageView(catalogue, "mode/recorder").html).toContain("<em>mode</em>");
  expect(pageView(catalogue, "layer").html).toContain("<h2>");
});

test.each([
  ["wran-at", "setting/pack.warn-at"],
  ["rule/mod-clash", "rule/mode-clash"],
  ["low batery warning", "setting/pack.warn-at"],
  ["turtel", "mode/turtle"],
])("nothing is called “%s”: %s is offered", (asked, offered) => {
  const { html } = pageView(catalogue, asked);
  expect(html).toContain("Nothing is called “");
  expect(linksIn(html)).toContain(offered);
});

test("plain words that mean one thing lead straight to it", () => {
  expect(pageView(catalogue, "kill switch").title).toBe("arm");
  expect(pageView(catalogue, "Warn At").title).toBe("pack.warn-at");
  expect(pageView(makeCatalogue([], [{ word: "squealer", name: "finder" }]), "squealer").title).toBe("finder");
});

test("without anything near there is a place to begin; what was asked for stays text", () => {
  const { html } = pageView(catalogue, '<img src=x onerror="alert(1)">');
  expect(html).not.toMatch(/<img/);
  expect(html).toContain("&lt;img");
  expect(linksIn(pageView(catalogue, "zzzzzzz").html)).toEqual(["word/language"]);
});

test("a pilot's own setting has its page, whatever signs it bears", () => {
  const own = makeCatalogue([{ ...glow, what: 'Waits <b>long</b> & "glows" by `arm`.' }]);
  const { html } = pageView(own, "glow-delay");
  expect(html).toContain("Waits &lt;b&gt;long&lt;/b&gt; &amp; &quot;glows&quot; by ");
  expect(linksIn(html)).toContain("mode/arm");
});
