/** The three boards of the shed: their texts are read as the scripts beside them, and look like nobody's. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { run } from "../../server/src/cli/run.ts";
import { held } from "../cli/held.ts";

const folder = inProject("examples");
const textOf = (path: string) => readFileSync(`${folder}/${path}`, "utf8");

/** With the handset of the craft that flies it. */
const BOARDS = [
  ["ebb-second", "wheel"],
  ["ebb-third", "wheel"],
  ["loom", "bellows"],
] as const;

async function read(board: string, handset: string, ...more: string[]) {
  const io = held(`${folder}/boards/read`, "");
  const args = ["--dialect", `../${board}.fettle`, "--handset", `../../handsets/${handset}.fettle`, `../${board}.txt`];
  expect(await run(["board", "read", ...args, ...more], io)).toBe(0);
  return io.outText();
}

describe.each(BOARDS)("%s", (board, handset) => {
  test("its text has a hundred and fifty lines or more", () => {
    expect(textOf(`boards/${board}.txt`).split("\n").length).toBeGreaterThanOrEqual(151);
  });

  test("its text is read as the script that lies beside it", async () => {
    expect(await read(board, handset)).toBe(textOf(`boards/read/${board}.fettle`));
  });

  test("every line has a state, most are understood, and some are not", async () => {
    const { lines } = JSON.parse(await read(board, handset, "--format", "json")) as { lines: { state: string }[] };
    const count = (state: string) => lines.filter((each) => each.state === state).length;
    // What follows the last line end is no line.
    expect(lines.length).toBe(textOf(`boards/${board}.txt`).trimEnd().split("\n").length);
    expect(count("read")).toBeGreaterThan(70);
    expect(count("kept")).toBeGreaterThan(30);
    expect(count("odd")).toBeGreaterThan(0);
  });

  test("written onto its own text, what was read of it changes nothing", async () => {
    const io = held(folder, "");
    const files = ["--dialect", `boards/${board}.fettle`, "--base", `boards/${board}.txt`];
    expect(await run(["board", "write", `boards/read/${board}.fettle`, ...files, "--format", "json"], io)).toBe(0);
    const report = JSON.parse(io.outText());
    expect(report.text).toBe(textOf(`boards/${board}.txt`));
    expect(report).toMatchObject({ changes: "", rounded: [], unsaid: [], onlyBase: [], byHand: [], cannot: [] });
  });

  // The classes of lines that texts of settings have anywhere: what stands here is none of them.
  test.each([
    ["an assignment", /^\s*[\w.$[\]-]+\s*(=|:=|\+=)/],
    ["a verb of a shell with a name and a value", /^\s*(set|get|unset|let|def|define|export|config|param|option)\b/i],
    ["a switch for a named part", /^\s*(enable|disable|feature|use|with|no|turn)\s+-?\w+$/i],
    ["a heading in brackets", /^\s*\[.*\]\s*$/],
    ["a name, a colon and a value", /^\s*[\w-]+\s*:\s*\S/],
    ["a name in capitals and a number", /^\s*[A-Z][A-Z0-9_]{2,}[\s,=:;\t]+-?[\d.]+\s*$/],
    ["names with commas or tabs between", /^\s*[\w.-]+[,;\t][\w.-]+([,;\t]|$)/],
    ["a word and a row of three or more bare numbers", /^\s*\w+(\s+-?\d+(\.\d+)?){3,}\s*$/],
    ["a row of bare numbers", /^\s*-?\d+(\.\d+)?(\s+-?\d+(\.\d+)?)+\s*$/],
    ["a record of hexadecimal digits", /^\s*[:S$]?[0-9A-F]{8,}\s*$/],
    ["a tag or a brace", /[<>{}]\s*$|^\s*<\w/],
    ["a call", /^\s*\w+\(.*\)\s*;?$/],
    ["a path of names with dots or slashes", /^\s*\/?\w+([./]\w+){2,}\b/],
    ["a comment of the usual kinds", /^\s*(#|\/\/|--|%|rem\b)/i],
  ])("no line of it is %s", (_, like) => {
    expect(
      textOf(`boards/${board}.txt`)
        .split("\n")
        .filter((line) => like.test(line)),
    ).toEqual([]);
  });
});
