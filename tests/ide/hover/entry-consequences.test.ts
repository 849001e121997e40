/** What follows from a value, under it in the hover: on which craft, and for which pack. */
import { expect, test } from "vitest";
import { hoverText } from "../cursor.ts";

/** The paragraphs of the hover from “What follows” on, up to what comes after it. */
function followsIn(markdown: string | null): string[] {
  const parts = (markdown ?? "").split("\n\n");
  const first = parts.findIndex((part) => part.startsWith("What follows"));
  return first < 0
    ? []
    : parts.slice(first, parts.findLastIndex((part) => /What follows|^- (The|Pack)|^The line/.test(part)) + 1);
}

const craft = (name: string, cells: number, rest = "") =>
  `craft "${name}"\nuse "jug.fettle"\n\npack\n  cells ${cells}\n${rest}`;
const layer = 'layer "Cells"\n\npack\n  warn-a|t 3.5 V/cell\n';

test("a craft's own line: the value, then the note, then what follows, then what it is", () => {
  const hover = hoverText('craft "Jug"\n\npack\n  cells 6\n  # old cells\n  warn-a|t 3.5 V/cell\n')!;
  expect(followsIn(hover)).toEqual(["What follows:", "- The whole pack then has 21 V, with 6 cells in series"]);
  const order = ["**`3.5 V/cell`** on Jug", "> old cells", "What follows:", "**pack.warn-at** — "].map((part) =>
    hover.indexOf(part),
  );
  expect(order).toEqual([...order].sort((a, b) => a - b));
  expect(order).not.toContain(-1);
});

test("a layer's line has the consequences for each craft that uses it, equal ones together", () => {
  const more = { "cup.fettle": craft("Cup", 4), "mug.fettle": craft("Mug", 6), "pot.fettle": craft("Pot", 4) };
  expect(followsIn(hoverText(layer, more))).toEqual([
    "What follows, on Cup and Pot:",
    "- The whole pack then has 14 V, with 4 cells in series",
    "What follows, on Mug:",
    "- The whole pack then has 21 V, with 6 cells in series",
  ]);
});

test("of more than three craft three are shown, without craft that override the line", () => {
  const more = Object.fromEntries(
    ["Bowl", "Cup", "Mug", "Pot", "Tureen"].map((name, i) => [`${name.toLowerCase()}.fettle`, craft(name, i + 2)]),
  );
  more["bowl.fettle"] = craft("Bowl", 2, "  warn-at 3.6 V/cell\n");
  const hover = followsIn(hoverText(layer, more));
  expect(hover.filter((part) => part.startsWith("What follows"))).toEqual([
    "What follows, on Cup:",
    "What follows, on Mug:",
    "What follows, on Pot:",
  ]);
  expect(hover.at(-1)).toBe("The line is a part of 1 more craft.");
});

test("a line that is overridden is shown with the effective value", () => {
  const hover = hoverText('craft "Jug"\n\npack\n  cells 6\n  warn-a|t 3.4 V/cell\n  warn-at 3.5 V/cell\n')!;
  expect(hover).toMatch(/^\*\*`3\.5 V\/cell`\*\* on Jug, .* wins over this line/);
  expect(followsIn(hover)).toEqual(["What follows:", "- The whole pack then has 21 V, with 6 cells in series"]);
});

test("a plain pack's line is also shown for the packs that inherit it", () => {
  const packs =
    'pack\n  warn-a|t 3.5 V/cell\n\npack "4s"\n  cells 4\n\npack "*6s*"\n  cells 6\n\npack "own"\n  cells 3\n  warn-at 3.6 V/cell\n';
  expect(followsIn(hoverText(`craft "Jug"\n\n${packs}`))).toEqual([
    "What follows:",
    "- Pack “4s”: The whole pack then has 14 V, with 4 cells in series\n- Pack “\\*6s\\*”: The whole pack then has 21 V, with 6 cells in series",
  ]);
});

test("of many packs the first few are shown, and the number of the others", () => {
  const shelf = Array.from({ length: 9 }, (_, i) => `\npack "${i}"\n  cells ${i + 1}\n`).join("");
  const hover = hoverText(`craft "Jug"\n\npack\n  warn-a|t 3.5 V/cell\n${shelf}`)!;
  expect(hover.match(/Pack “\d”/g)).toEqual(["Pack “0”", "Pack “1”", "Pack “2”", "Pack “3”"]);
  expect(hover).toContain("- 5 more packs take it over");
});

test("of two filters of one name each shows its own delay", () => {
  const filters = (one: string, two: string) =>
    `craft "Jug"\n\nsensors\n  loop-rate 4 kHz\n\nfilters\n  ${one} cut 100 Hz order 1\n  ${two} cut 200 Hz order 1\n`;
  expect(hoverText(filters("smooth-gy|ro", "smooth-gyro"))).toContain("- It delays slow movements by 1.6 ms");
  expect(hoverText(filters("smooth-gyro", "smooth-gy|ro"))).toContain("- It delays slow movements by 0.79 ms");
});

test("without consequences there is no heading for them", () => {
  expect(hoverText('craft "Jug"\n\nboard\n  mod|el "kiln"\n')).not.toContain("What follows");
  expect(hoverText('layer "Alone"\n\npack\n  cells 4\n  warn-a|t 3.5 V/cell\n')).not.toContain("What follows");
});

test("over the figure itself the same as over its name", () => {
  const [figure, name] = ["warn-at 3.|5 V/cell", "warn-a|t 3.5 V/cell"].map((line) =>
    hoverText(`craft "Jug"\n\npack\n  cells 6\n  ${line}\n`),
  );
  expect(figure).toContain("- The whole pack then has 21 V, with 6 cells in series");
  expect(figure).toBe(name);
  expect(hoverText('craft "Jug"\n\npack\n  capacity 1|100 mAh\n')).toContain("1100 mAh = 1.1 Ah");
  expect(hoverText('craft "Jug"\n\nosd\n  grid 30 x 16\n  amps at ri|ght, bottom\n')).toContain("What follows:");
  expect(hoverText('craft "Jug"\n\nport|s\n')).not.toContain("What follows");
  expect(hoverText('craft "Jug"\n\nlights\n  count 1|2\n')).toMatch(/^\*\*`12`\*\* on Jug/);
});
