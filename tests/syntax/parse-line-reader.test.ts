import { expect, test } from "vitest";
import { lineReader, parse } from "../../shared/syntax/parse.ts";

const texts = [
  'craft "Jug"\npack\n  | cells 4\n  cells 4\n',
  'craft "Jug"\nverbatim "kiln"\n  | cells 4\n  cells 4\n',
  'craft "Jug"\n\nverbatim "kiln"\n  | cells 4\n',
  'craft "Jug"\npack\n  | cells 4\n  cells 4\nosd\n  grid pal\n',
];

test("a reader that remembers reads as one that does not, wherever a line has moved and whatever it stood in", () => {
  const reader = lineReader();
  for (const i of [0, 1, 0, 2, 1, 3, 0, 2, 3, 1]) expect(parse(texts[i]!, reader)).toEqual(parse(texts[i]!));
});

test("a line that stayed where it was is read once", () => {
  const reader = lineReader();
  const before = parse(texts[0]!, reader);
  const after = parse(texts[0]!.replace("cells 4\n", "cells 6\n"), reader);
  expect(after.lines[1]).toBe(before.lines[1]);
  expect(after.lines[2]).not.toBe(before.lines[2]);
});
