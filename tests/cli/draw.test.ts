import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { inflateSync } from "node:zlib";
import { beforeAll, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { buildProgram, folderOf, runProgram } from "./program.ts";
import { shed } from "./shed.ts";

const bowl = `craft "Bowl & <Spoon>"

use "../handsets/wheel.fettle"

modes
  arm    when TL is down
  level  when TR is mid

osd
  grid        30 x 16
  pack-volts  at left+2, bottom-1
  craft       at centre, top
`;

const bellows = 'handset "Bellows"\n\ncontrols\n  LEVER  switch  ch5  near 1000 us  far 2000 us\n';

let folder: string;
beforeAll(async () => {
  folder = await folderOf({ ...shed, "craft/bowl.fettle": bowl, "handsets/bellows.fettle": bellows });
});

async function draw(...args: string[]) {
  const io = held(folder, "");
  const status = await run(["draw", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

async function drawn(file: string, ...args: string[]): Promise<string> {
  expect(await draw("craft/bowl.fettle", "--out", file, ...args)).toEqual({ status: 0, out: "", error: "" });
  return readFileSync(join(folder, file), "utf8");
}

test("the goggles hold every element in its place", async () => {
  const svg = await drawn("goggles.svg", "--view", "osd");
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"[^>]*>.*<\/svg>\n$/s);
  expect(svg).toContain("<title>Bowl &amp; &lt;Spoon&gt; in the goggles</title>");
  expect(svg.match(/data-element="[^"]*"/g)).toEqual(['data-element="pack-volts"', 'data-element="craft"']);
});

test("the switches hold every control with what its positions turn on", async () => {
  const svg = await drawn("switches.svg", "--view", "switches");
  expect(svg.match(/data-head="[^"]*"/g)).toEqual(['data-head="TL"', 'data-head="TR"', 'data-head="KN"']);
  expect(svg).toContain(">arm<");
  expect(svg).toContain("at rest: Not armed. Nothing on.</title>");
});

test("the motors from above hold every motor, and in words what cannot be so and what is not said", async () => {
  writeFileSync(
    join(folder, "craft/ewer.fettle"),
    'craft "Ewer"\n\nframe\n  motors      4\n  arm-layout  true-x\n\nmotors\n  spin    props-in\n  motor1  place rear-left\n  motor2  place rear-left  output 2\n',
  );
  const made = await draw("craft/ewer.fettle", "--view", "motors", "--out", "motors.svg");
  expect(made).toEqual({ status: 0, out: "", error: "" });
  const svg = readFileSync(join(folder, "motors.svg"), "utf8");
  expect(svg.match(/data-motor="[^"]*"/g)).toEqual([1, 2, 3, 4].map((number) => `data-motor="${number}"`));
  expect(svg).toContain("<title>Motors of Ewer from above</title>");
  expect(svg).toContain("motor2 stands at rear-left, where motor1 (rear-left, line 9) stands already");
  expect(svg).toContain("Where motor3 and motor4 stand is not said");
  const none = await draw("craft/bowl.fettle", "--view", "motors", "--out", "none.svg");
  expect(none).toMatchObject({ status: 2, error: expect.stringContaining("arm-layout true-x") });
});

test("a drawing is well-formed and refers to nothing outside itself", async () => {
  for (const view of ["osd", "switches"]) {
    const svg = await drawn(`${view}.svg`, "--view", view);
    const open: string[] = [];
    for (const [, closing, tag, rest] of svg.matchAll(/<(\/?)([a-z]+)((?:[^<>"]|"[^"]*")*)>/gi)) {
      if (closing) expect(open.pop()).toBe(tag);
      else if (!rest!.endsWith("/")) open.push(tag!);
    }
    expect(open).toEqual([]);
    expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(/https?:|<script|href=/);
  }
});

test("light is the usual theme, and dark is another", async () => {
  const usual = await drawn("usual.svg", "--view", "switches");
  expect(await drawn("light.svg", "--view", "switches", "--theme", "light")).toBe(usual);
  expect(await drawn("dark.svg", "--view", "switches", "--theme", "dark")).not.toBe(usual);
});

test("another handset stands in for the craft's own", async () => {
  const svg = await drawn("lever.svg", "--view", "switches", "--handset", "handsets/bellows.fettle");
  expect(svg.match(/data-head="[^"]*"/g)).toEqual(['data-head="LEVER"']);
});

test("a file of that name is replaced, and nothing else is left in the folder", async () => {
  mkdirSync(join(folder, "out"));
  const first = await drawn("out/a.svg", "--view", "osd");
  const second = await drawn("out/a.svg", "--view", "switches");
  expect(second).not.toBe(first);
  expect(readdirSync(join(folder, "out"))).toEqual(["a.svg"]);
});

/** Width and height as a PNG's first chunk has them (PNG, third edition, 5.2 and 11.2.1: from memory). */
function sizeOfPng(png: Buffer): [width: number, height: number] {
  expect([...png.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  expect(png.toString("latin1", 12, 16)).toBe("IHDR");
  return [png.readUInt32BE(16), png.readUInt32BE(20)];
}

/** The bytes of all rows, unfiltered or not, as zlib gives them back. */
function rowsOfPng(png: Buffer): Buffer {
  const parts: Buffer[] = [];
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at)) {
    const length = png.readUInt32BE(at);
    if (png.toString("latin1", at + 4, at + 8) === "IDAT") parts.push(png.subarray(at + 8, at + 8 + length));
  }
  return inflateSync(Buffer.concat(parts));
}

async function drawnPng(file: string, ...args: string[]): Promise<Buffer> {
  expect(await draw("craft/bowl.fettle", "--out", file, ...args)).toEqual({ status: 0, out: "", error: "" });
  return readFileSync(join(folder, file));
}

test("a PNG has the picture's aspect, and the width that is asked for", async () => {
  expect(sizeOfPng(await drawnPng("usual.png", "--view", "osd"))).toEqual([1440, 1080]);
  const narrow = await drawnPng("narrow.PNG", "--view", "osd", "--width", "360");
  expect(sizeOfPng(narrow)).toEqual([360, 270]);
  // Eight bits each of red, green, blue and cover, and a byte in front of each row.
  expect(rowsOfPng(narrow).length).toBe(270 * (1 + 4 * 360));
  expect(new Set(rowsOfPng(narrow)).size).toBeGreaterThan(20);
});

test("the same drawing gives the same bytes, and another theme others", async () => {
  const first = await drawnPng("first.png", "--view", "switches");
  expect((await drawnPng("second.png", "--view", "switches")).equals(first)).toBe(true);
  expect((await drawnPng("third.png", "--view", "switches", "--theme", "dark")).equals(first)).toBe(false);
});

test("the width of an SVG is what is asked for, at the same aspect", async () => {
  const svg = await drawn("wide.svg", "--view", "osd", "--width", "2000");
  expect(svg).toContain(' width="2000" height="1500" viewBox="0 0 720 540"');
});

test("another grid fits the layout to it, and what finds no room is named", async () => {
  const svg = await drawn("wide.svg", "--view", "osd", "--grid", "53x20");
  expect(svg).toContain("on 53 by 20 cells");
  const tiny = await draw("craft/bowl.fettle", "--view", "osd", "--out", "tiny.svg", "--grid", "5x1");
  expect(tiny).toEqual({ status: 0, out: "", error: "fettle: no room on this grid for craft\n" });
});

test("another moment shows other readings", async () => {
  const texts = (svg: string) => [...svg.matchAll(/data-text="([^"]*)"/g)].map(([, text]) => text);
  const fresh = texts(await drawn("fresh.svg", "--view", "osd", "--scenario", "fresh-pack"));
  const low = texts(await drawn("low.svg", "--view", "osd", "--scenario", "low-pack"));
  expect(fresh).toHaveLength(2);
  expect(fresh[1]).toBe(low[1]);
  expect(Number.parseFloat(fresh[0]!)).toBeGreaterThan(Number.parseFloat(low[0]!));
});

test("what shows nothing has its place outlined in a layout, and is left out of a moment", async () => {
  const jug = 'craft "Jug"\n\nosd\n  grid pal\n  alerts at centre, top+2\n  craft at centre, top+4\n';
  writeFileSync(join(folder, "jug.fettle"), jug);
  const names = (svg: string) => [...svg.matchAll(/data-element="([^"]*)"/g)].map(([, name]) => name);
  const drawnOf = async (file: string, ...args: string[]) => {
    expect(await draw("jug.fettle", "--view", "osd", "--out", file, ...args)).toMatchObject({ status: 0, error: "" });
    return readFileSync(join(folder, file), "utf8");
  };
  const layout = await drawnOf("layout.svg");
  expect([names(layout), layout.includes('class="element blank"')]).toEqual([["alerts", "craft"], true]);
  const moment = await drawnOf("moment.svg", "--scenario", "mid-flight");
  expect(names(moment)).toEqual(["craft"]);
  expect(moment).toContain("alerts shows nothing now");
});

const kiln = `craft "Kiln"

sensors
  loop-rate  4 kHz

rates
  roll   slope 200 deg/s  end 700 deg/s
  pitch  slope 200 deg/s  end 700 deg/s
  yaw    slope 200 deg/s  end 500 deg/s

rates-second
  roll   end 360 deg/s

filters
  smooth-gyro  cut 100 Hz  order 2
  smooth-d     cut 100 Hz  order 1
`;

test("rates have a chart for each axis, with the second set where it differs", async () => {
  const io = held(await folderOf({ "kiln.fettle": kiln }), "");
  expect(await run(["draw", "kiln.fettle", "--view", "rates", "--out", "rates.svg"], io)).toBe(0);
  const svg = readFileSync(join(io.folder, "rates.svg"), "utf8");
  expect(svg).toContain("<title>Rates of Kiln</title>");
  expect(svg).toContain(">roll, 700 and 360 deg/s<");
  expect(svg).toContain(">pitch, 700 deg/s<");
  expect(svg.match(/class="chart-line/g)).toHaveLength(5);
  expect(svg).toMatch(
    /<desc>Roll: 700 deg\/s at full stick, half of it at \d+ % of the stick\. Second set: Roll: 360 deg\/s/,
  );
});

test("filters show what passes and how late it is", async () => {
  const io = held(await folderOf({ "kiln.fettle": kiln }), "");
  expect(await run(["draw", "kiln.fettle", "--view", "filters", "--out", "filters.svg"], io)).toBe(0);
  const svg = readFileSync(join(io.folder, "filters.svg"), "utf8");
  expect(svg.match(/class="chart-line/g)).toHaveLength(2);
  // At 100 Hz, sampled at 4 kHz: 2.246 ms for order 2, 1.588 ms for order 1, 3.834 ms in a row (computed).
  expect(svg).toContain("The gyro arrives 2.25 ms late at low frequency. The damping arrives 3.83 ms late");
  expect(svg).toContain('aria-label="smooth-d, order 1 at 100 Hz: 1.59 ms"');
});

test("an SVG says in words what is to be seen", async () => {
  const osd = await drawn("words.svg", "--view", "osd");
  expect(osd).toMatch(/<desc>Mid flight, on 30 by 16 cells\. pack-volts shows [\d.]+V, at left\+2, bottom-1/);
  const switches = await drawn("words.svg", "--view", "switches");
  expect(switches).toContain("<desc>TL, switch on channel 5: ");
  expect(switches).toContain("down: can turn on arm");
});

test.each([
  [["--out", "x.svg"], "say what to draw: --view osd, switches, rates, filters or motors"],
  [["--view", "gains", "--out", "x.svg"], "--view is osd or switches or rates or filters or motors, not “gains”"],
  [["--view", "osd"], "say where the drawing goes: --out FILE.svg or --out FILE.png"],
  [["--view", "osd", "--out", "x.jpg"], "name a file that ends in .svg or .png, not “x.jpg”"],
  [
    ["--view", "osd", "--out", "x.png", "--width", "15"],
    "--width is a whole number of pixels from 16 to 8192, not “15”",
  ],
  [["--view", "osd", "--out", "x.png", "--width", "8193"], "not “8193”"],
  [["--view", "osd", "--out", "x.png", "--width", "1e3"], "not “1e3”"],
  [["--view", "osd", "--out", "x.svg", "--grid", "65x20"], "a size from 1x1 to 64x32 such as 53x20, not “65x20”"],
  [["--view", "osd", "--out", "x.svg", "--grid", "wide"], "--grid is pal, ntsc or a size"],
  [["--view", "osd", "--out", "x.svg", "--grid", "0x3"], "not “0x3”"],
  [["--view", "osd", "--out", "x.svg", "--scenario", "crash"], "not “crash”"],
  [["--view", "osd", "--out", "x.svg", "--page", "osd-second"], "lays out no osd-second page"],
  [["--view", "switches", "--out", "x.svg", "--grid", "pal"], "--grid belongs to --view osd"],
  [["--view", "switches", "--out", "x.svg", "--scenario", "low-pack"], "--scenario belongs to --view osd"],
  [["--view", "osd", "--out", "x.svg", "--theme", "blue"], "--theme is light or dark"],
  [["--view", "osd", "--out", "no/such/x.svg"], "its folder is not there"],
  [["--view", "osd", "--out", "craft/bowl.fettle/x.svg"], "it lies below a file"],
])("%j cannot run, and writes nothing", async (args, why) => {
  const { status, out, error } = await draw("craft/bowl.fettle", ...args);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(error).toContain(why);
  expect(error.trimEnd().split("\n")).toHaveLength(1);
  expect(existsSync(join(folder, "x.svg")) || existsSync(join(folder, "x.png"))).toBe(false);
});

test("a craft without an OSD or without controls says what to add", async () => {
  const bare = await folderOf({ "lid.fettle": 'craft "Lid"\n' });
  for (const [view, why] of [
    ["osd", "Nothing is placed on the OSD yet"],
    ["switches", "No handset is in use"],
    ["rates", "No rates are set"],
    ["filters", "No filters are set"],
  ] as const) {
    const io = held(bare, "");
    expect(await run(["draw", "lid.fettle", "--view", view, "--out", "lid.svg"], io)).toBe(2);
    expect(io.errorText()).toContain(why);
    expect(readdirSync(bare)).toEqual(["lid.fettle"]);
  }
});

test("as a program of its own it paints with the package beside it, and says so where that is missing", async () => {
  const program = await buildProgram();
  const args = ["draw", "craft/bowl.fettle", "--view", "osd", "--out"];
  const missing = await runProgram(program, [...args, "none.png"], { folder });
  expect(missing).toMatchObject({ status: 2, out: "" });
  expect(missing.error).toContain("@resvg/resvg-wasm is not installed; a PNG needs it: add it with");
  expect(existsSync(join(folder, "none.png"))).toBe(false);
  expect(await runProgram(program, [...args, "some.svg"], { folder })).toMatchObject({ status: 0, error: "" });

  symlinkSync(inProject("node_modules"), join(dirname(program), "node_modules"));
  expect(await runProgram(program, [...args, "some.png"], { folder })).toMatchObject({ status: 0, error: "" });
  expect(readFileSync(join(folder, "some.png")).equals(await drawnPng("same.png", "--view", "osd"))).toBe(true);
});

test("what differs on another craft, or with a layer laid over this one, is drawn into the picture and told", async () => {
  const spoon = bowl
    .replace("Bowl & <Spoon>", "Spoon")
    .replace("left+2, bottom-1", "left+9, bottom-4")
    .replace("TR is mid", "TR is down");
  writeFileSync(join(folder, "craft/spoon.fettle"), spoon);
  writeFileSync(join(folder, "narrow.fettle"), 'layer "Narrow"\n\nosd\n  pack-volts  at left, bottom\n');
  const osd = await drawn("both.svg", "--view", "osd", "--against", "craft/spoon.fettle");
  expect(osd).toContain("in the goggles, compared with Spoon, craft/spoon.fettle</title>");
  expect(osd).toContain(
    "pack-volts: there 7 columns to the right and 3 rows up, from left+2, bottom-1 to left+9, bottom-4",
  );
  expect(osd.match(/data-there="[^"]*"/g)).toEqual(['data-there="pack-volts"']);
  const switches = await drawn("both.svg", "--view", "switches", "--against", "craft/spoon.fettle");
  expect(switches).toContain("TR: down turns on level there only.");
  expect(switches.match(/class="change-mark"/g)).toHaveLength(2);
  const layer = await drawn("both.svg", "--view", "osd", "--against", "narrow.fettle");
  expect(layer).toContain("from left+2, bottom-1 to left, bottom");
});

test.each([
  [["--view", "rates", "--against", "craft/bowl.fettle"], "--against belongs to --view osd and --view switches"],
  [["--view", "osd", "--against", "gone.fettle"], "gone.fettle: there is no such file"],
  [["--view", "osd", "--against", "handsets"], "handsets is a folder: name one script in it"],
])("what cannot be compared with is refused: %j", async (args, why) => {
  const { status, error } = await draw("craft/bowl.fettle", "--out", "no.svg", ...args);
  expect({ status, error }).toEqual({ status: 2, error: expect.stringContaining(why) });
  expect(existsSync(join(folder, "no.svg"))).toBe(false);
});
