/** What looks private in a text, and what does not: `tests/fixtures/private` holds both. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { privateParts, standIn, withoutParts } from "../../shared/text/private-text.ts";
import { scriptsIn } from "../rules/fixtures.ts";

const lines = (name: string) =>
  readFileSync(inProject("tests/fixtures/private", name), "utf8")
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("# "));

const examples = ["craft", "layers", "handsets"].flatMap((folder) =>
  readdirSync(inProject("examples", folder)).map((name) => readFileSync(inProject("examples", folder, name), "utf8")),
);

const shared = (text: string) => withoutParts(text, privateParts(text), ({ what }) => standIn(what));

test("what leads to a person or a place, and what is secret, is found where it stands", () => {
  const cases = lines("taken.txt");
  const texts = cases.filter((line) => !line.startsWith("= "));
  expect(texts.map((text) => `${text}\n= ${shared(text)}`)).toEqual(
    texts.map((text, at) => `${text}\n${cases[2 * at + 1]}`),
  );
});

test("what was shared once has nothing more to take", () => {
  const texts = lines("taken.txt").map((line) => shared(line.replace(/^= /, "")));
  expect(texts.filter((text) => shared(text) !== text)).toEqual([]);
});

test("figures, dates, frequencies, versions and plain words are left as they are", () => {
  const texts = lines("left.txt");
  expect(texts.filter((text) => shared(text) !== text).map((text) => `${text} → ${shared(text)}`)).toEqual([]);
});

test("no note of a craft that was written for its own sake looks private", () => {
  const folders = ["sane", "shelf", "sound", "faulty", "usual", "shed"];
  const scripts = [...folders.flatMap((folder) => Object.values(scriptsIn(folder))), ...examples];
  const notes = scripts.flatMap((text) => text.split("\n").flatMap((line) => /#.*/.exec(line)?.[0] ?? []));
  expect(notes.length).toBeGreaterThan(700);
  expect(notes.filter((text) => shared(text) !== text).map((text) => `${text} → ${shared(text)}`)).toEqual([]);
});
