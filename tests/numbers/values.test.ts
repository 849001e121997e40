/** What a reader of numbers gets: the set value, else the default, else nothing. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { fieldNumberIn, numberIn, onceFor, wordIn } from "../../shared/numbers/values.ts";
import { craftOfFiles, craftWith } from "./read.ts";

test("a number comes in the unit that is asked for, and in no other family's", () => {
  const jug = craftWith("pack\n  capacity 1.3 Ah\n  cells 4");
  expect(numberIn(...jug, "pack", "capacity", "mAh")).toBe(1300);
  expect(numberIn(...jug, "pack", "capacity", "V")).toBeNull();
  expect(numberIn(...jug, "pack", "cells", "")).toBe(4);
  expect(numberIn(...jug, "pack", "cells", "V")).toBeNull();
});

test("a default stands in for what nobody said, never for a line with a fault", () => {
  expect(numberIn(...craftWith("motors\n  kv 1750 rpm/V"), "motors", "esc-pause", "us")).toBe(2);
  expect(numberIn(...craftWith("motors\n  esc-pause 2 V"), "motors", "esc-pause", "us")).toBeNull();
  expect(wordIn(...craftWith("rates\n  throttle-limit 80 %"), "rates", "throttle-limit-by")).toBe("stretched");
  expect(wordIn(...craftWith("rates\n  throttle-limit-by halving"), "rates", "throttle-limit-by")).toBeNull();
});

test("a field is looked for in the second set, in the first, and in the catalogue", () => {
  const rates = "rates\n  roll slope 100 deg/s end 600 deg/s\n\nrates-second\n  roll end 300 deg/s";
  const field = (text: string, name: string) =>
    fieldNumberIn(...craftWith(text), "rates-second", "roll", name, name === "bend" ? "" : "deg/s");
  expect(["slope", "end", "bend"].map((name) => field(rates, name))).toEqual([100, 300, 3]);
  // Earlier values are not used in place of a line with an error.
  expect(field(rates.replace("end 300 deg/s", "end 300 V"), "slope")).toBeNull();
});

test("a layer's line counts as the craft's own", () => {
  const craft = craftOfFiles(
    { "jug.fettle": 'craft "Jug"\n\nuse "base.fettle"\n', "base.fettle": 'layer "Base"\n\npack\n  shunt 500 mohm\n' },
    "jug.fettle",
  );
  expect(numberIn(craft, makeCatalogue(), "pack", "shunt", "ohm")).toBe(0.5);
});

test("a reader works once for a craft, and again for another craft or another catalogue", () => {
  let worked = 0;
  const count = onceFor(() => ++worked);
  const [craft, catalogue] = craftWith("pack\n  cells 4");
  expect([count(craft, catalogue), count(craft, catalogue)]).toEqual([1, 1]);
  expect(count(craft, makeCatalogue([], [{ word: "weight", name: "mass" }]))).toBe(2);
  expect(count(craftWith("pack\n  cells 4")[0], catalogue)).toBe(3);
});
