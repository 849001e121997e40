import { expect, test } from "vitest";
import { joinWithAnd, joinWithOr } from "../../shared/text/list.ts";

const LISTS = [[], ["level"], ["level", "arm"], ["level", "arm", "lamp"], ["“a, b”", "c and d", "", "e"]];

test.each(LISTS.map((items) => [items]))(
  "a list reads as the engine's own words for British English do: %j",
  (items) => {
    const engine = (type: Intl.ListFormatType) => new Intl.ListFormat("en-GB", { style: "long", type }).format(items);
    expect(joinWithAnd(items)).toBe(engine("conjunction"));
    expect(joinWithOr(items)).toBe(engine("disjunction"));
  },
);
