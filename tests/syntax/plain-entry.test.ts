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
    const { plain, ...node } = { plain: undefined, ...alone.node };
    if (node.kind === "entry") entries++;
    expect(node, `seed ${SEED}, case ${i}: ${JSON.stringify(text)}`).toEqual(withComment.node);
    if (node.kind !== "entry") continue;
    const isUsual = alone.isPlain && /^[a-z]/.test(node.head.text);
    const value = text.slice(node.value.start);
    const number = /^(-?\d+(?:\.\d+)?)(?:[ \t]*(%|[A-Za-z]+(?:\/[A-Za-z]+)?))?$/.exec(value);
    const end = number
      ? { digits: number[1], unitAt: number[2] ? text.length - number[2].length : -1 }
      : /^[a-z][a-z0-9-]*$/.test(value)
        ? { digits: null, unitAt: -1 }
        : undefined;
    expect(plain, `seed ${SEED}, case ${i}: ${JSON.stringify(text)}`).toEqual(isUsual ? end : undefined);
    expect(alone.issues, `seed ${SEED}, case ${i}: ${JSON.stringify(text)}`).toEqual(withComment.issues);
  }
  expect(entries).toBeGreaterThan(CASES / 20);
});
