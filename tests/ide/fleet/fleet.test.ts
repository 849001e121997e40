import { expect, test } from "vitest";
import { fleetIn, lines, WHEEL } from "./tables.ts";

const craft = (name: string, ...rest: string[]) => `craft "${name}"\nuse "wheel.fettle"\n${rest.join("\n")}\n`;

test("what a control does on a craft stands in its cell, with what it does on most", () => {
  const fleet = fleetIn({
    "wheel.fettle": WHEEL,
    "cup.fettle": craft("Cup", "modes", "  arm when TL is down", "  level when TR is mid"),
    "jug.fettle": craft("Jug", "modes", "  level when TR is mid", "  arm when TL is not up"),
    "urn.fettle": craft("Urn", "modes", "  arm when TL is down", "  turtle when TR is mid"),
  });
  expect(fleet.controls.map(({ title }) => title)).toEqual(["Controls of Wheel (wheel.fettle)"]);
  expect(lines(fleet, fleet.controls[0]!)).toEqual([
    "Cup | TL: up –, down arm | TR: up –, mid level, down –",
    "Jug | TL: up –, down arm | TR: up –, mid level, down –",
    "Urn | TL: up –, down arm | TR: up –, mid turtle, down – (most: up –, mid level, down –)",
  ]);
  expect(fleet.controls[0]!.rows[2]!.cells[1]!.at).toEqual({ file: "urn.fettle", line: 4 });
  expect(fleet.controls[0]!.columns[0]).toEqual({ name: "TL", what: "on the left shoulder" });
});

test("craft with another handset have a table of their own, and those without one the last", () => {
  const bellows = 'handset "Bellows"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n';
  const fleet = fleetIn({
    "a.fettle": 'craft "A"\nmodes\n  arm when ch5 above 1500 us\n',
    "b.fettle": 'craft "B"\npack\n  cells 4\n',
    "bellows.fettle": bellows,
    "cup.fettle": craft("Cup", "modes", "  arm when TL is down"),
    "wheel.fettle": WHEEL,
    "z.fettle": 'craft "Z"\nuse "bellows.fettle"\nmodes\n  arm when TL is down\noutputs\n  lamp when TL is up\n',
  });
  expect(fleet.controls.map((table) => [table.title, ...lines(fleet, table)])).toEqual([
    ["Controls of Wheel (wheel.fettle)", "Cup | TL: up –, down arm"],
    ["Controls of Bellows (bellows.fettle)", "Z | TL: up outputs.lamp, down arm"],
    ["Controls without a handset", "A | ch5: 1501 to 2000 us arm"],
  ]);
});

test("fields stand in the catalogue's order, however they are written", () => {
  const fleet = fleetIn({
    "wheel.fettle": WHEEL,
    "a.fettle": craft("A", "rates", "  roll end 720 deg/s slope 120 deg/s"),
    "b.fettle": craft("B", "rates", "  roll slope 120 deg/s end 720 deg/s"),
  });
  expect(lines(fleet, fleet.settings)).toEqual(
    ["A", "B"].map((name) => `${name} | rates.roll: slope 120 deg/s  end 720 deg/s`),
  );
});

test("a tie has no most, and whoever says nothing has no vote", () => {
  const fleet = fleetIn({
    "wheel.fettle": WHEEL,
    "a.fettle": craft("A", "pack", "  cells 6", "  capacity 1.1 Ah"),
    "b.fettle": craft("B", "pack", "  cells 4", "  capacity 1100 mAh"),
    "c.fettle": craft("C", "pack", "  capacity 850 mAh"),
  });
  expect(lines(fleet, fleet.settings)).toEqual([
    "A | pack.cells: 6 | pack.capacity: 1.1 Ah",
    "B | pack.cells: 4 | pack.capacity: 1100 mAh",
    "C | pack.capacity: 850 mAh (most: 1.1 Ah)",
  ]);
});

test("layers stand in the order in which they are merged, and another order than on most is marked", () => {
  const layer = (name: string) => `layer "${name}"\n`;
  const uses = (name: string, ...files: string[]) =>
    `craft "${name}"\n${files.map((file) => `use "${file}.fettle"`).join("\n")}\n`;
  const fleet = fleetIn({
    "base.fettle": layer("Base"),
    "tune.fettle": layer("Tune"),
    "a.fettle": uses("A", "base", "tune"),
    "b.fettle": uses("B", "tune", "base"),
    "c.fettle": uses("C", "base", "tune"),
    "d.fettle": uses("D", "base"),
  });
  expect(lines(fleet, fleet.layers)).toEqual([
    "A | Base: 1 | Tune: 2",
    "B | Base: 2 | Tune: 1 (most: after Base)",
    "C | Base: 1 | Tune: 2",
    "D | Base: 1",
  ]);
});

test("what cannot be read is told, and nothing is made up for it", () => {
  const fleet = fleetIn({
    "wheel.fettle": WHEEL,
    "a.fettle": craft("A", 'use "gone.fettle"', "modes", "  arm when TL is down"),
    "b.fettle": 'craft "B" edition 9\n',
    "c.fettle": "pack\n  cells 6\n",
  });
  expect(fleet.craft.map(({ name }) => name)).toEqual(["A"]);
  expect(fleet.missing).toEqual([
    { file: "a.fettle", why: "not all of it is known: “gone.fettle” is missing: there is no such file." },
    { file: "b.fettle", why: "it is written in a newer edition of the language than this program knows" },
    { file: "c.fettle", why: 'its first line does not say what it is, such as: craft "NAME"' },
  ]);
});

test("a check has its day, or was never made where it is about something that the craft has", () => {
  const fleet = fleetIn({
    "wheel.fettle": WHEEL,
    "a.fettle": craft(
      "A",
      "bench",
      "  order-checked 2026-02-01",
      "  mount-checked 2026-03-15",
      "finder",
      "  motors yes",
    ),
    "b.fettle": craft("B", "board", "  flashed-on 2026-03-14", "bench", "  order-checked 2026-02-01"),
    "c.fettle": 'craft "C"\npack\n  cells 6\n',
    "d.fettle": 'craft "D"\nbench\n  order-checked soon\n',
  });
  const of = (name: string) =>
    lines(fleet, fleet.checks)
      .find((line) => line.startsWith(`${name} |`))!
      .split(" | ")
      .slice(1);
  expect(of("A")).toEqual(expect.arrayContaining(["order-checked: 2026-02-01", "mount-checked: 2026-03-15"]));
  expect(of("A")).toContain("finder-checked: never");
  expect(of("B")).toContain("order-checked: 2026-02-01, due: flashed on 2026-03-14");
  expect(of("B").join()).not.toContain("finder-checked");
  expect(of("C")).toEqual(["hover-checked: never", "weighed-on: never"]);
  expect(of("D")).toContain("order-checked: soon");
});
