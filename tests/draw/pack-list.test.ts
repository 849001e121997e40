import { expect, test } from "vitest";
import { packLine, packListOf, packsFound, packsInWords } from "../../shared/draw/pack-list.ts";
import type { PackPicture } from "../../shared/protocol/numbers.ts";

const file = "file:///shed/jug.fettle";
const pack = (name: string, more: Partial<PackPicture> = {}): PackPicture => ({
  section: `pack/${name}`,
  chemistry: "lipo",
  cells: 6,
  bears: null,
  marks: [],
  capacityMah: 1100,
  usableMah: null,
  hoverS: null,
  fullS: null,
  at: null,
  worst: null,
  ...more,
});
const names = (packs: readonly PackPicture[]) => packs.map(({ section }) => section.slice("pack/".length));
const many = Array.from({ length: 300 }, (_, i) => pack(`p${i}`, { at: { file, line: i } }));

test("few packs are all drawn, in the script's order", () => {
  const few = [pack("a"), pack("b", { worst: "error" }), pack("c"), pack("d")];
  expect(names(packListOf(few, null).drawn)).toEqual(["a", "b", "c", "d"]);
  expect(packListOf(few, null).listed).toEqual([]);
});

test("of many the first two, the others listed; none twice, none lost", () => {
  const { drawn, listed } = packListOf(many, null);
  expect(names(drawn)).toEqual(["p0", "p1"]);
  expect(names(listed)).toEqual(names(many).slice(2));
});

test("the worst first, and before them the one at the cursor", () => {
  const some = many.with(40, pack("warns", { worst: "warning" })).with(90, pack("errs", { worst: "error" }));
  expect(names(packListOf(some, null).drawn)).toEqual(["errs", "warns"]);
  expect(names(packListOf(some, { file, line: 200 }).drawn)).toEqual(["p200", "errs"]);
  const atMark = some.with(
    7,
    pack("m", { marks: [{ name: "warn-at", cellV: 3.5, usual: null, at: { file, line: 900 } }] }),
  );
  expect(names(packListOf(atMark, { file, line: 900 }).drawn)).toEqual(["m", "errs"]);
  expect(names(packListOf(some, { file: "file:///shed/other.fettle", line: 200 }).drawn)).toEqual(["errs", "warns"]);
});

test("a hint is no reason to come first", () => {
  expect(names(packListOf(many.with(50, pack("h", { worst: "hint" })), null).drawn)).toEqual(["p0", "p1"]);
});

test("a search finds by name, cells, capacity and findings; every word counts", () => {
  const some = [pack("long", { capacityMah: 3000 }), pack("short"), pack("old", { cells: 4, worst: "error" })];
  expect(names(packsFound(some, ""))).toEqual(["long", "short", "old"]);
  expect(names(packsFound(some, "  LONG "))).toEqual(["long"]);
  expect(names(packsFound(some, "6 cells 1100"))).toEqual(["short"]);
  expect(names(packsFound(some, "error"))).toEqual(["old"]);
  expect(packsFound(some, "long 4")).toEqual([]);
  expect(packLine(some[2]!)).toBe("old, 4 cells, 1100 mAh; has an error");
  expect(packsInWords(some)).toBe("3 packs, 1 of them with an error or a warning");
  expect(packsInWords(many)).toBe("300 packs");
});
