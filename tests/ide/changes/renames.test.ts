import { expect, test } from "vitest";
import { renamesBetween } from "../../../shared/ide/changes/renames.ts";

const lines = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => `line ${from + i}\n`).join("");
const found = (went: Record<string, string>, came: Record<string, string>) => {
  const texts = (of: Record<string, string>) => Object.entries(of).map(([path, text]) => ({ path, text }));
  return Object.fromEntries(renamesBetween(texts(went), texts(came)));
};

test("the same text under another name, and of several the one with the same name", () => {
  expect(found({ "a/x": "one\n", "b/y": "one\n" }, { "c/y": "one\n" })).toEqual({ "c/y": "b/y" });
  expect(found({ x: "one\n" }, { y: "one\n", z: "one\n" })).toEqual({ y: "x" });
  expect(found({ x: "" }, { y: "" })).toEqual({ y: "x" });
});

test("a text that is half the same, and none that is less", () => {
  expect(found({ x: lines(100, 200) }, { y: lines(149, 249) })).toEqual({ y: "x" });
  expect(found({ x: lines(100, 200) }, { y: lines(152, 252) })).toEqual({});
  expect(found({ x: lines(100, 200) }, { y: lines(100, 140) })).toEqual({});
  expect(found({ x: lines(100, 200), w: lines(150, 250) }, { y: lines(148, 248) })).toEqual({ y: "w" });
});

test("a thousand that go to another folder take no longer than a moment, changed or not", () => {
  const went: Record<string, string> = {};
  const came: Record<string, string> = {};
  for (let i = 0; i < 1000; i++) {
    went[`a/${i}`] = `${lines(0, 100)}${i}\n`;
    came[`b/${i}`] = `${lines(0, 100)}${i}\n${i % 2 === 0 ? "more\n" : ""}`;
  }
  const start = performance.now();
  const names = found(went, came);
  expect(performance.now() - start).toBeLessThan(5000);
  expect(names).toEqual(Object.fromEntries(Object.keys(went).map((from) => [from.replace("a/", "b/"), from])));
});
