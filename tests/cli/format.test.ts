/** `fettle format`: files in place, standard input, only a look, and the text that git shows. */
import { chmodSync, mkdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";

const untidy = 'craft "Jug"\npack\n cells 6\n capacity 1100mAh\n';
const tidy = 'craft "Jug"\n\npack\n  cells     6\n  capacity  1100 mAh\n';
const newer = 'craft "Jug" edition 2\npack\n cells 6\n';
const latin = Uint8Array.from([...Buffer.from('craft "J'), 0xfc, ...Buffer.from('g"\npack\n cells 6\n')]);

async function format(folder: string, args: readonly string[], input: string | Uint8Array = "") {
  const io = held(folder, input);
  const status = await run(["format", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

function textOf(folder: string, file: string): string {
  return readFileSync(join(folder, file), "utf8");
}

test("files and folders are rewritten in place and listed; those that are laid out are not touched", async () => {
  const folder = await folderOf({
    "a.fettle": untidy,
    "craft/b.fettle": tidy,
    "craft/c.fettle": untidy,
    "note.txt": "a  \n",
  });
  const before = statSync(join(folder, "craft/b.fettle")).mtimeMs;
  expect(await format(folder, [])).toEqual({ status: 0, out: "a.fettle\ncraft/c.fettle\n", error: "" });
  expect([textOf(folder, "a.fettle"), textOf(folder, "craft/c.fettle")]).toEqual([tidy, tidy]);
  expect(statSync(join(folder, "craft/b.fettle")).mtimeMs).toBe(before);
  expect(await format(folder, ["craft", "a.fettle"])).toEqual({ status: 0, out: "", error: "" });
});

test("--check writes nothing, lists what would change, and says so by its exit status", async () => {
  const folder = await folderOf({ "a.fettle": untidy, "b.fettle": tidy });
  const { status, out, error } = await format(folder, ["--check"]);
  expect([status, out]).toEqual([1, "a.fettle\n"]);
  expect(error).toBe("fettle: 1 of 2 files would change: “fettle format” lays them out\n");
  expect(textOf(folder, "a.fettle")).toBe(untidy);
  expect(await format(folder, ["--check", "b.fettle"])).toEqual({ status: 0, out: "", error: "" });
});

test("what must not be rewritten is told, and the other files are laid out", async () => {
  const folder = await folderOf({
    "a.fettle": newer,
    "b.fettle": latin,
    "c.fettle": untidy,
    "d.fettle": "craft\0",
    "e.md": "x  \n",
  });
  const { status, out, error } = await format(folder, [".", "e.md", "f.fettle"]);
  expect([status, out]).toEqual([2, "c.fettle\n"]);
  expect(error.split("\n")).toEqual([
    "fettle: f.fettle: there is no such file",
    "fettle: a.fettle: it is written in a newer edition of the language than this tool reads, so it is not rewritten: update the tool",
    "fettle: b.fettle: it holds bytes that are no UTF-8 text, so it is not rewritten: save it as UTF-8 first",
    "fettle: d.fettle: it holds bytes that no text has, so it is not rewritten: it is no script",
    "fettle: e.md: its name does not end in .fettle, so it is not rewritten: give it to “fettle format -” on standard input",
    "",
  ]);
  expect(readFileSync(join(folder, "b.fettle"))).toEqual(Buffer.from(latin));
  expect([textOf(folder, "a.fettle"), textOf(folder, "d.fettle"), textOf(folder, "e.md")]).toEqual([
    newer,
    "craft\0",
    "x  \n",
  ]);
});

test("line ends stay; of mixed ones it is told which are written", async () => {
  const folder = await folderOf({
    "a.fettle": untidy.replaceAll("\n", "\r\n"),
    "b.fettle": untidy.replace("\n", "\r\n"),
  });
  const { out, error } = await format(folder, []);
  expect(out).toBe("a.fettle\nb.fettle\n");
  expect(error).toBe("fettle: b.fettle: its lines end in several ways; the most frequent one is LF\n");
  expect(textOf(folder, "a.fettle")).toBe(tidy.replaceAll("\n", "\r\n"));
  expect(textOf(folder, "b.fettle")).toBe(tidy);
});

test("a file keeps its rights, and a link stays a link", async () => {
  const folder = await folderOf({ "a.fettle": untidy });
  chmodSync(join(folder, "a.fettle"), 0o640);
  mkdirSync(join(folder, "links"));
  symlinkSync("../a.fettle", join(folder, "links/b.fettle"));
  expect((await format(folder, ["links/b.fettle"])).out).toBe("a.fettle\n");
  expect(statSync(join(folder, "a.fettle")).mode & 0o777).toBe(0o640);
  expect(textOf(folder, "links/b.fettle")).toBe(tidy);
});

test("standard input is laid out to standard output; what cannot be is given back, with the reason", async () => {
  const folder = await folderOf({});
  expect(await format(folder, ["-"], untidy)).toEqual({ status: 0, out: tidy, error: "" });
  expect(await format(folder, ["-", "--check"], untidy)).toEqual({ status: 1, out: "-\n", error: "" });
  expect(await format(folder, ["-", "--check"], tidy)).toEqual({ status: 0, out: "", error: "" });
  const { status, out, error } = await format(folder, ["-"], newer);
  expect([status, out]).toEqual([2, newer]);
  expect(error).toMatch(/^fettle: -: it is written in a newer edition/);
  expect((await format(folder, ["-"], latin)).out).toBe(Buffer.from(latin).toString("latin1"));
});

test("--print writes whatever the file holds, laid out where that is possible, and changes nothing", async () => {
  const large = `craft "Jug"\n# ${"x".repeat(1_100_000)}\n`;
  const folder = await folderOf({
    "a.fettle": untidy,
    "b.fettle": newer,
    "c.fettle": latin,
    "d.fettle": large,
    "git-blob": untidy,
  });
  expect(await format(folder, ["--print", "a.fettle"])).toEqual({ status: 0, out: tidy, error: "" });
  expect(await format(folder, ["--print", "git-blob"])).toEqual({ status: 0, out: tidy, error: "" });
  expect(await format(folder, ["--print", "b.fettle"])).toEqual({ status: 0, out: newer, error: "" });
  expect((await format(folder, ["--print", "c.fettle"])).out).toBe(Buffer.from(latin).toString("latin1"));
  expect((await format(folder, ["--print", "d.fettle"])).out).toBe(large);
  expect(textOf(folder, "a.fettle")).toBe(untidy);
  expect((await format(folder, ["--print", "no.fettle"])).error).toBe("fettle: no.fettle: there is no such file\n");
});

test("settings of one's own are known, also of a copy that git has made elsewhere", async () => {
  const script = 'craft "Jug"\n\nlights\n  belly-delay   5s\n';
  const laid = 'craft "Jug"\n\nlights\n  belly-delay  5 s\n';
  const folder = await folderOf({
    "own.catalogue.json": readFileSync("examples/words/kiln-lamp.catalogue.json"),
    "a.fettle": script,
  });
  writeFileSync(join(folder, ".fettle-root"), "");
  const elsewhere = await folderOf({ "copy.fettle": script });
  expect(await format(folder, ["--print", join(elsewhere, "copy.fettle")])).toMatchObject({ status: 0, out: laid });
  expect(await format(folder, ["--print", "a.fettle"])).toMatchObject({ status: 0, out: laid });
});

test.each([
  [["--check", "--print", "a.fettle"], "--check and --print do not go together"],
  [["--print"], "--print is followed by one file"],
  [["--print", "a", "b"], "--print is followed by one file"],
  [["-", "a.fettle"], "“-” stands alone"],
  [["--chekc"], "there is no option --chekc: did you mean --check?"],
])("arguments that make no sense: %j", async (args, reason) => {
  const { status, error } = await format(await folderOf({ "a.fettle": tidy }), args);
  expect(status).toBe(2);
  expect(error).toContain(reason);
});
