import { expect, test } from "vitest";
import { scriptAnswer } from "../../shared/model/script-limits.ts";

/** Why a text is no script; null where it may be one. */
function why(text: string): string | null {
  const answer = scriptAnswer({ kind: "text", text, validUtf8: true });
  return answer.kind === "unreadable" ? answer.why : null;
}

const MOST = 20_000;
const MOST_LINES = 12_000;

test.each(["\n", "\r\n", "\r"])("lines that end with %j are counted", (end) => {
  expect(why(`ab${end}`.repeat(MOST_LINES - 1))).toBe(null);
  expect(why(`ab${end}`.repeat(MOST_LINES))).toBe(
    `it has ${MOST_LINES + 1} lines, and a script is read up to ${MOST_LINES}: is it a script at all?`,
  );
});

test.each(["\n", "\r\n", "\r"])("a line that ends with %j is measured", (end) => {
  const around = (line: string) => `craft "Jug"${end}${line}${end}pack${end}`;
  expect(why(around("x".repeat(MOST)))).toBe(null);
  expect(why(around("x".repeat(MOST + 1)))).toBe(
    `line 2 has ${MOST + 1} characters, and a line is read up to ${MOST}: is it a script at all?`,
  );
});

test("the last line counts as any other", () => {
  expect(why("x".repeat(MOST + 1))).toMatch(/^line 1 has/);
  expect(why(`a\n${"x".repeat(MOST + 1)}`)).toMatch(/^line 2 has/);
});

test("a text is read up to a size", () => {
  const line = `${"x".repeat(1023)}\n`;
  expect(why(line.repeat(1024))).toBe(null);
  expect(why(`${line.repeat(1024)}x`)).toMatch(/^it is 1.0 MB/);
});

test("what is no text stays what it is", () => {
  expect(scriptAnswer({ kind: "missing" })).toEqual({ kind: "missing" });
});
