import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, expect, test } from "vitest";
import type { Io } from "../../server/src/cli/io.ts";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { shed } from "./shed.ts";

let folder: string;
beforeEach(async () => {
  folder = await folderOf({ ...shed, ".fettle-root": "" });
});

async function call(args: readonly string[], input = "") {
  const io = held(folder, input);
  const status = await run(args, io);
  return { status, out: io.outText(), error: io.errorText() };
}

/** A run at a terminal, at which these lines are typed; then input ends. */
async function talk(args: readonly string[], lines: readonly string[], from = folder) {
  const io = held(from, "");
  const asked: string[] = [];
  const rest = [...lines];
  const atTerminal: Io = {
    ...io,
    converse: () => ({
      ask: async (prompt) => {
        asked.push(prompt);
        return rest.shift() ?? null;
      },
      end: () => undefined,
    }),
  };
  const status = await run(args, atTerminal);
  return { status, out: io.outText(), error: io.errorText(), asked, left: rest.length };
}

async function check(path: string, input = "", from = folder) {
  const io = held(from, input);
  const status = await run(["check", path, "--format", "json", "--strict"], io);
  return { status, findings: JSON.parse(io.outText()).findings };
}

const ANSWERS = JSON.stringify({ name: "Kiln", controls: [{ name: "TL", lies: "left shoulder" }, { kind: "dial" }] });

test("answers give a handset in which nothing is found, on standard output or in a file", async () => {
  const { status, out, error } = await call(["new", "handset", "--answers", "-"], ANSWERS);
  expect({ status, error }).toEqual({ status: 0, error: "" });
  expect(out).toContain("  TL  switch  ch5  up 1000 us  down 2000 us  lies left shoulder\n");
  expect(await check("-", out)).toEqual({ status: 0, findings: [] });
  expect(await call(["new", "handset", "--answers", "-", "--out", "kiln.fettle"], ANSWERS)).toEqual({
    status: 0,
    out: "",
    error: "",
  });
  expect(readFileSync(join(folder, "kiln.fettle"), "utf8")).toBe(out);
});

test("a file that is there stays, unless it is to be replaced", async () => {
  await call(["new", "handset", "--answers", "-", "--out", "kiln.fettle"], ANSWERS);
  const again = await call(["new", "handset", "--answers", "-", "--out", "kiln.fettle"], ANSWERS);
  expect(again).toMatchObject({
    status: 2,
    error: "fettle: kiln.fettle is there already: choose another name, or --force replaces it\n",
  });
  expect((await call(["new", "handset", "--answers", "-", "--out", "kiln.fettle", "--force"], ANSWERS)).status).toBe(0);
});

test.each([
  ["nothing to answer", ["new", "handset"], "", /nobody is there to answer/],
  ["no JSON", ["new", "handset", "--answers", "-"], "{", /standard input is no JSON/],
  [
    "a wrong answer",
    ["new", "handset", "--answers", "-"],
    '{"controls":[{"channel":3}]}',
    /control-1\.channel: Channels 1 to 4/,
  ],
  ["a word too many", ["new", "handset", "kiln"], "", /“kiln” is one word too many/],
])("%s is told in one line", async (_, args, input, expected) => {
  const { status, error } = await call(args, input);
  expect(status).toBe(2);
  expect(error).toMatch(expected);
  expect(error.trim().split("\n")).toHaveLength(1);
});

test("its help is found in both ways", async () => {
  const { out } = await call(["new", "handset", "--help"]);
  expect(out).toMatch(/^Usage: fettle new handset /);
  expect((await call(["help", "new", "handset"])).out).toBe(out);
});

test("at a terminal: numbers, words, Enter, and wrong answers asked again", async () => {
  const { status, out, error, left } = await talk(
    ["new", "handset"],
    // Name, as on none, band, power, stick mode, order, travel.
    ["Kiln", "", "868", "25", "2", "", "", ...["switch", "tl", "3", "5", "up, mid, down", "", "left shoulder"], "done"],
  );
  expect({ status, left }).toEqual({ status: 0, left: 0 });
  expect(error).toContain("Channels 1 to 4 carry the sticks");
  expect(out).toContain("  band        868 MHz\n  power       25 mW");
  expect(out).toContain("  TL  switch  ch5  up 1000 us  mid 1500 us  down 2000 us  lies left shoulder\n");
  expect(await check("-", out)).toEqual({ status: 0, findings: [] });
});

test("at the end of input there is no handset", async () => {
  const { status, out, error } = await talk(["new", "handset"], ["Kiln"]);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(error).toContain("the answers ended before the questions did: nothing is written");
});

test("from an empty folder to a craft with a handset of one's own, in one conversation", async () => {
  const empty = await folderOf({ ".fettle-root": "" });
  const craft = ["Jug", "", "", "a new handset"];
  const handset = [
    "Kiln",
    "",
    "",
    "",
    "3",
    "",
    ...["", "TL", "", "", "", ""],
    ...["switch", "TR", "", "2", "", ""],
    "done",
  ];
  const { status, error, out } = await talk(
    ["new", "--out", "jug.fettle"],
    [...craft, ...handset, "", "", "", "", ""],
    empty,
  );
  expect({ status, out }).toEqual({ status: 0, out: "" });
  expect(error).toContain("handsets/kiln.fettle is written; now the craft again.");
  const text = readFileSync(join(empty, "jug.fettle"), "utf8");
  expect(text).toContain('use "handsets/kiln.fettle"');
  expect(text).toContain("order    throttle roll pitch yaw");
  expect(text).toMatch(/arm +when TL is down/);
  expect(text).toMatch(/level +when/);
  expect(existsSync(join(empty, "handsets/kiln.fettle"))).toBe(true);
  expect(await check(".", "", empty)).toEqual({ status: 0, findings: [] });
});

test("the questions as data, those of each control apart", async () => {
  const { status, out } = await call(["new", "handset", "--questions"]);
  expect(status).toBe(0);
  const { handset, control } = JSON.parse(out) as Record<string, { id: string; choices: { word: string }[] }[]>;
  expect(handset!.map(({ id }) => id)).toEqual([
    ...["name", "as-on", "band", "power", "stick-mode", "order", "travel"],
  ]);
  expect(control!.map(({ id }) => id)).toEqual(["kind", "name", "channel", "positions", "rest", "lies", "range"]);
  expect(control![0]!.choices.map(({ word }) => word)).toContain("latched-button");
});
