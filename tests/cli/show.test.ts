import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { wheel } from "./shed.ts";

const base = `layer "Base"

pack
  chemistry  lipo
  cells      6

gains
  roll  p 1  i 1.2
`;
const crock = `craft "Crock"

use "wheel.fettle"
use "base.fettle"

frame
  propeller-diameter  127 mm

pack "Tired"
  warn-at  3.6 V/cell

link
  endpoints  1 ms to 2 ms
  two-level  5, 9

modes
  # left shoulder,
  arm  when TL is down
  # or both of these
  arm  when TR is down and KN above 1500 us

outputs
  lamp  when not TL is up

osd
  grid        30 x 16
  pack-volts  at left+2, bottom-1
  sight       at centre, middle

gains
  roll  d 0.6

filters
  smooth-gyro  cut 0.2 kHz
  smooth-gyro  cut 100 Hz  order 2

sensors
  accelerometer  yes
  loop-rate      4 parsecs

adjust
  overall  follows KN from 0.9 to 1.1

verbatim "slipware"
  | glaze.sky 3
`;
const files = { "crock.fettle": crock, "base.fettle": base, "wheel.fettle": wheel };

async function show(...args: string[]) {
  const io = held(await folderOf(files), "");
  const status = await run(["show", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}
const json = async () => JSON.parse((await show("crock.fettle", "--format", "json")).out);
const at = (line: number, file = "crock.fettle") => ({ file, line });

test("the object has its fixed parts", async () => {
  const shown = await json();
  expect(Object.keys(shown)).toEqual([
    "craft",
    "handset",
    "settings",
    "modes",
    "outputs",
    "controls",
    "osd",
    "osdSecond",
    "verbatim",
  ]);
  expect(shown.craft).toBe("Crock");
  expect(shown.handset).toEqual({ name: "Wheel", file: "wheel.fettle" });
});

test("a value is plain, in the catalogue's unit, with the line it comes from", async () => {
  const { settings } = await json();
  // 25.4 mm to the inch, by definition: 127 mm are 5 in.
  expect(settings["frame.propeller-diameter"]).toEqual({ value: { number: 5, unit: "in" }, text: "127 mm", ...at(6) });
  expect(settings["pack.chemistry"]).toEqual({ value: "lipo", text: "lipo", ...at(3, "base.fettle") });
  expect(settings["pack.cells"]).toEqual({ value: 6, text: "6", ...at(4, "base.fettle") });
  expect(settings["pack/Tired.warn-at"]).toEqual({
    value: { number: 3.6, unit: "V/cell" },
    text: "3.6 V/cell",
    ...at(9),
  });
  expect(settings["link.endpoints"]).toEqual({
    value: { from: 1000, to: 2000, unit: "us" },
    text: "1 ms to 2 ms",
    ...at(12),
  });
  expect(settings["link.two-level"]).toEqual({ value: [5, 9], text: "5, 9", ...at(13) });
  expect(settings["sensors.accelerometer"]).toEqual({ value: true, text: "yes", ...at(37) });
  expect(settings["osd.grid"].value).toEqual({ columns: 30, rows: 16 });
  expect(settings["transmitter.band"]).toEqual({
    value: { number: 2.4, unit: "GHz" },
    text: "2.4 GHz",
    ...at(3, "wheel.fettle"),
  });
  expect(settings["adjust.overall"].text).toBe("follows KN from 0.9 to 1.1");
});

test("each field has its own line, and so has each item of a repeatable setting", async () => {
  const { settings } = await json();
  expect(settings["gains.roll"]).toEqual({
    value: {
      p: { number: 1, unit: "" },
      i: { number: 1.2, unit: "" },
      d: { number: 0.6, unit: "" },
      sources: { p: at(7, "base.fettle"), i: at(7, "base.fettle"), d: at(30) },
    },
    text: "p 1  i 1.2  d 0.6",
    ...at(30),
  });
  expect(settings["filters.smooth-gyro"].value).toEqual([
    { cut: { number: 200, unit: "Hz" }, sources: { cut: at(33) } },
    { cut: { number: 100, unit: "Hz" }, order: 2, sources: { cut: at(34), order: at(34) } },
  ]);
});

test("what is the same reads the same, in whatever order its parts were said", async () => {
  const texts = async (gains: string, filter: string) => {
    const lid = `craft "Lid"\n\ngains\n${gains}\nfilters\n  smooth-gyro  ${filter}\n  smooth-gyro  cut 90 Hz\n`;
    const io = held(await folderOf({ "lid.fettle": lid }), "");
    expect(await run(["show", "lid.fettle", "--format", "json"], io)).toBe(0);
    const { settings } = JSON.parse(io.outText());
    return [settings["gains.roll"].text, settings["filters.smooth-gyro"].text];
  };
  const said = await texts("  roll  p 1  i 1.2  d 0.6\n", "cut 100 Hz  order 2");
  expect(said).toEqual(["p 1  i 1.2  d 0.6", "cut 100 Hz  order 2; cut 90 Hz"]);
  expect(await texts("  roll  d 0.6  i 1.2\n  roll  p 1\n", "order 2  cut 100 Hz")).toEqual(said);
});

test("a default has no file, what nobody said and has none is left out, a fault leaves no value", async () => {
  const { settings } = await json();
  expect(settings["pack.adc-bits"]).toEqual({ value: 12, text: "12", file: null, line: null });
  expect(settings["link.order"].value).toEqual(["roll", "pitch", "throttle", "yaw"]);
  expect(settings).not.toHaveProperty("pack.capacity");
  expect(settings["sensors.loop-rate"]).toEqual({ value: null, text: "4 parsecs", ...at(38) });
});

test("where a control lies is part of its text", async () => {
  const folder = await folderOf({
    "jug.fettle": 'craft "Jug"\nuse "wheel.fettle"\n',
    "wheel.fettle": 'handset "Wheel"\ncontrols\n  KN dial ch9 1000 us to 2000 us   lies  left shoulder\n',
  });
  const io = held(folder, "");
  await run(["show", "jug.fettle", "--format", "json"], io);
  expect(JSON.parse(io.outText()).controls.KN.text).toBe("dial ch9 1000 us to 2000 us  lies left shoulder");
});

test("modes, outputs, controls, places and what is kept come with their lines", async () => {
  const shown = await json();
  expect(shown.modes).toEqual({
    arm: {
      condition: "TL is down or TR is down and KN above 1500 us",
      lines: [at(17), at(19)],
      note: "left shoulder,\nor both of these",
    },
  });
  expect(shown.outputs).toEqual({ lamp: { condition: "not TL is up", lines: [at(22)], note: "" } });
  expect(shown.controls.KN).toEqual({ text: "dial ch9 1000 us to 2000 us", ...at(8, "wheel.fettle") });
  // On 30 x 16 from 0: left+2 is column 2, bottom-1 row 14; a width of 3 is centred at floor(27 / 2).
  expect(shown.osd).toEqual({
    columns: 30,
    rows: 16,
    elements: {
      "pack-volts": { column: 2, row: 14, width: 5, height: 1, ...at(26) },
      sight: { column: 13, row: 7, width: 3, height: 1, ...at(27) },
    },
  });
  expect(shown.osdSecond).toEqual({ columns: 30, rows: 16, elements: {} });
  expect(shown.verbatim).toEqual([{ dialect: "slipware", text: " glaze.sky 3", ...at(44) }]);
});

test("without a grid places are null", async () => {
  const io = held(await folderOf({}), 'craft "Mug"\n\nosd\n  sight  at centre, middle\n');
  expect(await run(["show", "-", "--format", "json"], io)).toBe(0);
  expect(JSON.parse(io.outText()).osd).toEqual({
    columns: null,
    rows: null,
    elements: { sight: { column: null, row: null, width: 3, height: 1, file: "-", line: 3 } },
  });
});

test("text shows each value with its place, from line 1", async () => {
  const { status, out } = await show("crock.fettle");
  expect(status).toBe(0);
  expect(out).toMatch(/^craft {4}Crock\nhandset {2}Wheel \(wheel\.fettle\)\n\nframe\n/);
  expect(out).toMatch(/^ {2}propeller-diameter {2}127 mm {2}crock\.fettle:7$/m);
  expect(out).toMatch(/^ {2}adc-bits +12 +default$/m);
  expect(out).toMatch(/^ {2}pack-volts +column 2, row 14, 5 x 1 cells +crock\.fettle:27$/m);
});

test.each([
  [[], "say which craft"],
  [["crock.fettle", "base.fettle"], "one craft at a time, and “base.fettle” is one too many"],
  [["base.fettle"], "base.fettle is a layer, and a craft is expected here: name a craft that uses it"],
  [["nope.fettle"], "nope.fettle: there is no such file"],
  [["."], ". holds several scripts: name one craft"],
  [["crock.fettle", "--format", "sarif"], "--format is text or json or script, not “sarif”"],
])("show %j cannot run, and says why", async (args, message) => {
  expect(await show(...args)).toEqual({ status: 2, out: "", error: `fettle: ${message}\n` });
});

test("as a script it is the same craft, and is shown as the same", async () => {
  const { status, out } = await show("crock.fettle", "--format", "script");
  expect(status).toBe(0);
  expect(out).toMatch(/^craft "Crock"\n\nuse "wheel.fettle"\n/);
  expect(out).toMatch(/^ {2}chemistry +lipo +# base.fettle:4$/m);
  const values = (text: string) => {
    const { settings, modes, outputs, osd, verbatim } = JSON.parse(text);
    const named = Object.entries({ ...settings, ...modes, ...outputs, ...osd.elements }).map(([name, value]) => {
      const { text: written, condition, column, row } = value as Record<string, unknown>;
      return [name, written ?? condition ?? [column, row]];
    });
    return [Object.fromEntries(named), verbatim.map((line: { text: string }) => line.text)];
  };
  const io = held(await folderOf({ ...files, "crock.fettle": out }), "");
  expect(await run(["show", "crock.fettle", "--format", "json"], io)).toBe(0);
  const before = (await show("crock.fettle", "--format", "json")).out;
  expect(values(io.outText())).toEqual(values(before));
});
