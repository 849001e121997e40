/** Dialects without a finding, and dialects with one fault each: the codes stand behind `<<<` on their lines. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";

const core = makeCore(makeCatalogue());

function casesIn(name: string): { title: string; text: string; expected: string[] }[] {
  return readFileSync(new URL(name, import.meta.url), "utf8")
    .split(/^=== /m)
    .slice(1)
    .map((part) => {
      const [title = "", ...lines] = part.trimEnd().split("\n");
      const expected = lines.flatMap((line, i) =>
        (line.split(" <<< ")[1]?.split(" ") ?? []).map((code) => `${i + 1}: ${code}`),
      );
      return { title, text: `dialect "Kiln"\n${lines.map((line) => line.split(" <<< ")[0]).join("\n")}\n`, expected };
    });
}

function told(text: string): { codes: string[]; messages: string } {
  const found = findingsOf(core.at(memoryFiles({ "/kiln.fettle": text })), "/kiln.fettle");
  return {
    codes: found.map(({ code, range }) => `${range.start.line}: ${code}`),
    messages: found.map(({ code, message, range }) => `${range.start.line} ${code}: ${message}`).join("\n"),
  };
}

test.each(casesIn("sound.txt"))("nothing is found: $title", ({ text }) => {
  const { codes, messages } = told(text);
  expect(codes, messages).toEqual([]);
});

test.each(casesIn("faulty.txt"))("$title", ({ text, expected }) => {
  const { codes, messages } = told(text);
  expect(codes, messages).toEqual(expected);
});

test("every message says in whole sentences what is wrong", () => {
  for (const { text, title } of casesIn("faulty.txt"))
    for (const message of told(text).messages.split("\n"))
      expect(message.replace(/^\d+ [a-z-]+: /, ""), title).toMatch(
        /^([A-Z“"]|[a-z][a-z0-9-]* (is|takes|has|names|lists|also) ).*[.?]$/u,
      );
});

test("a dialect is used by nobody, and says what to do instead", () => {
  const files = {
    "/jug.fettle": 'craft "Jug"\nuse "kiln.fettle"\n',
    "/wheel.fettle": 'handset "Wheel"\nuse "kiln.fettle"\n',
    "/kiln.fettle": 'dialect "Kiln"\ntext\n  comment  ";"\n',
  };
  const workspace = core.at(memoryFiles(files));
  for (const file of ["/jug.fettle", "/wheel.fettle"]) {
    const found = findingsOf(workspace, file).filter(({ code }) => code === "use-kind");
    expect(found.map(({ message }) => message)).toEqual([expect.stringMatching(/is a dialect.*“board”/)]);
  }
  expect(findingsOf(workspace, "/kiln.fettle")).toEqual([]);
});

test("an allow holds in the line, in the section and in the file of a dialect, and one that silences nothing is told", () => {
  const words = '  clay  words 0 lipo, 1 lipo\npack\n  "clay {k:clay}"  chemistry {k}\n';
  const allow = "# allow code-lossy: one clay\n";
  expect(told(`dialect "K"\ncodes\n  ${allow}${words}`).codes).toEqual([]);
  expect(told(`dialect "K"\n${allow}codes\n${words}`).codes).toEqual([]);
  expect(told(`${allow}dialect "K"\ncodes\n${words}`).codes).toEqual([]);
  expect(told(`dialect "K"\n# allow line-beaten: no\ncodes\n${words}`).codes).toEqual([
    "1: allow-unused",
    "3: code-lossy",
  ]);
});

test("a name that was meant is offered where the word stands, and no other text of the line changes", () => {
  const text = 'dialect "K"\ncodes\n  axis  words R rol, P pitch\nrates\n  "spin {a:axis} {s}"  {a} slop {s} deg/s\n';
  const found = findingsOf(core.at(memoryFiles({ "/kiln.fettle": text })), "/kiln.fettle");
  const lines = text.split("\n");
  const changed = found.flatMap(({ fixes }) =>
    fixes.slice(0, 1).flatMap(({ edits }) =>
      edits.map(({ range, text: put }) => {
        const line = lines[range.start.line]!;
        return line.slice(0, range.start.character) + put + line.slice(range.end.character);
      }),
    ),
  );
  expect(changed).toEqual(["  axis  words R roll, P pitch", '  "spin {a:axis} {s}"  {a} slope {s} deg/s']);
});
