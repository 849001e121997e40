/** What git prints of its store, also where it breaks off, or where an object is gone meanwhile. */
import { expect, test } from "vitest";
import { makeBlobs } from "../../../server/src/node/git-blobs.ts";

const [ONE, TWO] = ["1".repeat(40), "2".repeat(40)];
const MISSING = { kind: "unreadable", why: "git does not have its text here" };

/** What is known of two objects of three bytes each, where git prints this of them. */
function read(printed: string) {
  const blobs = makeBlobs();
  const steps = blobs.read([ONE, TWO]);
  for (let next = steps.next(); !next.done; ) {
    const isCheck = next.value?.args[1]?.startsWith("--batch-check");
    const out = Buffer.from(isCheck ? `${ONE} blob 3\n${TWO} blob 3\n` : printed);
    next = steps.next(next.value && { status: 0, out, error: "", isTooMuch: false });
  }
  return [blobs.get(ONE), blobs.get(TWO)];
}

const text = (said: string) => ({ kind: "text", text: said, validUtf8: true });

test("texts one after another", () => {
  expect(read(`${ONE} blob 3\na\nb\n${TWO} blob 3\ncde\n`)).toEqual([text("a\nb"), text("cde")]);
});

test("an object that went after it was asked for its size", () => {
  expect(read(`${ONE} missing\n${TWO} blob 3\ncde\n`)).toEqual([MISSING, text("cde")]);
});

test.each([
  ["nothing", ""],
  ["half of a head", ONE.slice(0, 20)],
  ["a head without its line end", `${ONE} blob 3`],
  ["half of a text", `${ONE} blob 3\na`],
])("what breaks off after %s is missing", (_, printed) => {
  expect(read(printed)).toEqual([MISSING, MISSING]);
});
