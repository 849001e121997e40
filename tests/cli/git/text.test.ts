/** `fettle git text`: whatever a file holds, git gets something to show. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { diffText } from "../../../shared/ide/changes/diff-text.ts";
import { formatted } from "../../../shared/ide/format/format.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { expectOfPairs } from "../../ide/compare/made-pairs.ts";
import { held } from "../held.ts";
import { temporaryFolder } from "../program.ts";

const folder = temporaryFolder();

/** What is written for some bytes, one character each. */
async function shown(bytes: Uint8Array): Promise<string> {
  writeFileSync(join(folder, "a.fettle"), bytes);
  const io = held(folder, "");
  expect([await run(["git", "text", "a.fettle"], io), io.errorText()]).toEqual([0, ""]);
  const text = io.outText();
  return [...text].some((each) => each.charCodeAt(0) > 255) ? Buffer.from(text).toString("latin1") : text;
}

test("laid out, with the name of the craft at each section", async () => {
  const text = 'craft "Jug"\nuse "a.fettle"\npack   # mine\n cells 6\n capacity 1100mAh\nosd\n';
  expect(await shown(Buffer.from(text))).toBe(
    'craft "Jug"\n\nuse "a.fettle"\n\npack  # of Jug: mine\n  cells     6\n  capacity  1100 mAh\n\nosd  # of Jug\n',
  );
  expect(await shown(Buffer.from("pack\n cells 6\n"))).toBe("pack\n  cells  6\n");
  expect(await shown(Buffer.from(""))).toBe("");
});

test("what is no text of a script is shown byte for byte", async () => {
  for (const text of ["\u00ff\u00fe craft", "a\u0099b\n", 'craft "Jug" edition 9\r\n  pack\n'])
    expect(await shown(Buffer.from(text, "latin1"))).toBe(text);
  const long = `craft "Jug"\n${"# more\n".repeat(13_000)}`;
  expect(await shown(Buffer.from(long))).toBe(long);
});

test.each([
  ["a script", 'craft "Jug"\npack\n  # a\u202eb\u001b[2J\n  cells  6\n'],
  ["one of CR alone", 'craft "Jug"\rpack\r  cells  6\r'],
  ["a newer edition", 'craft "Jug" edition 9\n  a\u202eb\u001b[2J\rc\0\n'],
  ["a script that is too long", `${"# more\n".repeat(13_000)}# a\u202eb\u001b[2J\n`],
])("nothing that a terminal obeys is left of %s", async (_, text) => {
  const told = Buffer.from(await shown(Buffer.from(text)), "latin1").toString("utf8");
  expect(told).toMatch(/‹U\+(?:202E right-to-left override›b‹U\+001B escape›\[2J|000D carriage return›\n)/);
  expect(told).not.toMatch(/[\0\r\u001b\u202e]/);
});

test("nor of bytes that are no text, all others of which stay", async () => {
  const bytes = Buffer.concat([
    Buffer.from([0xff]),
    Buffer.from("é a\u202eb\u001b[2J\rc\r\n"),
    Buffer.from([0xe2, 0x80]),
  ]);
  const named = "é a‹U+202E right-to-left override›b‹U+001B escape›[2J‹U+000D carriage return›\nc\r\n";
  expect(Buffer.from(await shown(bytes), "latin1")).toEqual(
    Buffer.concat([Buffer.from([0xff]), Buffer.from(named), Buffer.from([0xe2, 0x80])]),
  );
});

test("a file that is not there is told", async () => {
  const io = held(folder, "");
  expect([await run(["git", "text", "gone.fettle"], io), io.errorText()]).toEqual([
    2,
    "fettle: gone.fettle: there is no such file\n",
  ]);
});

test("any bytes give something", async () => {
  await fc.assert(
    fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), async (bytes) => {
      const text = await shown(bytes);
      expect(text.trim() === "").toBe(Buffer.from(bytes).toString("latin1").trim() === "");
    }),
    { seed: 13, numRuns: 200 },
  );
});

test("the names at the sections change no meaning and no line, over craft made at random", () => {
  const catalogue = makeCatalogue();
  const core = makeCore(catalogue);
  const meaning = (text: string) => {
    const { entries, drops, uses, kept } = core.at(memoryFiles({ "/a": text })).script("/a")!;
    return JSON.stringify([entries.map(({ section, name, text: said }) => [section, name, said]), drops, uses, kept]);
  };
  let tried = 0;
  expectOfPairs(60, ({ texts }) => {
    for (const text of Object.values(texts)) {
      tried++;
      const laid = formatted(parse(text), catalogue);
      const told = diffText(laid);
      if (meaning(told) !== meaning(laid)) return "meaning is another";
      if (told.split("\n").length !== laid.split("\n").length) return "lines are more or fewer";
    }
    return null;
  });
  expect(tried).toBeGreaterThan(200);
});
