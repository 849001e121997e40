import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";

const base = 'craft "Jug"\n\npack\n  cells     6\n  capacity  1100 mAh\n  land-at   3.3 V/cell\n';
const ours = base.replace("1100", "1300");
const theirs = base.replace("3.3 V", "3.2 V");
const clashing = base.replace("1100", "1500");

async function merge(files: Readonly<Record<string, string | Uint8Array>>, args: readonly string[], input = "") {
  const folder = await folderOf(files);
  const io = held(folder, input);
  const status = await run(["merge", ...args], io);
  return { status, out: io.outText(), error: io.errorText(), folder };
}

const THREE = ["b.fettle", "o.fettle", "t.fettle"];
const files = (o: string | Uint8Array, t: string | Uint8Array, b: string | Uint8Array = base) => ({
  "b.fettle": b,
  "o.fettle": o,
  "t.fettle": t,
});

test("neighbouring entries merge to standard output, with nothing on standard error", async () => {
  const { status, out, error } = await merge(files(ours, theirs), THREE);
  expect({ status, out, error }).toEqual({ status: 0, out: ours.replace("3.3 V", "3.2 V"), error: "" });
});

test("a conflict has git's own marks, is told with its line, and gives 1", async () => {
  const { status, out, error } = await merge(files(ours, clashing), THREE);
  expect(status).toBe(1);
  expect(out.split("\n").slice(3, 10)).toEqual([
    "  cells     6",
    "<<<<<<< ours",
    "  capacity  1300 mAh",
    "=======",
    "  capacity  1500 mAh",
    ">>>>>>> theirs",
    "  land-at   3.3 V/cell",
  ]);
  expect(error).toBe("o.fettle:5: pack.capacity: changed in two ways\n");
});

test("as git calls it, it writes over one of its files, with git's labels and size of marks", async () => {
  const args = ["--out", "o.fettle", "--marker-size", "9", "--path", "craft/jug.fettle"];
  const labels = ["-L", "HEAD", "-L", "%S", "-L", "a1b2c3 (Larger pack)"];
  const { status, out, error, folder } = await merge(files(ours, clashing), [...THREE, ...args, ...labels]);
  expect([status, out]).toEqual([1, ""]);
  const written = readFileSync(`${folder}/o.fettle`, "utf8");
  expect(written).toContain("<<<<<<<<< HEAD\n  capacity  1300 mAh\n=========\n");
  expect(written).toContain(">>>>>>>>> a1b2c3 (Larger pack)\n");
  expect(error).toMatch(/^craft\/jug\.fettle:5: /);
});

test("placeholders that an older git leaves as they are count as not given", async () => {
  const labels = ["--marker-size", "%L", "-L", "%X", "-L", "%S", "-L", "%Y"];
  const { out } = await merge(files(ours, clashing), [...THREE, ...labels]);
  expect(out).toContain("<<<<<<< ours\n");
});

test("the lines of the base stand in between where one asks for it", async () => {
  const { out } = await merge(files(ours, clashing), [...THREE, "--style", "zdiff3", "-L", "a", "-L", "b", "-L", "c"]);
  expect(out).toContain(
    "<<<<<<< a\n  capacity  1300 mAh\n||||||| b\n  capacity  1100 mAh\n=======\n  capacity  1500 mAh\n>>>>>>> c\n",
  );
});

test("one of the three may come from standard input", async () => {
  const { status, out } = await merge(files(ours, theirs), ["b.fettle", "-", "t.fettle"], ours);
  expect([status, out]).toEqual([0, ours.replace("3.3 V", "3.2 V")]);
});

test("bytes that are not UTF-8 are merged line by line, and every byte comes back", async () => {
  const bytes = (text: string) => Buffer.from(text, "latin1");
  const odd = base.replace("pack", "# Töpferei\n\npack");
  const { status, out } = await merge(
    files(bytes(odd.replace('"Jug"', '"Krug"')), bytes(odd.replace("3.3 V", "3.2 V")), bytes(odd)),
    THREE,
  );
  expect([status, out]).toEqual([0, odd.replace('"Jug"', '"Krug"').replace("3.3 V", "3.2 V")]);
});

test("what is no text at all stays as ours has it, and that is a conflict", async () => {
  const { status, out, error } = await merge(files("a\0b", "a\0c", "a\0"), THREE);
  expect([status, out]).toEqual([1, "a\0b"]);
  expect(error).toContain("it is no text");
});

test.each([
  [["b.fettle", "o.fettle"], "say which three"],
  [[...THREE, "x.fettle"], "three are merged at a time"],
  [["-", "-", "t.fettle"], "standard input can be one of the three only"],
  [["b.fettle", "o.fettle", "gone.fettle"], "gone.fettle: there is no such file"],
  [[...THREE, "--marker-size", "many"], "a whole number from 1 to 999"],
  [[...THREE, "--style", "mine"], "--style is merge or diff3 or zdiff3"],
  [[...THREE, "-L", "a", "-L", "b", "-L", "c", "-L", "d"], "three labels at most"],
  [[...THREE, "--out", "no/such/folder.fettle"], "cannot be written: its folder is not there"],
])("%j cannot run, and says why", async (args, why) => {
  const { status, out, error } = await merge(files(ours, theirs), args);
  expect([status, out]).toEqual([2, ""]);
  expect(error).toContain(why);
  expect(error.trim().split("\n").length).toBe(1);
});
