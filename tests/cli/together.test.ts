/** `fettle check --together`: which arguments it takes, what it says, what is refused; with `--since` and `--staged` as well. */
import { mkdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { makeRepository } from "./repository.ts";

const craft = (name: string, frequency: string, more = "") =>
  `craft "${name}"\n\n${more}video\n  signal     analogue\n  frequency  ${frequency}\n`;
const files = {
  "craft/jug.fettle": craft("Jug", "5806 MHz"),
  "craft/saucer.fettle": craft("Saucer", "5810 MHz"),
  "craft/cup.fettle": craft("Cup", "5658 MHz"),
  "craft/bowl.fettle": 'craft "Bowl"\n\nuse "../layers/goggles.fettle"\n',
  "layers/goggles.fettle": 'layer "Goggles"\n\nvideo\n  signal     analogue\n  frequency  5806 MHz\n',
  "newer.fettle": 'craft "Newer" edition 9\n',
  "empty.fettle": "",
};

let folder: string;
beforeAll(async () => {
  folder = await folderOf(files);
  symlinkSync(join(folder, "craft/jug.fettle"), join(folder, "craft/other-jug.fettle"));
});

async function checkIn(from: string, args: readonly string[], input = "") {
  const io = held(from, input);
  const status = await run(["check", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

/** `file message` of each finding about pictures. */
async function disturbed(from: string, ...args: string[]): Promise<string[]> {
  const { out, error } = await checkIn(from, ["--format", "json", ...args]);
  expect(error).toBe("");
  const { findings } = JSON.parse(out) as { findings: { code: string; file: string }[] };
  return findings.filter(({ code }) => code === "fleet-video").map(({ file }) => file);
}

const BOTH = ["craft/jug.fettle", "craft/saucer.fettle"];

describe("who is named", () => {
  test.each([
    ["nobody", "craft", []],
    ["two, up to the end", "craft --together craft/jug.fettle craft/saucer.fettle", BOTH],
    ["two, up to the next option", "--together craft/jug.fettle craft/saucer.fettle --strict craft", BOTH],
    ["two, each by itself", "craft --together craft/jug.fettle --together craft/saucer.fettle", BOTH],
    ["the first with a sign of equality", "craft --together=craft/jug.fettle craft/saucer.fettle", BOTH],
    ["without other paths these are checked", "--together craft/jug.fettle craft/saucer.fettle", BOTH],
    [
      "what comes after two dashes is checked",
      "--together craft/jug.fettle craft/saucer.fettle -- craft/cup.fettle",
      [],
    ],
    [
      "what is not checked is read all the same",
      "craft/jug.fettle --together craft/jug.fettle craft/saucer.fettle",
      [BOTH[0]],
    ],
    ["what is checked and not named is left alone", "craft --together craft/jug.fettle craft/cup.fettle", []],
    ["one alone", "craft --together craft/jug.fettle", []],
    ["one twice", "craft --together craft/jug.fettle ./craft/jug.fettle", []],
    ["one, and a link to it", "craft --together craft/jug.fettle craft/other-jug.fettle", []],
    ["one whose layer says it", "craft --together craft/jug.fettle craft/bowl.fettle", ["craft/bowl.fettle", BOTH[0]]],
  ])("%s", async (_, args, expected) => {
    expect(await disturbed(folder, ...args.split(" "))).toEqual(expected);
  });

  test("from another folder, each among its own files", async () => {
    const far = await folderOf({ "craft/saucer.fettle": files["craft/saucer.fettle"] });
    mkdirSync(join(far, ".git"));
    const [jug, saucer] = [join(folder, "craft/jug.fettle"), join(far, "craft/saucer.fettle")];
    expect(await disturbed(far, "--together", jug, saucer)).toHaveLength(2);
  });

  test("the craft of standard input", async () => {
    const args = ["-", "--together", "-", "craft/saucer.fettle", "--format", "json"];
    const { out } = await checkIn(folder, args, craft("Plate", "5800 MHz"));
    expect(out).toContain("“Saucer” at 5810 MHz");
  });
});

describe("the answer", () => {
  test("is a warning on the frequency, with the other line and what to do", async () => {
    const { status, out } = await checkIn(folder, ["--together", ...BOTH]);
    expect(status).toBe(0);
    expect(out).toContain("craft/saucer.fettle:5:14");
    expect(out).toContain("Move this craft to 5843 MHz, and nothing is left in the way.");
    expect((await checkIn(folder, ["--together", ...BOTH, "--strict"])).status).toBe(1);
    const { out: json } = await checkIn(folder, [BOTH[0]!, "--together", ...BOTH, "--format", "json"]);
    expect(JSON.parse(json).findings[0]).toMatchObject({
      range: { start: { line: 4, character: 13 }, end: { line: 4, character: 21 } },
      related: [{ message: "“Saucer” sends here", file: BOTH[1], range: { start: { line: 4, character: 13 } } }],
    });
  });

  test.each([
    ["craft/gone.fettle", "fettle: --together: craft/gone.fettle: there is no such file\n"],
    ["craft", "fettle: --together: craft is a folder: name the craft in it\n"],
    [
      "layers/goggles.fettle",
      "fettle: --together: layers/goggles.fettle is a layer, and a craft is expected here: name a craft that uses it\n",
    ],
    ["empty.fettle", 'fettle: --together: empty.fettle is no craft: its first line should be: craft "NAME"\n'],
    [
      "newer.fettle",
      "fettle: --together: newer.fettle is written in a newer edition of the language than this program knows\n",
    ],
    ["--strict", "fettle: --together needs a value after it\n"],
  ])("%s is refused in one line", async (path, error) => {
    const answer = await checkIn(folder, ["craft", "--together", path, BOTH[0]!]);
    expect(answer).toEqual({ status: 2, out: "", error });
  });
});

describe("what a change brought", () => {
  test("a channel that was changed since, in the working tree and staged", async () => {
    const { folder: top, write, git } = makeRepository({ ...files, [BOTH[1]!]: craft("Saucer", "5769 MHz") });
    const together = ["--together", ...BOTH];
    expect(await disturbed(top, ...together, "--since", "HEAD")).toEqual([]);
    write({ [BOTH[1]!]: craft("Saucer", "5800 MHz") });
    expect(await disturbed(top, ...together)).toEqual(BOTH);
    expect(await disturbed(top, ...together, "--since", "HEAD")).toEqual(BOTH);
    expect(await disturbed(top, ...together, "--staged")).toEqual([]);
    git("add", "-A");
    expect(await disturbed(top, ...together, "--staged")).toEqual(BOTH);
    git("commit", "-q", "-m", "swapped");
    // What was there already is not new, though it is still found.
    write({ [BOTH[0]!]: `# moved\n${files["craft/jug.fettle"]}` });
    expect(await disturbed(top, ...together)).toEqual(BOTH);
    expect(await disturbed(top, ...together, "--since", "HEAD")).toEqual([]);
  });
});
