/** Merging besides plain entries: drops, named packs, second sets, kept lines. */
import { describe, expect, test } from "vitest";
import { check, WHEEL } from "../rules/check.ts";
import { craftOf, effectiveLines } from "./effective.ts";

const over = (layer: string, craft: string) =>
  craftOf({ "a.fettle": `craft "A"\nuse "b.fettle"\n${craft}`, "b.fettle": `layer "B"\n${layer}` });

describe("drop", () => {
  test("removes each name whole, as far as earlier files set it", () => {
    const craft = over(
      "pack\n  cells 4\n  capacity 850 mAh\ngains\n  roll p 0.9 i 0.8\n",
      "pack\n  drop cells capacity\ngains\n  drop roll\n  roll d 0.4\n",
    );
    expect(effectiveLines(craft)).toEqual(["gains.roll: d 0.4 <- a.fettle:7"]);
  });

  test("acts before the entries of its file, wherever it stands", () => {
    const craft = over("modes\n  arm when TL is up\n", "modes\n  arm when TR is up\n  drop arm\nmodes\n  drop all\n");
    expect(effectiveLines(craft)).toEqual(["modes.arm: TR is up <- a.fettle:4"]);
  });

  test("all removes the section, and only that", () => {
    const craft = over(
      "osd\n  grid pal\n  sight at 1, 2\nosd-second\n  sight at 3, 4\npack\n  cells 4\n",
      "osd\n  drop all\n",
    );
    expect(effectiveLines(craft)).toEqual(["pack.cells: 4 <- b.fettle:8", "osd-second.sight: 3, 4 <- b.fettle:6"]);
    expect([...craft.sections.keys()]).toEqual(["osd-second", "pack"]);
  });

  test("removes controls, outputs and settings that follow a dial", () => {
    const craft = craftOf({
      "a.fettle":
        'craft "A"\nuse "wheel.fettle"\nuse "b.fettle"\ncontrols\n  drop TR PB KN\noutputs\n  drop nose\nadjust\n  drop overall\n',
      "b.fettle": 'layer "B"\noutputs\n  nose when TL is up\nadjust\n  overall follows KN from 1 to 2\n',
      "wheel.fettle": WHEEL,
    });
    expect(effectiveLines(craft)).toEqual(["controls.TL: switch ch5  up 1000 us  down 2000 us <- wheel.fettle:3"]);
    expect(craft.droppedNothing).toEqual([]);
  });

  test("a known name that nobody said is a hint; an unknown name is an error and no hint", () => {
    const findings = check(`
      craft "Jug"
      pack
        cells 4
        drop cells capacty
             ^^^^^ drop-nothing
                   ^^^^^^^ unknown-name
      modes
        drop finder findre
             ^^^^^^ drop-nothing
                    ^^^^^^ unknown-name
      osd
        drop sight grid nothing
             ^^^^^ drop-nothing
                   ^^^^ drop-nothing
                        ^^^^^^^ unknown-name
      outputs
        drop nose
             ^^^^ drop-nothing
      link
        drop all
             ^^^ drop-nothing
    `);
    expect(findings.filter(({ code }) => code === "unknown-name").map(({ message }) => message)).toEqual([
      "“pack” has nothing called “capacty” to remove. Did you mean “capacity”?",
      "“modes” has nothing called “findre” to remove. Did you mean “finder”?",
      "“osd” has nothing called “nothing” to remove.",
    ]);
  });

  test("in a layer it is reported on the use line of the craft", () => {
    check(`
      craft "Jug"
      use "base.fettle"
          ^^^^^^^^^^^^^ drop-nothing
      === base.fettle
      layer "Base"
      pack
        drop cells
    `);
  });
});

describe("packs and second sets", () => {
  test("a named pack is a section of its own, and drops of the plain one leave it", () => {
    const craft = over('pack\n  cells 4\npack "6S"\n  cells 6\n', 'pack "6S"\n  capacity 1100 mAh\npack\n  drop all\n');
    expect(effectiveLines(craft)).toEqual([
      "pack/6S.cells: 6 <- b.fettle:5",
      "pack/6S.capacity: 1100 mAh <- a.fettle:4",
    ]);
  });

  test("a second set takes the entries of its first", () => {
    const craft = over(
      "gains-second\n  roll p 0.5\nrates-second\n  roll slope 200 deg/s\nosd-second\n  sight at 1, 2\n",
      "gains-second\n  roll i 0.4\n",
    );
    expect(effectiveLines(craft)).toEqual([
      "gains-second.roll: p 0.5  i 0.4 <- b.fettle:3 a.fettle:4",
      "rates-second.roll: slope 200 deg/s <- b.fettle:5",
      "osd-second.sight: 1, 2 <- b.fettle:7",
    ]);
  });

  test("a second page has no grid of its own", () => {
    check(`
      craft "Jug"
      osd-second
        grid pal
        ^^^^ unknown-name
    `);
  });
});

describe("verbatim", () => {
  test("parts for one dialect join in file order; drop all clears those of earlier files", () => {
    const layer = 'verbatim "x"\n  | one\nverbatim "y"\n  | two\nverbatim "x"\n  |  three # kept\n';
    expect(effectiveLines(over(layer, 'verbatim "x"\n  | four\n'))).toEqual([
      "verbatim x:  one <- b.fettle:3",
      "verbatim y:  two <- b.fettle:5",
      "verbatim x:   three # kept <- b.fettle:7",
      "verbatim x:  four <- a.fettle:4",
    ]);
    expect(effectiveLines(over(layer, 'verbatim "x"\n  | four\n  drop all\n'))).toEqual([
      "verbatim y:  two <- b.fettle:5",
      "verbatim x:  four <- a.fettle:4",
    ]);
  });
});
