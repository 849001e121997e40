/** Every snippet, left as it comes, is understood where it belongs. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";

interface Snippet {
  readonly prefix: string;
  readonly body: readonly string[];
}

const all: Readonly<Record<string, Snippet>> = JSON.parse(readFileSync("snippets/fettle.json", "utf8"));
const core = makeCore(makeCatalogue());

/** Where a snippet that is no whole file belongs: the text around it. */
const around: Readonly<Record<string, (body: string) => string>> = {
  craft: (body) => body,
  layer: (body) => body,
  handset: (body) => body,
  use: inLayer,
  pack: inLayer,
  modes: inLayer,
  osd: inLayer,
  "pack-named": inLayer,
  when: inSection("modes"),
  "when-in": inSection("modes"),
  at: inSection("osd"),
  switch: inSection("controls"),
  "switch-three": inSection("controls"),
  button: inSection("controls"),
  selector: inSection("controls"),
  dial: inSection("controls"),
  notch: inSection("filters"),
  drop: inSection("filters"),
  allow: (body) => inSection("modes")(`${body}\n  level when always`),
};

function inLayer(body: string): string {
  return `layer "Test"\n\n${body}`;
}

function inSection(section: string): (body: string) => string {
  return (body) => inLayer(`${section}\n  ${body}`);
}

/** What stands in the text when every stop is left as it is offered. */
function asOffered(body: readonly string[]): string {
  const text = body.join("\n");
  return text
    .replaceAll(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, "$1")
    .replaceAll(/\$\{\d+:([^}]*)\}/g, "$1")
    .replaceAll(/\$\d+/g, "");
}

test.each(Object.entries(all))("%s is understood", (_, { prefix, body }) => {
  const text = around[prefix]!(asOffered(body));
  expect(text).not.toMatch(/\$|\{/);
  const script = core.at(memoryFiles({ "/test.fettle": text })).script("/test.fettle")!;
  expect(script.issues.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  expect(script.tree.lines.length).toBe(text.split("\n").length);
});

test("every word offered in a list is understood", () => {
  const lists = Object.values(all).flatMap(({ prefix, body }) => {
    const text = body.join("\n");
    return [...text.matchAll(/\$\{\d+\|([^|]*)\|\}/g)].flatMap(([stop, words]) =>
      words!.split(",").map((word) => ({ prefix, text: asOffered([text.replace(stop, word)]) })),
    );
  });
  expect(lists.length).toBeGreaterThan(5);
  const issues = lists.flatMap(({ prefix, text }) => {
    const script = core.at(memoryFiles({ "/test.fettle": around[prefix]!(text) })).script("/test.fettle")!;
    return script.issues.map(({ message }) => message);
  });
  expect(issues).toEqual([]);
});
