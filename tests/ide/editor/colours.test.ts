/** Colours of a script, held to culori's own reading of CSS. */
import colourNames from "color-name";
import { parse } from "culori";
import fc from "fast-check";
import { expect, test } from "vitest";
import { coloursOf, type Rgb, rgbOf, spellingsOf } from "../../../shared/ide/editor/colours.ts";
import { atCursor } from "../cursor.ts";

const part = fc.integer({ min: 0, max: 255 });
const rgb: fc.Arbitrary<Rgb> = fc.oneof(
  fc.tuple(part, part, part),
  fc.constantFrom(...(Object.values(colourNames) as Rgb[])),
);

function found(lights: string) {
  const { workspace, file } = atCursor(`craft "Jug"\n\nlights\n${lights}\n`);
  const lines = workspace.script(file)!.tree.lines;
  return coloursOf(workspace, file).map(({ rgb: parts, range: { start, end } }) => [
    lines[start.line]!.text.slice(start.character, end.character),
    parts,
  ]);
}

test("names and hex codes are found at their places, with their quotes; other words are not colours", () => {
  expect(found('  colour orange\n  rear-colour "#0072B2" # blue\n  armed-colour same\n  alert-colour none')).toEqual([
    ["orange", [255, 165, 0]],
    ['"#0072B2"', [0, 114, 178]],
  ]);
  expect(found("  colour rainbowish\n  count 4")).toEqual([]);
});

// An independent reading of CSS colours: culori (npm).
test("every way to write a colour is read as that colour, by us and by culori", () => {
  fc.assert(
    fc.property(rgb, (parts) => {
      for (const way of spellingsOf(parts)) {
        const plain = way.replaceAll('"', "");
        const read = parse(plain)!;
        expect([read.r, read.g, read.b].map((each) => Math.round(each * 255))).toEqual([...parts]);
        expect(rgbOf(plain)).toEqual([...parts]);
      }
    }),
  );
});

test("the written colour is a valid line, and is found again at its place", () => {
  fc.assert(
    fc.property(rgb, (parts) => {
      for (const way of spellingsOf(parts)) expect(found(`  colour ${way}`)).toEqual([[way, [...parts]]]);
    }),
    { numRuns: 30 },
  );
});

test("a colour with a name is offered under it first; of two spellings the British one", () => {
  expect(spellingsOf([255, 165, 0])).toEqual(["orange", '"#ffa500"']);
  expect(spellingsOf([128, 128, 128])).toEqual(["grey", '"#808080"']);
  expect(spellingsOf([1, 2, 3])).toEqual(['"#010203"']);
  const named = Object.values(colourNames) as Rgb[];
  expect(named.filter((each) => spellingsOf(each).length !== 2)).toEqual([]);
});
