/** Craft written onto boards' texts: what changes, what does not, and what is told. Each case also holds to the laws. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import type { Written } from "../../../shared/dialect/write/written.ts";
import { HANDSET } from "../reading/cases.ts";
import { boardCase } from "./board-case.ts";
import { parseCases } from "./cases/parse.ts";

const folder = "tests/dialect/write/cases";
const files = readdirSync(folder).filter((name) => name.endsWith(".txt"));

for (const file of files) {
  describe(file, () => {
    test.each(parseCases(readFileSync(`${folder}/${file}`, "utf8")))("$title", (each) => {
      const { dialect, craft, workspace } = boardCase(each.dialect, each.craft, HANDSET);
      expect(dialect.issues.filter(({ code }) => code === "syntax" || code === "unknown-name")).toEqual([]);
      expect(craft.scripts.flatMap(({ issues }) => issues)).toEqual([]);
      const written = writeBoard(dialect, craft, workspace, each.base);
      expect(written.text).toBe(each.text);
      if (each.changes !== null) expect(written.changes).toBe(each.changes);
      const told = toldBy(written);
      expect(told.map((line, i) => (isTold(line, each.report[i]) ? each.report[i] : line))).toEqual(each.report);
      // Written again onto what was written nothing changes.
      expect(writeBoard(dialect, craft, workspace, written.text)).toMatchObject({ text: written.text, changes: "" });
      // What is read of a text changes nothing of it.
      for (const text of [each.base ?? "", written.text]) {
        const { script } = readBoard(dialect, text, { workspace, handset: null, craft });
        const own = boardCase(each.dialect, script.replace(/^(craft .*)$/m, `$1\n\nuse "handset.fettle"`), HANDSET);
        const back = writeBoard(own.dialect, own.craft, own.workspace, text);
        if (back.changes !== "" || written.text === text) expect(back.text).toBe(text);
        expect(back.changes).toBe("");
      }
    });
  });
}

test("there are enough of them", () => {
  const count = files.reduce((sum, file) => sum + parseCases(readFileSync(`${folder}/${file}`, "utf8")).length, 0);
  expect(count).toBeGreaterThanOrEqual(100);
});

/** Whether a line of the report is the expected one: what it is about, and part of the reason. */
function isTold(line: string, expected: string | undefined): boolean {
  const [about = "", ...reason] = (expected ?? "?").split(": ");
  return line.startsWith(about) && line.includes(reason.join(": "));
}

/** The report in lines, curves apart. */
function toldBy({ rounded, filled, unsaid, onlyBase, byHand, cannot }: Written): string[] {
  return [
    ...rounded.map(({ what, said, written }) => `rounded ${what}: ${said} > ${written}`),
    ...filled.map(({ what, value }) => `filled ${what}: ${value}`),
    ...unsaid.map((what) => `unsaid ${what}`),
    ...onlyBase.map((what) => `onlyBase ${what}`),
    ...byHand.map((line) => `byHand ${line}`),
    ...cannot.map(({ what, why }) => `cannot ${what}: ${why}`),
  ];
}
