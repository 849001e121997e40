/** A pilot's own catalogue and aliases on the command line: from the disk, through a whole run. */
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { glow } from "../ide/own-words/glow.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";

const lamp = JSON.stringify({ catalogue: "The lamp", settings: [glow] }, null, 2);
const mine = JSON.stringify({ aliases: { squealer: "finder", flat: "levle" } }, null, 2);
const jug = 'craft "Jug"\n\nlights\n  glow-delay  3 s\n';

async function ran(files: Record<string, string>, ...args: string[]) {
  const io = held(await folderOf({ ".git/HEAD": "ref: refs/heads/main\n", ...files }), "");
  const status = await run(args, io);
  return { status, out: io.outText(), error: io.errorText() };
}

test("settings of one's own count wherever the workspace keeps them", async () => {
  const files = { "craft/jug.fettle": jug, "words/lamp.catalogue.json": lamp };
  expect(await ran(files, "check", "craft/jug.fettle")).toEqual({
    status: 0,
    out: expect.stringContaining("nothing"),
    error: "",
  });
  expect((await ran(files, "show", "craft/jug.fettle")).out).toContain("glow-delay");
  expect((await ran(files, "explain", "belly", "lamp", "delay")).out).toContain("# lights.glow-delay");
  expect((await ran(files, "explain", "--list")).out).toContain("lights.glow-delay");
});

test("without the catalogue its setting is unknown", async () => {
  const { status, out } = await ran({ "jug.fettle": jug }, "check", "jug.fettle");
  expect(status).toBe(1);
  expect(out).toContain("unknown-name");
});

test("a faulty file is reported on standard error with its place, and the findings are still there", async () => {
  const faulty = { "jug.fettle": jug, "lamp.catalogue.json": lamp.replace('"taste"', '"teste"') };
  const { status, out, error } = await ran(faulty, "check");
  expect(status).toBe(2);
  expect(out).toContain("unknown-name");
  expect(error).toBe(
    "fettle: lamp.catalogue.json:29:15: error: settings[0].kind: This should be “hardware” or “taste” or “safety”.\n",
  );
  const broken = await ran({ "jug.fettle": jug, "lamp.catalogue.json": "{,}" }, "check", "--format", "json");
  expect(broken.status).toBe(2);
  expect(JSON.parse(broken.out).findings).toHaveLength(1);
  expect(broken.error).toContain("lamp.catalogue.json:1:2: error: The name of a member should stand here");
});

test("a command about one craft goes on with what there is", async () => {
  const { status, out, error } = await ran({ "jug.fettle": jug, "mine.aliases.json": mine }, "show", "jug.fettle");
  expect(status).toBe(0);
  expect(out).toContain("Jug");
  expect(error).toContain(
    "mine.aliases.json:4:13: error: aliases.flat: Nothing is called “levle”. Did you mean “level”?",
  );
});

test("words of one's own explain, suggest and list", async () => {
  const files = {
    "mine.aliases.json": mine.replace("levle", "level"),
    "jug.fettle": 'craft "Jug"\nmodes\n  flat when ch9 above 1500 us\n',
  };
  expect((await ran(files, "explain", "squealer")).out).toMatch(/^# finder\n/);
  expect((await ran(files, "check")).out).toContain("Did you mean “level”?");
  expect((await ran(files, "explain", "--list")).error).toBe("");
});

test.each(["node_modules/lamp/", ".cache/", "words/.old/"])("what lies in %s does not count", async (place) => {
  const files = { "jug.fettle": jug, [`${place}lamp.catalogue.json`]: lamp };
  expect(await ran(files, "check")).toMatchObject({ status: 1, error: "" });
});

test("nor does what lies outside the repository", async () => {
  const folder = await folderOf({ "shed/.git/HEAD": "", "shed/jug.fettle": jug, "lamp.catalogue.json": lamp });
  const io = held(folder, "");
  expect(await run(["check", "shed"], io)).toBe(1);
  expect(io.outText()).toContain("unknown-name");
});
