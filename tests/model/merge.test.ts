/** How files combine: each sentence of the language's own page, held to small sets of files. */
import { describe, expect, test } from "vitest";
import { WHEEL } from "../rules/check.ts";
import { craftOf, effectiveLines } from "./effective.ts";

const parts = (files: Record<string, string>) => craftOf(files).scripts.map(({ file }) => file);

describe("visiting", () => {
  test("a file's uses in order, then its own sections", () => {
    expect(
      parts({
        "a.fettle": 'craft "A"\npack\n  cells 4\nuse "b.fettle"\nuse "c.fettle"\n',
        "b.fettle": 'layer "B"\nuse "d.fettle"\n',
        "c.fettle": 'layer "C"\n',
        "d.fettle": 'layer "D"\n',
      }),
    ).toEqual(["d.fettle", "b.fettle", "c.fettle", "a.fettle"]);
  });

  test("use lines count as standing before all sections", () => {
    const files = {
      "a.fettle": 'craft "A"\npack\n  cells 4\nuse "b.fettle"\n',
      "b.fettle": 'layer "B"\npack\n  cells 6\n  capacity 850 mAh\n',
    };
    expect(effectiveLines(craftOf(files))).toEqual([
      "pack.cells: 4 <- a.fettle:3",
      "pack.capacity: 850 mAh <- b.fettle:4",
    ]);
  });

  test("a file already visited is skipped, so its first place counts", () => {
    const files = {
      "a.fettle": 'craft "A"\nuse "b.fettle"\nuse "c.fettle"\nuse "b.fettle"\n',
      "b.fettle": 'layer "B"\npack\n  cells 4\n',
      "c.fettle": 'layer "C"\nuse "b.fettle"\npack\n  cells 6\n',
    };
    expect(parts(files)).toEqual(["b.fettle", "c.fettle", "a.fettle"]);
    expect(effectiveLines(craftOf(files))).toEqual(["pack.cells: 6 <- c.fettle:4"]);
  });

  test("paths are relative to the file they stand in", () => {
    expect(
      parts({
        "craft/a.fettle": 'craft "A"\nuse "../layers/b.fettle"\n',
        "layers/b.fettle": 'layer "B"\nuse "more/c.fettle"\nuse "./more/../d.fettle"\n',
        "layers/more/c.fettle": 'layer "C"\n',
        "layers/d.fettle": 'layer "D"\n',
      }),
    ).toEqual(["layers/more/c.fettle", "layers/d.fettle", "layers/b.fettle", "craft/a.fettle"]);
  });

  test("circles, missing files and crafts are left out", () => {
    expect(
      parts({
        "a.fettle": 'craft "A"\nuse "a.fettle"\nuse "b.fettle"\nuse "none.fettle"\nuse "x.fettle"\nuse "/abs.fettle"\n',
        "b.fettle": 'layer "B"\nuse "c.fettle"\n',
        "c.fettle": 'layer "C"\nuse "b.fettle"\nuse "c.fettle"\n',
        "x.fettle": 'craft "X"\n',
      }),
    ).toEqual(["c.fettle", "b.fettle", "a.fettle"]);
  });

  test("the line of the craft's own file that answers for a line of another", () => {
    const craft = craftOf({
      "a.fettle": 'craft "A"\nuse "b.fettle"\nuse "wheel.fettle"\n',
      "b.fettle": 'layer "B"\nuse "c.fettle"\n',
      "c.fettle": 'layer "C"\npack\n  cells 4\n',
      "wheel.fettle": WHEEL,
    });
    const lineFor = (file: string, line: number) => craft.answersFor({ file, line }).line;
    expect([lineFor("c.fettle", 2), lineFor("wheel.fettle", 2), lineFor("a.fettle", 1)]).toEqual([1, 2, 1]);
  });
});

describe("the handset", () => {
  const handset = (name: string, channel: number) =>
    `handset "${name}"\ncontrols\n  TL switch ch${channel} up 1000 us down 2000 us\n`;

  test("the last handset met counts, with all it uses; earlier ones are left out whole", () => {
    const files = {
      "a.fettle": 'craft "A"\nuse "first.fettle"\nuse "b.fettle"\n',
      "b.fettle": 'layer "B"\nuse "second.fettle"\n',
      "first.fettle": `${handset("First", 5)}  PB button ch7 rest 1000 us held 2000 us\n`,
      "second.fettle": `handset "Second"\nuse "base.fettle"\ntransmitter\n  band 2.4 GHz\n`,
      "base.fettle": handset("Base", 8),
    };
    expect(craftOf(files).handset!.name).toBe("Second");
    expect(parts(files)).toEqual(["base.fettle", "second.fettle", "b.fettle", "a.fettle"]);
    expect(effectiveLines(craftOf(files))).toEqual([
      "transmitter.band: 2.4 GHz <- second.fettle:4",
      "controls.TL: switch ch8  up 1000 us  down 2000 us <- base.fettle:3",
    ]);
  });

  test("it lies under every layer, wherever its use stands; a control is restated whole", () => {
    const files = {
      "a.fettle": 'craft "A"\nuse "b.fettle"\nuse "wheel.fettle"\n',
      "b.fettle": 'layer "B"\ncontrols\n  TR switch ch6 low 1000 us high 2000 us\n',
      "wheel.fettle": WHEEL,
    };
    const { controls } = craftOf(files);
    expect([...controls.keys()]).toEqual(["TL", "TR", "PB", "KN"]);
    expect(controls.get("TR")).toMatchObject({ text: "switch ch6  low 1000 us  high 2000 us", fromHandset: false });
    expect(controls.get("TL")!.fromHandset).toBe(true);
  });

  test("another handset stands in for the craft's own", () => {
    const files = {
      "a.fettle": 'craft "A"\nuse "wheel.fettle"\n',
      "wheel.fettle": WHEEL,
      "other.fettle": handset("Other", 9),
    };
    const craft = craftOf(files, "other.fettle");
    expect(craft.handset!.name).toBe("Other");
    expect([...craft.controls.keys()]).toEqual(["TL"]);
  });

  test("a handset uses handsets only", () => {
    const files = {
      "a.fettle": 'craft "A"\nuse "h.fettle"\n',
      "h.fettle": 'handset "H"\nuse "b.fettle"\npack\n  cells 4\n',
      "b.fettle": 'layer "B"\npack\n  cells 6\n',
    };
    expect(parts(files)).toEqual(["h.fettle", "a.fettle"]);
    expect(effectiveLines(craftOf(files))).toEqual([]);
  });
});

describe("within a file", () => {
  test("repeated sections join, and the later line wins", () => {
    const craft = craftOf({ "a.fettle": 'craft "A"\npack\n  cells 4\nlink\n  channels 8\npack\n  cells 6\n' });
    expect(effectiveLines(craft)).toEqual(["pack.cells: 6 <- a.fettle:7", "link.channels: 8 <- a.fettle:5"]);
  });

  test("lines of one mode join as or, also from repeated sections", () => {
    const craft = craftOf({
      "a.fettle":
        'craft "A"\nmodes\n  arm when TL is down\n  level when TR is up\nmodes\n  arm when TR is mid and KN above 1500 us\n',
    });
    expect(effectiveLines(craft)).toEqual([
      "modes.arm: TL is down or TR is mid and KN above 1500 us <- a.fettle:3 a.fettle:6",
      "modes.level: TR is up <- a.fettle:4",
    ]);
  });

  test("fields join field by field", () => {
    const craft = craftOf({ "a.fettle": 'craft "A"\ngains\n  roll p 0.9 i 0.8\n  roll d 0.4\n  roll i 0.7\n' });
    expect(effectiveLines(craft)).toEqual(["gains.roll: p 0.9  i 0.7  d 0.4 <- a.fettle:3 a.fettle:5 a.fettle:4"]);
  });

  test("a repeatable setting is a list in order", () => {
    const craft = craftOf({
      "a.fettle": 'craft "A"\nfilters\n  notch at 200 Hz width 20 Hz\n  notch at 100 Hz width 10 Hz\n',
    });
    expect(effectiveLines(craft)).toEqual([
      "filters.notch: at 200 Hz  width 20 Hz; at 100 Hz  width 10 Hz <- a.fettle:3 a.fettle:4",
    ]);
  });
});

describe("across files", () => {
  const over = (layer: string, craft: string) =>
    effectiveLines(craftOf({ "a.fettle": `craft "A"\nuse "b.fettle"\n${craft}`, "b.fettle": `layer "B"\n${layer}` }));

  test("fields merge field by field, each with the line it comes from", () => {
    expect(over("gains\n  roll p 0.9 i 0.8\n", "gains\n  roll i 0.7 d 0.4\n")).toEqual([
      "gains.roll: p 0.9  i 0.7  d 0.4 <- b.fettle:3 a.fettle:4 a.fettle:4",
    ]);
  });

  test("a mode's lines, and a repeatable setting's, are replaced together", () => {
    expect(
      over(
        "modes\n  arm when TL is up\n  arm when TL is down\nfilters\n  smooth-gyro cut 90 Hz\n  smooth-gyro cut 80 Hz\n",
        "modes\n  arm when TR is mid\nfilters\n  smooth-gyro cut 70 Hz\n",
      ),
    ).toEqual(["filters.smooth-gyro: cut 70 Hz <- a.fettle:6", "modes.arm: TR is mid <- a.fettle:4"]);
  });

  test("outputs, places and settings that follow a dial are replaced whole", () => {
    expect(
      over(
        "outputs\n  nose when TL is up\n  nose when TL is down\nosd\n  sight at 1, 2\nadjust\n  overall follows KN from 0.5 to 1\n",
        "outputs\n  nose when TR is mid\nosd\n  sight at centre, 3\nadjust\n  overall follows KM from 1 to 2\n",
      ),
    ).toEqual([
      "outputs.nose: TR is mid <- a.fettle:4",
      "osd.sight: centre, 3 <- a.fettle:6",
      "adjust.overall: follows KM from 1 to 2 <- a.fettle:8",
    ]);
  });

  test("a faulty line leaves its name without value: earlier values are not used", () => {
    expect(
      over(
        "pack\n  cells 4\n  capacity 850 mAh\ngains\n  roll p 0.9\nmodes\n  arm when TL is up\nosd\n  sight at 1, 2\n",
        "pack\n  cells four-ish\n  capacity 850\ngains\n  roll d\nmodes\n  arm when TL is\nosd\n  sight at 1\n",
      ),
    ).toEqual([
      "pack.cells: ? four-ish <- a.fettle:4",
      "pack.capacity: ? 850 <- a.fettle:5",
      "gains.roll: ? d <- a.fettle:7",
      "modes.arm: ? when TL is <- a.fettle:9",
      "osd.sight: ? at 1 <- a.fettle:11",
    ]);
  });

  test("one faulty line of a mode leaves the whole mode without condition", () => {
    expect(over("", "modes\n  arm when TL is up\n  arm when TL\n")).toEqual([
      "modes.arm: ? TL is up; when TL <- a.fettle:4 a.fettle:5",
    ]);
  });

  test("values out of range do count", () => {
    expect(over("pack\n  cells 4\n", "pack\n  cells 99\n")).toEqual(["pack.cells: 99 <- a.fettle:4"]);
  });

  test("a section in the wrong kind of file, and one that nobody knows, has no effect", () => {
    expect(over("transmitter\n  band 2.4 GHz\nnonsense\n  cells 4\n", "")).toEqual([]);
  });
});
