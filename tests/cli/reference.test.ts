/** `fettle reference`: the files on the disk, and what is refused. */
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { glow } from "../ide/own-words/glow.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";

test("with the words of a folder it writes the site and the Markdown, and leaves other files alone", async () => {
  const lamp = JSON.stringify({ catalogue: "The lamp", settings: [glow] });
  const folder = await folderOf({ ".git/HEAD": "", "lamp.catalogue.json": lamp, "out/mine.txt": "mine" });
  const io = held(folder, "");
  expect(await run(["reference", "--out", "out", "--words", "."], io)).toBe(0);
  expect(io.errorText()).toBe("");
  expect(io.outText()).toMatch(/^\d+ files written: open out.index\.html in a browser\n$/);
  const site = readFileSync(join(folder, "out/index.html"), "utf8");
  expect(site).toContain("lights.glow-delay");
  expect(readFileSync(join(folder, "out/markdown/sections/lights.md"), "utf8")).toContain("## lights.glow-delay");
  expect(readFileSync(join(folder, "out/mine.txt"), "utf8")).toBe("mine");
  await run(["reference", "--out", "out", "--words", "."], held(folder, ""));
  expect(readFileSync(join(folder, "out/index.html"), "utf8")).toBe(site);
  expect(statSync(join(folder, "out/index.html")).size).toBeLessThan(2_000_000);
});

test("without a word of more it tells of what ships, also in a repository that has words of its own", async () => {
  const lamp = JSON.stringify({ catalogue: "The lamp", settings: [glow] });
  const folder = await folderOf({ ".git/HEAD": "", "lamp.catalogue.json": lamp, "lamp/lamp.catalogue.json": "{" });
  const io = held(folder, "");
  expect(await run(["reference", "--out", "out"], io)).toBe(0);
  expect(io.errorText()).toBe("");
  expect(readFileSync(join(folder, "out/index.html"), "utf8")).not.toContain("glow-delay");
});

test.each([
  [["reference"], "say where the reference goes"],
  [["reference", "here"], "say where the reference goes"],
  [["reference", "--out", "out", "more"], "takes no path"],
  [["reference", "--out", "file"], "cannot be written"],
  [["reference", "--out", "out", "--words", "file"], "is no folder"],
  [["reference", "--out", "out", "--words", "nowhere"], "is no folder"],
])("%j is refused in one line", async (args, message) => {
  const io = held(await folderOf({ file: "no folder" }), "");
  expect(await run(args, io)).toBe(2);
  expect(io.outText()).toBe("");
  expect(io.errorText()).toMatch(/^fettle: [^\n]+\n$/);
  expect(io.errorText()).toContain(message);
});
