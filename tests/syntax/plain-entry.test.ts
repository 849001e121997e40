import { expect, test } from "vitest";
import { parseLine } from "../../shared/syntax/parse-line.ts";
import { randomOf } from "../fire/random.ts";

const SEED = 16;
const CASES = 5000;
const PARTS = [..."  \t\taz09-_A.,:=+|(/\\~é", " ", "drop", "drop all", "cells", "use", "TL", "4.2 V/cell", '"', "#"];

test("a line without a comment is read as one with a comment is: the one in a single step, the other part by part", () => {
  let entries = 0;
  for (let i = 0; i < CASES; i++) {
    const random = randomOf(SEED, i);
    const text = `${random.oneOf(["", " ", "  ", "\t"])}${random.some(random.between(1, 6), () => random.oneOf(PARTS)).join("")}`;
    // A comment in it, or a text that is never closed, would be another line with one more behind it.
    if (text.includes("#") || text.includes('"')) continue;
    const alone = parseLine(text, "plain");
    const withComment = parseLine(`${text} #`, "plain");
    expect(alone.text).toBe(text);
    expect(alone.isPlain, text).toBe(withComment.isPlain);
    expect(alone.comment).toBe(null);
    if (alone.node.kind === "blank") continue;
    if (alone.node.kind === "entry") entries++;
    expect(alone.node, `seed ${SEED}, case ${i}: ${JSON.stringify(text)}`).toEqual(withComment.node);
    expect(alone.issues, `seed ${SEED}, case ${i}: ${JSON.stringify(text)}`).toEqual(withComment.issues);
  }
  expect(entries).toBeGreaterThan(CASES / 20);
});
