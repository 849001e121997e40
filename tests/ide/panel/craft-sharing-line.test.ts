import fc from "fast-check";
import { expect, test } from "vitest";
import { sharingInWords } from "../../../shared/draw/words.ts";
import { craftSharingLine } from "../../../shared/ide/panel/craft-sharing-line.ts";
import { atCursor } from "../cursor.ts";

/** Layers and craft that place, drop and say again the same two elements, in all orders. */
const line = fc.constantFrom("amps at 2, 2", "watts at 2, 3", "amps at 9", "drop amps", "drop all", "drop watts amps");
const section = fc.constantFrom("osd", "osd-second");
const body = fc
  .array(fc.tuple(section, line), { maxLength: 5 })
  .map((lines) => lines.map(([name, entry]) => `${name}\n  ${entry}\n`).join(""));
const uses = (of: readonly string[]) =>
  fc.subarray([...of]).map((names) => names.map((name) => `use "${name}.fettle"\n`).join(""));

test("a line counts for just those craft that, put together, have the element from it", () => {
  /** How often a line counted for that many of the two craft. */
  const counted = [0, 0, 0];
  const layers = fc.tuple(body, body, uses(["one"]), body, uses(["one", "two"]));
  const crafts = fc.tuple(uses(["one", "two", "three"]), body, uses(["two", "three"]), body);
  fc.assert(
    fc.property(layers, crafts, ([one, two, twoUses, three, threeUses], [bowlUses, bowl, cupUses, cup]) => {
      const { workspace, file } = atCursor('craft "Jug"\nuse "three.fettle"\nuse "two.fettle"\n', {
        "one.fettle": `layer "One"\n${one}`,
        "two.fettle": `layer "Two"\n${twoUses}${two}`,
        "three.fettle": `layer "Three"\n${threeUses}${three}`,
        "bowl.fettle": `craft "Bowl"\n${bowlUses}${bowl}`,
        "cup.fettle": `craft "Cup"\n${cupUses}${cup}`,
      });
      const jug = workspace.craft(file)!;
      const others = ["/shed/bowl.fettle", "/shed/cup.fettle"].map((each) => workspace.craft(each)!);
      for (const page of ["osd", "osd-second"] as const) {
        const pageOf = (craft: typeof jug) => (page === "osd" ? craft.osd : craft.osdSecond);
        for (const { name, source } of pageOf(jug).values()) {
          const expected = others.filter((other) => {
            const theirs = pageOf(other).get(name)?.source;
            return theirs?.file === source.file && theirs.line === source.line;
          });
          counted[expected.length]!++;
          expect(craftSharingLine(jug, workspace, page)(name, source)).toEqual({
            named: expected.map((other) => other.name),
            more: 0,
          });
        }
      }
    }),
    { numRuns: 300, seed: 2026 },
  );
  for (const times of counted) expect(times).toBeGreaterThan(10);
});

test("of many, three are named and the others counted", () => {
  const crafts = Object.fromEntries(
    ["Bowl", "Cup", "Ewer", "Urn", "Vase"].map((name) => [`${name}.fettle`, `craft "${name}"\nuse "wide.fettle"\n`]),
  );
  const { workspace, file } = atCursor('craft "Jug"\nuse "wide.fettle"\n', {
    "wide.fettle": 'layer "Wide"\nosd\n  amps at 2, 2\n',
    ...crafts,
  });
  const jug = workspace.craft(file)!;
  const sharing = craftSharingLine(jug, workspace, "osd")("amps", jug.osd.get("amps")!.source);
  expect(sharing).toEqual({ named: ["Bowl", "Cup", "Ewer"], more: 2 });
  expect(sharingInWords(sharing)).toBe("Bowl, Cup, Ewer and 2 others");
  expect(sharingInWords({ named: ["Bowl", "Cup"], more: 0 })).toBe("Bowl and Cup");
  expect(sharingInWords({ named: [], more: 0 })).toBe("");
});
