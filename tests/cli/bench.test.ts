/** `fettle bench`: what it prints and writes, and what is due by a real repository. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import type { BenchList } from "../../shared/protocol/bench.ts";
import { BENCH_CHECKS } from "../../shared/rules/lib/bench-checks.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { makeRepository } from "./repository.ts";
import { wheel } from "./shed.ts";

const DAYS = BENCH_CHECKS.map(({ name }) => `  ${name.slice("bench.".length)}  2026-02-01\n`).join("");

const jug = `craft "Jug"

use "handsets/wheel.fettle"
use "layers/habits.fettle"

sensors
  mount-yaw  90 deg
  compass    yes

finder
  motors  yes

recorder
  to  card

osd
  grid        pal
  pack-volts  at left+2, bottom-1

navigation
  return-height  40 m

modes
  arm          when TL is down
  return-home  when TR is down
`;

const habits = `layer "Habits"

safety
  arm-tilt-limit  30 deg

failsafe
  then  stop
`;

/** What was read on the same day. */
const READ = ["roll", "pitch", "throttle", "yaw"].map((name) => `  ${name}  1000 us to 2000 us\n`).join("");

const FILES = {
  "craft/jug.fettle": `${jug.replaceAll('"handsets', '"../handsets').replaceAll('"layers', '"../layers')}\nbench\n${DAYS}${READ}  pack-volts-read  16 V\n  pack-volts-shown  16 V\n`,
  "handsets/wheel.fettle": wheel,
  "layers/habits.fettle": habits,
};

async function bench(folder: string, args: readonly string[], input = "") {
  const io = held(folder, input);
  const status = await run(["bench", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

async function listed(folder: string, ...args: string[]): Promise<BenchList> {
  const { out, error, status } = await bench(folder, [...args, "--format", "json"]);
  expect([status, error]).toEqual([0, ""]);
  return JSON.parse(out) as BenchList;
}

const stepsOf = ({ phases }: BenchList) => phases.flatMap(({ steps }) => steps);
const dueIn = (list: BenchList) => list.checks.filter(({ due }) => due.state === "due").map(({ name }) => name);

test("after a change of what one check covers that one is due, and the list holds it and what comes before it", async () => {
  const repository = makeRepository(FILES);
  repository.git("commit", "-q", "--allow-empty", "-m", "nothing");
  const { folder } = repository;
  expect(dueIn(await listed(folder, "craft/jug.fettle"))).toEqual([]);
  expect(stepsOf(await listed(folder, "craft/jug.fettle", "--due"))).toEqual([]);
  expect((await bench(folder, ["craft/jug.fettle", "--due"])).out).toContain("Nothing is due.");

  const turned = FILES["craft/jug.fettle"].replace("mount-yaw  90 deg", "mount-yaw  0 deg");
  repository.write({ "craft/jug.fettle": turned });
  const list = await listed(folder, "craft/jug.fettle", "--due");
  expect(dueIn(list)).toEqual(["bench.mount-checked"]);
  expect(stepsOf(list).map(({ id }) => id)).toEqual([
    "unpowered.propellers",
    "unpowered.antennas",
    "mount.tilt",
    "mount.compass",
  ]);
  expect(list.checks.find(({ name }) => name === "bench.mount-checked")).toMatchObject({
    due: {
      state: "due",
      why: "Done on 2026-02-01; since then what it covers has changed: sensors.mount-yaw from 90 deg to 0 deg (not committed yet).",
    },
    at: { file: "craft/jug.fettle" },
  });

  repository.commit({ "craft/jug.fettle": turned.replace("mount-checked  2026-02-01", "mount-checked  2027-02-02") });
  expect(dueIn(await listed(folder, "craft/jug.fettle"))).toEqual([]);
});

test.each([
  ["a layer", "layers/habits.fettle", "30 deg", "45 deg", ["bench.arming-checked"]],
  ["the handset", "handsets/wheel.fettle", "ch5", "ch8", ["bench.switches-checked", "bench.arming-checked"]],
  ["the craft", "craft/jug.fettle", "TR is down", "TR is mid", ["bench.switches-checked", "bench.home-checked"]],
  ["an element", "craft/jug.fettle", "left+2", "left+3", ["bench.picture-checked"]],
  ["a note", "craft/jug.fettle", "finder\n", "# loud\nfinder\n", []],
])("what is due after a change in %s", async (_, file, from, to, expected) => {
  const repository = makeRepository(FILES);
  const text = FILES[file as keyof typeof FILES];
  expect(text).toContain(from);
  repository.commit({ [file]: text.replace(from, to) }, "Changed");
  expect(dueIn(await listed(repository.folder, "craft/jug.fettle")).sort()).toEqual([...expected].sort());
});

test("where the board was flashed since, its checks are due, and those that rest on no software are not", async () => {
  const folder = await folderOf({
    ...FILES,
    "craft/jug.fettle": `${FILES["craft/jug.fettle"]}\nboard\n  flashed-on  2026-03-01\n`,
  });
  const list = await listed(folder, "craft/jug.fettle");
  const kept = list.checks.filter(({ due }) => due.state === "done").map(({ name }) => name);
  expect(kept).toEqual(BENCH_CHECKS.filter(({ restsOnSoftware }) => !restsOnSoftware).map(({ name }) => name));
  expect(list.checks.find(({ name }) => name === "bench.motors-checked")!.due).toEqual({
    state: "due",
    why: "Done on 2026-02-01; since then the board was flashed on 2026-03-01.",
  });
});

test("a craft on which nothing was ever checked has its whole list before it, due or not", async () => {
  const folder = await folderOf({ "jug.fettle": jug, "handsets/wheel.fettle": wheel, "layers/habits.fettle": habits });
  const whole = await bench(folder, ["jug.fettle"]);
  expect((await bench(folder, ["jug.fettle", "--due"])).out).toBe(whole.out);
  expect(whole.out).not.toContain("No line says that it was ever done");
  expect(whole.out).toMatch(/^Bench list: Jug\njug\.fettle\n\n! Propellers OFF: /);
  // Wherever a line can be broken, it is.
  expect(Math.max(...whole.out.split("\n").map((line) => line.length))).toBeLessThan(100);
});

test("Markdown and a page to print are written whole, and named by their end", async () => {
  const folder = await folderOf({ "jug.fettle": jug, "handsets/wheel.fettle": wheel, "layers/habits.fettle": habits });
  expect(await bench(folder, ["jug.fettle", "--out", "list.md"])).toEqual({ status: 0, out: "", error: "" });
  const markdown = readFileSync(join(folder, "list.md"), "utf8");
  expect(markdown).toMatch(/^# Bench list: Jug\n\njug\.fettle\n\n\*\*Propellers OFF: /);
  expect((await bench(folder, ["jug.fettle", "--format", "markdown"])).out).toBe(markdown);
  expect(await bench(folder, ["jug.fettle", "--out", "list.html"])).toEqual({ status: 0, out: "", error: "" });
  const page = readFileSync(join(folder, "list.html"), "utf8");
  expect(page).toMatch(/^<!doctype html>/i);
  const steps = stepsOf(await listed(folder, "jug.fettle"));
  expect(steps.length).toBeGreaterThan(30);
  expect(markdown.match(/^- \[ \]/gm)).toHaveLength(steps.length);
  expect(
    readdirSync(folder)
      .filter((name) => /list/.test(name))
      .sort(),
  ).toEqual(["list.html", "list.md"]);
  expect((await bench(folder, ["jug.fettle", "--out", "list.txt", "--format", "text"])).status).toBe(0);
  expect(readFileSync(join(folder, "list.txt"), "utf8")).toMatch(/^Bench list: Jug\n/);
});

test("from standard input, with another handset, and with paths as they are asked for", async () => {
  const folder = await folderOf({ "handsets/wheel.fettle": wheel, "layers/habits.fettle": habits });
  const { out } = await bench(folder, ["-", "--format", "json"], jug);
  const list = JSON.parse(out) as BenchList;
  expect([list.craft, list.file]).toEqual(["Jug", "-"]);
  const files = stepsOf(list).flatMap(({ from }) => from.map(({ file }) => file));
  expect([...new Set(files)].sort()).toEqual(["-", "handsets/wheel.fettle", "layers/habits.fettle"]);
  const other =
    'handset "Other"\n\ncontrols\n  TL  switch  ch7  up 1000 us  down 2000 us\n  TR  switch  ch8  up 1000 us  mid 1500 us  down 2000 us\n';
  const there = await folderOf({ "other.fettle": other });
  const another = await bench(folder, ["-", "--handset", join(there, "other.fettle")], jug);
  expect([another.status, another.error]).toEqual([0, ""]);
});

test.each([
  [["layers/habits.fettle"], "is a layer, and a craft is expected here"],
  [["none.fettle"], "none.fettle: there is no such file"],
  [[], "say which craft"],
  [["jug.fettle", "--out", "list.pdf"], "name a file that ends in .html or .md, not “list.pdf”"],
  [["jug.fettle", "--out", "list.html", "--format", "json"], "--format json does not go into “list.html”"],
  [["jug.fettle", "--out", "gone/list.md"], "gone/list.md cannot be written: its folder is not there"],
  [["jug.fettle", "--format", "pdf"], "--format is text or json or markdown, not “pdf”"],
  [["jug.fettle", "--dew"], "there is no option --dew"],
])("what cannot be done is said in a line: %j", async (args, words) => {
  const folder = await folderOf({ "jug.fettle": jug, "handsets/wheel.fettle": wheel, "layers/habits.fettle": habits });
  const { status, out, error } = await bench(folder, args);
  expect([status, out]).toEqual([2, ""]);
  expect(error).toContain(words);
  expect(error.trim().split("\n")).toHaveLength(1);
  expect(existsSync(join(folder, "gone"))).toBe(false);
});

test("names that would be markup, break a line or turn the writing are shown as they are", async () => {
  const name = "Jug\u202e <b>*bold*</b> [x](y)";
  const folder = await folderOf({
    "jug.fettle": `${jug.replace('craft "Jug"', `craft "${name}"`)}\npack\n  cells  6\n\npack "<i>\u2066_a_"\n  cells  4\n`,
    "handsets/wheel.fettle": wheel,
    "layers/habits.fettle": habits,
  });
  const { out } = await bench(folder, ["jug.fettle", "--format", "markdown"]);
  expect(out).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
  expect(out).toContain("\\<b\\>\\*bold\\*\\</b\\> \\[x\\](y)");
  expect(out).not.toContain("<i>");
  await bench(folder, ["jug.fettle", "--out", "list.html"]);
  expect(readFileSync(join(folder, "list.html"), "utf8")).not.toMatch(/<b>\*bold|<i>|[\u202a-\u202e]/);
});

test("after a wipe the list begins with what is kept and put back, by the board's lines and by hand, and writes nothing into the script", async () => {
  const { folder } = makeRepository({ ...FILES, "craft/kiln.fettle": KILN });
  const before = readFileSync(join(folder, "craft/jug.fettle"), "utf8");
  const wiped = ["craft/jug.fettle", "--wiped", "--flashed", "2026-03-01"];
  const list = await listed(folder, ...wiped, "--dialect", "craft/kiln.fettle");
  expect(list.putBack).toEqual({ day: "2026-03-01", dialect: "Kiln" });
  expect(list.phases.map(({ name }) => name).slice(0, 3)).toEqual([
    "put-back-before",
    "put-back-flash",
    "put-back-receiver",
  ]);
  const sent = stepsOf(list).find(({ id }) => id === "put-back.sensors.lines");
  expect(sent?.lines).toEqual(["base turned 90"]);
  expect(dueIn(list)).toEqual(BENCH_CHECKS.flatMap(({ name, restsOnSoftware }) => (restsOnSoftware ? [name] : [])));
  const { out } = await bench(folder, wiped);
  expect(out).toContain(
    "Set what the script says in section “sensors”, where the board has it.\n      mount-yaw 90 deg; compass yes.",
  );
  await bench(folder, [...wiped, "--out", "jug.html"]);
  await bench(folder, [...wiped, "--out", "jug.md"]);
  expect(readFileSync(join(folder, "jug.html"), "utf8")).toContain("Put it back after a wipe");
  expect(readFileSync(join(folder, "jug.md"), "utf8")).toMatch(/^# Put it back after a wipe: Jug\n/);
  expect(readFileSync(join(folder, "craft/jug.fettle"), "utf8")).toBe(before);
});

test("what does not go together with a wipe is told", async () => {
  const { folder } = makeRepository(FILES);
  const told = async (...args: string[]) => (await bench(folder, ["craft/jug.fettle", ...args])).error;
  expect(await told("--wiped", "--due")).toContain("leave out --due");
  expect(await told("--flashed", "2026-03-01")).toContain("--flashed goes with --wiped");
  expect(await told("--wiped", "--flashed", "2026-02-30")).toContain("“2026-02-30” is none");
  expect(await told("--wiped", "--dialect", "layers/habits.fettle")).toContain("a dialect is expected here");
});

const KILN = 'dialect "Kiln"\n\nsensors\n  "base turned {y:0 to 359}"  mount-yaw {y} deg\n';
