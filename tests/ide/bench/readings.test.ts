/** What is jotted down on the bench, as the script has it. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { readBenchText } from "../../../shared/ide/edits/bench-text.ts";

const catalogue = makeCatalogue();
const lines = readFileSync(inProject("tests/ide/bench/readings.txt"), "utf8")
  .split("\n")
  .filter((line) => line.includes(" | ") && !line.startsWith("What is"));

function read(name: string, typed: string) {
  const [setting = "", field = null] = name.split(" ");
  const [section, own] = setting.includes(".") ? setting.split(".") : ["bench", setting];
  return readBenchText(catalogue.setting(section!, own!)!, field, typed);
}

test.each(lines)("%s", (line) => {
  const [name = "", typed = "", expected = ""] = line.split(" | ");
  const found = read(name, typed);
  if (expected.startsWith("? "))
    expect(found).toEqual({ kind: "unclear", message: expect.stringContaining(expected.slice(2)) });
  else expect(found).toMatchObject({ kind: "value", text: expected });
});

const NAMES = ["roll", "centres roll", "pack-volts-read", "charge-counted", "motor-heat-read", "weighed-on"];

test("whatever is typed, nothing is thrown, and what is read is read as the same again", () => {
  const part = fc.constantFrom(
    "988",
    "2012",
    "16,8",
    "1.500",
    " ",
    "-",
    "to",
    "us",
    "V",
    ",",
    ".",
    "'",
    "°C",
    "mAh",
    "²",
  );
  const typed = fc.oneof(
    fc.string({ unit: "grapheme" }),
    fc.array(part, { maxLength: 8 }).map((parts) => parts.join("")),
  );
  fc.assert(
    fc.property(fc.constantFrom(...NAMES), typed, (name, text) => {
      const found = read(name, text);
      if (found.kind === "unclear") {
        expect(found.message).toMatch(/\.$|[”:]/);
        return;
      }
      expect(found.text).not.toMatch(/[\p{Cc}\p{Cf}#]/u);
      expect(read(name, found.text)).toMatchObject({ kind: "value", text: found.text });
    }),
    { seed: 13, numRuns: 600 },
  );
});

test.each(["988 us\nto 2012 us", "988\u0000 2012", "988 us to 2012 us # allow syntax: no", "9".repeat(500)])(
  "%j is no reading",
  (typed) => {
    expect(read("roll", typed).kind).toBe("unclear");
  },
);

test("a mark of direction that came along with a figure counts for nothing", () => {
  expect(read("roll", "\u202E988\u200F 2012\u202C")).toMatchObject({ text: "988 us to 2012 us" });
});
