import { chmodSync, mkdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { buildProgram, folderOf, type Outcome, runProgram } from "./program.ts";
import { cup, jug, shed, wheel } from "./shed.ts";

let program: string;
let folder: string;
beforeAll(async () => {
  program = await buildProgram();
  folder = await folderOf(shed);
}, 60_000);

const check = (...args: string[]): Promise<Outcome> => runProgram(program, ["check", ...args], { folder });
const problems = (outcome: Outcome) =>
  (JSON.parse(outcome.out) as { findings: { code: string; file: string }[] }).findings;

test("json holds its fixed names and no others, sorted by file and place", async () => {
  const { status, out, error } = await check("--format", "json");
  expect(error).toBe("");
  expect(status).toBe(1);
  expect(JSON.parse(out)).toEqual({
    findings: [
      {
        code: "duplicate-entry",
        severity: "warning",
        message: expect.stringContaining("line 6"),
        file: "craft/cup.fettle",
        range: { start: { line: 6, character: 2 }, end: { line: 6, character: 7 } },
        related: [
          {
            message: expect.any(String),
            file: "craft/cup.fettle",
            range: { start: { line: 5, character: 2 }, end: { line: 5, character: 7 } },
          },
        ],
      },
      {
        code: "band-mismatch",
        severity: "error",
        message: expect.stringContaining("868 MHz"),
        file: "craft/cup.fettle",
        range: { start: { line: 9, character: 8 }, end: { line: 9, character: 15 } },
        related: [
          {
            message: expect.any(String),
            file: "handsets/wheel.fettle",
            range: { start: { line: 3, character: 8 }, end: { line: 3, character: 15 } },
          },
        ],
      },
    ],
    summary: { files: 3, errors: 1, warnings: 1, infos: 0, hints: 0 },
  });
});

test("text has a line for each finding, counted from 1, and a line that counts them", async () => {
  const { out } = await check("craft/cup.fettle");
  const [first, second, blank, summary, end] = out.split("\n");
  expect(first).toMatch(/^craft\/cup\.fettle:7:3 {3}warning {2}duplicate-entry {2}cells is set already/);
  expect(second).toMatch(/^craft\/cup\.fettle:10:9 {2}error {4}band-mismatch {4}The receiver/);
  expect([blank, summary, end]).toEqual(["", "1 file: 1 error, 1 warning", ""]);
  // Not a terminal, so no colour.
  expect(out).not.toContain("\u001b");
});

test("nothing found is status 0, and said", async () => {
  expect(await check("craft/jug.fettle")).toEqual({ status: 0, out: "1 file: nothing found\n", error: "" });
});

test("a warning alone is status 0, and with --strict 1", async () => {
  const input = 'craft "Mug"\n\npack\n  cells  4\n  cells  6\n';
  const run = (...args: string[]) => runProgram(program, ["check", "-", ...args], { folder, input });
  expect((await run()).status).toBe(0);
  expect((await run("--strict")).status).toBe(1);
});

test("several paths are checked each once, whichever way they are named", async () => {
  const { out } = await check("craft", "craft/jug.fettle", "./craft/../craft/cup.fettle", "--format", "json");
  expect(JSON.parse(out).summary.files).toBe(2);
});

test("files are named from the working folder with /, and in full outside it", async () => {
  const inside = await runProgram(program, ["check", "../craft", "--format", "json"], {
    folder: join(folder, "craft"),
  });
  expect(problems(inside).map(({ file }) => file)).toEqual(["cup.fettle", "cup.fettle"]);
  const outside = await runProgram(program, ["check", "../craft/cup.fettle", "--format", "json"], {
    folder: join(folder, "handsets"),
  });
  expect(problems(outside)[0]?.file).toBe(`${folder}/craft/cup.fettle`);
});

test("standard input is a file of the working folder, called -", async () => {
  const outcome = await runProgram(program, ["check", "-", "--format", "json"], {
    folder: join(folder, "craft"),
    input: cup,
  });
  expect(outcome.status).toBe(1);
  expect(problems(outcome).map(({ code, file }) => [code, file])).toEqual([
    ["duplicate-entry", "-"],
    ["band-mismatch", "-"],
  ]);
});

test("a handset that stands in with errors of its own leaves no false all-clear", async () => {
  const other = await folderOf({
    "odd.fettle": 'handset "Odd"\n\ncontrols\n  TL  swich  ch5  up 1000 us  down 2000 us\n',
    "lid.fettle": 'craft "Lid"\n\nmodes\n  arm when TL is down\n\nfailsafe\n  then stop\n',
  });
  const outcome = await runProgram(program, ["check", "lid.fettle", "--handset", "odd.fettle", "--format", "json"], {
    folder: other,
  });
  expect(outcome.status).toBe(1);
  expect(problems(outcome)).toMatchObject([{ code: "use-broken", file: "lid.fettle", range: { start: { line: 0 } } }]);
});

test("--handset stands in for the craft's own, from wherever it lies", async () => {
  const other = await folderOf({ "bellows.fettle": wheel.replace("2.4 GHz", "868 MHz") });
  const outcome = await check("craft/cup.fettle", "--handset", join(other, "bellows.fettle"), "--format", "json");
  expect(problems(outcome).map(({ code }) => code)).toEqual(["duplicate-entry"]);
  const wrong = await check("craft/cup.fettle", "--handset", "craft/jug.fettle");
  expect(wrong).toEqual({
    status: 2,
    out: "",
    error: "fettle: craft/jug.fettle is a craft, and --handset takes a handset\n",
  });
});

test.each([
  [["nope.fettle"], "nope.fettle: there is no such file"],
  [["empty"], "empty: no script (.fettle) is in this folder"],
  [["big.fettle"], "big.fettle: it is 4.0 MB, and a script is read up to 1 MB: is it a script at all?"],
  [["--format", "xml"], "--format is text or json or sarif, not “xml”"],
  [["--frmat", "json"], "there is no option --frmat: did you mean --format?"],
  [["--format"], "--format needs a value after it"],
  [["--strict=yes"], "--strict takes no value"],
  [["--handset", "nope.fettle", "craft"], "nope.fettle: there is no such file"],
])("check %j cannot run, and says so in one line", async (args, message) => {
  const bad = await folderOf({ ...shed, "big.fettle": `craft "Big"\n${"# clay\n".repeat(600_000)}` });
  mkdirSync(join(bad, "empty"));
  expect(await runProgram(program, ["check", ...args], { folder: bad })).toEqual({
    status: 2,
    out: "",
    error: `fettle: ${message}\n`,
  });
});

test("beside a file that cannot be read the others are still checked", async () => {
  const mixed = await folderOf({ ...shed, "craft/big.fettle": new Uint8Array(4 * 1024 * 1024 + 1) });
  symlinkSync(join(mixed, "gone.fettle"), join(mixed, "craft/dangling.fettle"));
  const { status, out, error } = await runProgram(program, ["check", "--format", "json"], { folder: mixed });
  expect(status).toBe(2);
  expect(JSON.parse(out).summary).toEqual({ files: 3, errors: 1, warnings: 1, infos: 0, hints: 0 });
  expect(error.split("\n")).toEqual([
    expect.stringMatching(/^fettle: craft\/big\.fettle: it is 4\.0 MB/),
    "fettle: craft/dangling.fettle: there is no such file",
    "",
  ]);
});

// Whoever runs as root may read everything: then there is nothing to refuse.
test.skipIf(process.getuid?.() === 0)("a file that this user may not read is named", async () => {
  const locked = await folderOf({ "jug.fettle": jug });
  chmodSync(join(locked, "jug.fettle"), 0o000);
  const { status, error } = await runProgram(program, ["check"], { folder: locked });
  expect(status).toBe(2);
  expect(error).toBe("fettle: jug.fettle: this user may not read it\n");
});

test("a use that leaves the workspace is a finding, and nothing outside is read", async () => {
  const out = await folderOf({ "secret.fettle": wheel });
  const inside = await folderOf({
    "home/jug.fettle": `craft "Jug"\n\nuse "../../${out.split("/").at(-1)}/secret.fettle"\n`,
  });
  const outcome = await runProgram(program, ["check", ".", "--format", "json"], { folder: join(inside, "home") });
  expect(outcome.status).toBe(1);
  expect(problems(outcome).map(({ code }) => code)).toEqual(["use-missing"]);
  expect(outcome.out).toContain("outside the workspace");
});

test("a path that is hard to print stays on one line", async () => {
  const odd = await folderOf({ "a\nb.fettle": 'craft "Mug"\n\nclay\n' });
  const { out } = await runProgram(program, ["check"], { folder: odd });
  expect(out.split("\n")[0]).toMatch(/^a b\.fettle:3:1 +error +unknown-name/);
});
