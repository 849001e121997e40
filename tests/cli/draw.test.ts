import { existsSync, mkdirSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
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

test.each([
  [["--out", "x.svg"], "say what to draw: --view osd or --view switches"],
  [["--view", "rates", "--out", "x.svg"], "--view is osd or switches, not “rates”"],
  [["--view", "osd"], "say where the drawing goes: --out FILE.svg"],
  [["--view", "osd", "--out", "x.png"], "name a file that ends in .svg, not “x.png”"],
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
  ] as const) {
    const io = held(bare, "");
    expect(await run(["draw", "lid.fettle", "--view", view, "--out", "lid.svg"], io)).toBe(2);
    expect(io.errorText()).toContain(why);
    expect(readdirSync(bare)).toEqual(["lid.fettle"]);
  }
});
