/** What the project shows and writes is in canonical layout: the demo, the pages, and scripts that it makes. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { PRACTICE_SCRIPT } from "../../client/src/practice-script.ts";
import { formatted } from "../../shared/ide/format/format.ts";
import { findFiles } from "../../shared/ide/new-craft/new-craft.ts";
import { pageText } from "../../shared/ide/reference/dialect/example.ts";
import { guide } from "../../shared/ide/reference/dialect/guide.ts";
import { dialectPages } from "../../shared/ide/reference/dialect/pages.ts";
import { exampleOfElement, exampleOfMode, exampleOfSetting } from "../../shared/ide/reference/example-line.ts";
import { languagePage } from "../../shared/ide/reference/language-page.ts";
import { parse } from "../../shared/syntax/parse.ts";
import { diceOf } from "../ide/compare/made-lines.ts";
import { catalogue } from "../ide/format/meaning.ts";

import { answersBy, made, workspaceOf } from "../ide/new-craft/new-craft-made.ts";
import { made as madeHandset, WHEEL } from "../ide/new-handset/handset-made.ts";
import { projectFiles } from "../tidy/sources.ts";

const HANDSETS = [
  {},
  {
    controls: [
      { name: "TL", lies: "left shoulder" },
      { name: "KN", kind: "dial", channel: 10, lies: "middle" },
    ],
  },
  { controls: [{ name: "SX", kind: "selector" }, { name: "B", kind: "button" }, {}] },
  {
    order: "throttle roll pitch yaw",
    travel: "990 us to 2010 us",
    controls: [{ positions: "back 988 us, front 2012" }],
  },
].map((answers) => ({ name: "Kiln", band: "868.3 MHz", ...answers }));

const laid = (text: string) => formatted(parse(text), catalogue);

test.each(projectFiles().filter((path) => /^examples\/.*\.fettle$/.test(path)))("%s", (path) => {
  const text = readFileSync(path, "utf8");
  expect(laid(text)).toBe(text);
});

test("craft made from answers, and handsets", () => {
  const files = { "handsets/wheel.fettle": WHEEL };
  const found = findFiles(workspaceOf(files), "/shed");
  for (let seed = 0; seed < 60; seed++) {
    const dice = diceOf(seed);
    const { text } = made(
      files,
      answersBy(found, () => dice.below(60)),
    );
    expect(laid(text)).toBe(text);
  }
  for (const answers of HANDSETS) {
    const { text, problem } = madeHandset("controls" in answers ? answers : { ...answers, controls: [{}] });
    expect(problem).toBeNull();
    expect(laid(text)).toBe(text);
  }
});

test("the practice craft", () => {
  expect(laid(PRACTICE_SCRIPT)).toBe(PRACTICE_SCRIPT);
});

const PAGES: readonly (readonly [string, string])[] = [
  ["README.md", readFileSync("README.md", "utf8")],
  ["client/page.md", readFileSync("client/page.md", "utf8")],
  ["client/walkthrough/craft.md", readFileSync("client/walkthrough/craft.md", "utf8")],
  ["the page of the language", languagePage()],
  // The page that leads through a first dialect shows it as it grows, line by line.
  ...dialectPages.filter((page) => page !== guide).map((page) => [`the page “${page.title}”`, pageText(page)] as const),
];

test.each(PAGES)("scripts in %s", (_, page) => {
  const blocks = [...page.matchAll(/^```\w*\n(.*?)^```/gms)].map((match) => match[1]!);
  const scripts = blocks.filter((block) => /^(#.*\n)*(craft|layer|handset|dialect) "/.test(block));
  for (const text of scripts) expect(laid(text)).toBe(text);
});

test("examples on the pages of settings, modes and elements", () => {
  const examples = [
    ...catalogue.sections.flatMap((section) => section.settings.map((each) => exampleOfSetting(section, each))),
    ...catalogue.modes.map(exampleOfMode),
    ...catalogue.elements.map(exampleOfElement),
  ];
  expect(examples.length).toBeGreaterThan(400);
  for (const example of examples) {
    const text = `${example.startsWith("transmitter") ? 'handset "A"' : 'craft "A"'}\n\n${example}\n`;
    expect(laid(text)).toBe(text);
  }
});
