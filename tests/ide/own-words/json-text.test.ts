/** The reader of JSON with places, held to the language's own reader of JSON. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { readJson } from "../../../shared/ide/own-words/json-text.ts";

test("any JSON value is read as JSON.parse reads it, however it is spaced", () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.constantFrom(undefined, 2, "\t"), (value, space) => {
      const text = JSON.stringify(value, null, space);
      expect(readJson(text)).toMatchObject({ kind: "value", value: JSON.parse(text) });
    }),
  );
});

test("a text is rejected exactly if JSON.parse rejects it", () => {
  const pieces = fc.constantFrom(
    ...'{}[],:"\\/u0 1-.eE+truefalsn\n\t\u0001é'.split(""),
    '"a"',
    "null",
    "12",
    "\\u00e9",
  );
  fc.assert(
    fc.property(fc.array(pieces, { maxLength: 12 }), (parts) => {
      const text = parts.join("");
      expect(readJson(text).kind, text).toBe(reads(text) ? "value" : "fault");
    }),
    { numRuns: 3000 },
  );
});

function reads(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

test("every value has its place, and a missing one has the place of its nearest ancestor", () => {
  const json = readJson('{\r\n  "a": [1, "two"],\r\n  "b": { "c": null }\r\n}');
  if (json.kind !== "value") throw new Error(json.message);
  expect(json.rangeOf(["a", 1])).toEqual(range(1, 11, 1, 16));
  expect(json.nameRangeOf(["b", "c"])).toEqual(range(2, 9, 2, 12));
  expect(json.rangeOf(["b", "c"])).toEqual(range(2, 14, 2, 18));
  expect(json.rangeOf(["b", "d", 3])).toEqual(range(2, 7, 2, 20));
  expect(json.rangeOf([])).toEqual(range(0, 0, 3, 1));
});

test.each([
  ['{ "a": 1, }', "The last member has no comma after it", 8],
  ["[1, 2,]", "The last item has no comma after it", 5],
  ['{ "a" 1 }', "A colon should follow", 6],
  ["{ a: 1 }", "The name of a member should stand here", 2],
  ["[1 2]", "A comma and another item, or “]”, should stand here", 3],
  ['["ab', "This string has no end", 1],
  ["[ // no\n]", "JSON has no comments", 2],
  ["[yes]", "“yes” is no value", 1],
  ["", "A value should stand here", 0],
  ["{} {}", "Nothing may follow", 3],
  ['["\\x"]', "After \\ stands one of", 2],
  ['["a\u0001\\x"]', "A string holds no control character", 3],
  ["[{}, yes]", "“yes” is no value", 5],
  ['{ "a": [] "b": 1 }', "A comma and another member, or “}”, should stand here", 10],
  ["[1.]", "This number breaks off", 1],
])("%s has its own message, at its place", (text, message, character) => {
  const json = readJson(text);
  expect(json).toMatchObject({ kind: "fault", message: expect.stringContaining(message) });
  expect(json.kind === "fault" && json.range.start).toEqual({ line: 0, character });
});

test("the whole invalid token is marked, within its line", () => {
  const found = (text: string) => {
    const json = readJson(text);
    return json.kind === "fault" ? json.range : null;
  };
  expect(found("[yes]")).toEqual(range(0, 1, 0, 4));
  expect(found('{\n  "a\n}')).toEqual(range(1, 2, 1, 4));
  expect(found('\ufeff{ "a" }')).toEqual(range(0, 7, 0, 8));
});

test("a repeated name is reported, and its last member counts", () => {
  const json = readJson('{"a": {"b": 1, "b": 2}}');
  expect(json).toMatchObject({ value: { a: { b: 2 } }, repeated: [["a", "b"]] });
});

test("too deep nesting is rejected, and a name such as __proto__ is only a name", () => {
  expect(readJson("[".repeat(50_000))).toMatchObject({ kind: "fault", message: expect.stringContaining("nested") });
  const json = readJson('{"__proto__": {"a": 1}}');
  expect(json.kind === "value" && Object.keys(json.value as object)).toEqual(["__proto__"]);
});

function range(line: number, character: number, endLine: number, endCharacter: number) {
  return { start: { line, character }, end: { line: endLine, character: endCharacter } };
}
