/** `fettle compare`: files, standard input, and revisions of real repositories. */
import { mkdirSync, renameSync, rmSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test, vi } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { glow } from "../ide/own-words/glow.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { importCommits, makeRepository, type Repository } from "./repository.ts";

const wheel = `handset "Wheel"
controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
`;
const habits = (arm = "TL is down") => `layer "Habits"\n\nmodes\n  arm  when ${arm}\n`;
const jug = (cells = 4) =>
  `craft "Jug"\n\nuse "../handsets/wheel.fettle"\nuse "../layers/habits.fettle"\n\npack\n  cells  ${cells}\n\nvideo\n  power  25 mW\n`;
const shed = {
  "handsets/wheel.fettle": wheel,
  "layers/habits.fettle": habits(),
  "craft/jug.fettle": jug(),
};

afterEach(() => vi.unstubAllEnvs());

async function compare(folder: string, args: readonly string[], input = "", ink: "plain" | "coloured" = "plain") {
  const io = held(folder, input, ink);
  const status = await run(["compare", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

async function differences(folder: string, ...args: string[]) {
  const { status, out, error } = await compare(folder, [...args, "--format", "json"]);
  expect(error).toBe("");
  const { differences: found } = JSON.parse(out);
  expect(status).toBe(found.length === 0 ? 0 : 1);
  return found as { what: string; before: string | null; after: string | null; file: string; line: number }[];
}

const inShort = (found: Awaited<ReturnType<typeof differences>>) =>
  found.map(({ what, before, after, file, line }) => `${what}: ${before} -> ${after} (${file}:${line})`);

test("the JSON has its fixed shape: canonical texts, the place of B, of A where B has none", async () => {
  const folder = await folderOf({
    "a.fettle": 'craft "A"\npack\n  capacity  1.10 Ah\n  cells 4\nmodes\n  arm  when TL is down\n',
    "b.fettle":
      'craft "B"\npack\n  capacity  900mAh\n\nmodes\n  arm  when TL is down\n  finder when ch9 above 1500us\n',
  });
  const { status, out } = await compare(folder, ["a.fettle", "b.fettle", "--format", "json"]);
  expect(status).toBe(1);
  expect(JSON.parse(out)).toEqual({
    differences: [
      {
        what: "pack.capacity",
        kind: "setting",
        risk: "medium",
        before: "1.10 Ah",
        after: "900 mAh",
        file: "b.fettle",
        line: 2,
      },
      { what: "pack.cells", kind: "setting", risk: "medium", before: "4", after: null, file: "a.fettle", line: 3 },
      {
        what: "modes.finder",
        kind: "mode",
        risk: "medium",
        before: null,
        after: "ch9 above 1500 us",
        file: "b.fettle",
        line: 6,
      },
    ],
  });
});

test("text: grouped by risk, in words, with both lines, and a line that counts", async () => {
  const { folder, write } = makeRepository(shed);
  write({ "layers/habits.fettle": habits("TL is up"), "craft/jug.fettle": jug(6) });
  const { status, out } = await compare(folder, ["HEAD:craft/jug.fettle", "craft/jug.fettle"]);
  expect(status).toBe(1);
  expect(out).toBe(`from  Jug  HEAD:craft/jug.fettle
to    Jug  craft/jug.fettle

High risk: arming, link, failsafe, motors, ports, controls
  modes.arm   arm moves from TL down to TL up  (HEAD:layers/habits.fettle:4 → layers/habits.fettle:4)

Medium risk
  pack.cells  cells goes up from 4 to 6  (HEAD:craft/jug.fettle:7 → craft/jug.fettle:7)

2 differences: 1 high, 1 medium
`);
  const { out: coloured } = await compare(folder, ["HEAD:craft/jug.fettle", "craft/jug.fettle"], "", "coloured");
  expect(coloured).toContain("\u001b[1;31mHigh risk: ");
  expect(coloured.replaceAll(/\u001b\[[\d;]*m/g, "")).toBe(out);
});

test("the same in meaning: exit status 0, whatever the layout", async () => {
  const folder = await folderOf({ "a.fettle": jug(), "b.fettle": `# mine\n${jug().replace("25 mW", "0.025 W")}` });
  const { status, out } = await compare(folder, ["a.fettle", "b.fettle"]);
  expect([status, out.split("\n").at(-2)]).toEqual([0, "No difference in meaning."]);
  expect(await differences(folder, "a.fettle", "a.fettle")).toEqual([]);
});

test("standard input is a side", async () => {
  const folder = await folderOf(shed);
  const { out } = await compare(
    folder,
    ["craft/jug.fettle", "-", "--format", "json"],
    `${jug(6).replaceAll("../", "")}`,
  );
  expect(JSON.parse(out).differences).toMatchObject([{ what: "pack.cells", after: "6", file: "-", line: 6 }]);
});

test("a layer by itself has the handset of the other side; a handset is compared with a handset", async () => {
  const folder = await folderOf({
    ...shed,
    "layers/other.fettle": habits("not TL is up"),
    "handsets/lathe.fettle": wheel.replace("ch5", "ch7"),
  });
  const { out } = await compare(folder, ["craft/jug.fettle", "layers/other.fettle"]);
  expect(out).toContain("note  layers/other.fettle has no handset here: “Wheel” stands in.\n");
  expect(inShort(await differences(folder, "craft/jug.fettle", "layers/other.fettle"))).toEqual([
    "pack.cells: 4 -> null (craft/jug.fettle:6)",
    "video.power: 25 mW -> null (craft/jug.fettle:9)",
  ]);
  expect(inShort(await differences(folder, "handsets/wheel.fettle", "handsets/lathe.fettle"))).toEqual([
    "controls.TL: switch ch5  up 1000 us  down 2000 us -> switch ch7  up 1000 us  down 2000 us (handsets/lathe.fettle:2)",
  ]);
});

test("a revision is read with its own layers, as the working tree no longer has them", async () => {
  const { folder, git, write, commit } = makeRepository(shed);
  git("tag", "flown");
  git("mv", "layers/habits.fettle", "layers/ways.fettle");
  commit({ "craft/jug.fettle": jug().replace("habits", "ways"), "layers/ways.fettle": habits("TL is up") });
  write({ "craft/jug.fettle": "junk" });
  expect(inShort(await differences(folder, "flown:craft/jug.fettle", "HEAD:craft/jug.fettle"))).toEqual([
    "modes.arm: TL is down -> TL is up (HEAD:layers/ways.fettle:3)",
  ]);
  expect(inShort(await differences(folder, "HEAD:craft/jug.fettle", "HEAD~1:craft/jug.fettle"))).toEqual([
    "modes.arm: TL is up -> TL is down (HEAD~1:layers/habits.fettle:3)",
  ]);
});

let named: Repository | undefined;
function manyNames(): Repository {
  const repository = makeRepository();
  repository.commit(shed, "first");
  repository.git("branch", "old/ways");
  repository.git("tag", "-am", "x", "v1");
  repository.commit({ "craft/jug.fettle": jug(6) }, "second");
  return repository;
}

test.each<[title: string, name: (git: Repository["git"]) => string]>([
  ["HEAD~1", (git) => git("rev-parse", "HEAD~1").trim()],
  ["a short name", (git) => git("rev-parse", "--short", "HEAD~1").trim()],
  ["a branch with a slash", () => "old/ways"],
  ["a tag that is an object", () => "v1"],
  ["a tree", (git) => git("rev-parse", "HEAD~1^{tree}").trim()],
  ["a reflog entry with a colon in it", () => "main@{1}"],
  ["a commit by its message", () => "HEAD^{/first}"],
])("revisions are named as git names them: %s", async (_, name) => {
  named ??= manyNames();
  const { folder, git } = named;
  expect(inShort(await differences(folder, `${name(git)}:craft/jug.fettle`, "craft/jug.fettle"))).toEqual([
    "pack.cells: 4 -> 6 (craft/jug.fettle:6)",
  ]);
});

test("what is staged is :PATH, a stage of a conflict :N:PATH", async () => {
  const { folder, git, write, commit } = makeRepository(shed);
  write({ "craft/jug.fettle": jug(6) });
  git("add", "-A");
  write({ "craft/jug.fettle": jug(8) });
  expect(inShort(await differences(folder, ":craft/jug.fettle", "craft/jug.fettle"))).toEqual([
    "pack.cells: 6 -> 8 (craft/jug.fettle:6)",
  ]);
  commit({ "craft/jug.fettle": jug(8) });
  git("checkout", "-qb", "other", "HEAD~1");
  commit({ "craft/jug.fettle": jug(3) });
  expect(() => git("merge", "-q", "main")).toThrow();
  expect(inShort(await differences(folder, ":2:craft/jug.fettle", ":3:craft/jug.fettle"))).toMatchObject([
    expect.stringMatching(/^pack\.cells: 3 -> 8 /),
  ]);
  expect((await compare(folder, [":craft/jug.fettle", ":2:craft/jug.fettle"])).error).toBe(
    "fettle: :craft/jug.fettle: craft/jug.fettle is not staged\n",
  );
});

test("paths are meant from the top, and with ./ and ../ from the working folder", async () => {
  const { folder, write } = makeRepository({
    "garden/shed.txt": "",
    ...Object.fromEntries(Object.entries(shed).map(([path, text]) => [`garden/${path}`, text])),
  });
  write({ "garden/craft/jug.fettle": jug(6) });
  const craft = join(folder, "garden/craft");
  for (const path of ["HEAD:garden/craft/jug.fettle", "HEAD:./jug.fettle", "HEAD:../craft/jug.fettle", ":./jug.fettle"])
    expect((await differences(craft, path, "jug.fettle")).map(({ what }) => what)).toEqual(["pack.cells"]);
  expect((await compare(craft, ["HEAD:jug.fettle", "jug.fettle"])).error).toBe(
    "fettle: HEAD:jug.fettle: jug.fettle is not in “HEAD”; from this folder it is HEAD:./jug.fettle\n",
  );
});

test("worktrees, a bare repository, and a repository that GIT_DIR names", async () => {
  const { folder, git, commit } = makeRepository(shed);
  commit({ "craft/jug.fettle": jug(6) });
  const aside = await folderOf({});
  git("worktree", "add", "-q", join(aside, "tree"), "HEAD~1");
  const changed = ["pack.cells: 4 -> 6 (HEAD:craft/jug.fettle:6)"];
  const bare = join(aside, "shed.git");
  git("clone", "-q", "--bare", folder, bare);
  expect(
    (await differences(join(aside, "tree"), "craft/jug.fettle", "main:craft/jug.fettle")).map(({ after }) => after),
  ).toEqual(["6"]);
  expect(inShort(await differences(bare, "HEAD~1:craft/jug.fettle", "HEAD:craft/jug.fettle"))).toEqual(changed);
  expect((await compare(bare, ["HEAD:./craft/jug.fettle", "HEAD:craft/jug.fettle"])).error).toMatch(
    /needs a working tree/,
  );
  expect((await compare(bare, [":craft/jug.fettle", "HEAD:craft/jug.fettle"])).error).toMatch(/nothing is staged/);
  vi.stubEnv("GIT_DIR", bare);
  expect(inShort(await differences(aside, "HEAD~1:craft/jug.fettle", "HEAD:craft/jug.fettle"))).toEqual(changed);
});

test("links are followed inside the revision, and not out of it", async () => {
  const { folder, git, commit } = makeRepository(shed);
  symlinkSync("../craft/jug.fettle", join(folder, "layers/link.fettle"));
  symlinkSync("layers", join(folder, "habits"));
  symlinkSync("loop.fettle", join(folder, "loop.fettle"));
  symlinkSync("/etc/passwd", join(folder, "out.fettle"));
  commit({ "craft/mug.fettle": jug(6).replace("../layers/", "../habits/") });
  rmSync(join(folder, "layers"), { recursive: true });
  expect(inShort(await differences(folder, "HEAD:layers/link.fettle", "HEAD:craft/mug.fettle"))).toEqual([
    "pack.cells: 4 -> 6 (HEAD:craft/mug.fettle:6)",
  ]);
  expect((await compare(folder, ["HEAD:loop.fettle", "HEAD:craft/mug.fettle"])).status).toBe(2);
  expect((await compare(folder, ["HEAD:out.fettle", "HEAD:craft/mug.fettle"])).error).toBe(
    "fettle: HEAD:out.fettle: it lies outside the workspace, and only files inside it are read\n",
  );
  expect(git("status", "--porcelain")).toContain("D layers/link.fettle");
});

test("names with spaces, umlauts, quotes and colons", async () => {
  const { folder, write } = makeRepository({ 'my "jug" ü:1.fettle': 'craft "A"\npack\n  cells 4\n' });
  write({ "b.fettle": 'craft "A"\npack\n  cells 6\n' });
  expect(inShort(await differences(folder, "b.fettle", 'HEAD:my "jug" ü:1.fettle'))).toEqual([
    'pack.cells: 6 -> 4 (HEAD:my "jug" ü:1.fettle:2)',
  ]);
  expect(inShort(await differences(folder, "b.fettle", 'my "jug" ü:1.fettle'))).toEqual([
    'pack.cells: 6 -> 4 (my "jug" ü:1.fettle:2)',
  ]);
});

test("words of the pilot's own are those of now, and of the revision in a bare repository", async () => {
  const own = JSON.stringify({ catalogue: "The lamp", settings: [glow] });
  const lit = (delay: string) => `craft "A"\nlights\n  glow-delay  ${delay}\n`;
  const { folder, git, commit } = makeRepository({ "a.fettle": lit("3 s"), "b.fettle": lit("3 s") });
  commit({ "a.fettle": lit("3000 ms"), "b.fettle": lit("4 s"), "own.catalogue.json": own });
  // Only who knows the setting knows that 3 s and 3000 ms are the same.
  expect(await differences(folder, "HEAD~1:a.fettle", "HEAD:a.fettle")).toEqual([]);
  const bare = join(await folderOf({}), "shed.git");
  git("clone", "-q", "--bare", folder, bare);
  expect(await differences(bare, "HEAD:b.fettle", "HEAD:b.fettle")).toEqual([]);
  expect((await compare(bare, ["HEAD:a.fettle", "HEAD:b.fettle"])).out).toContain(
    "glow-delay goes up from 3000 ms to 4 s",
  );
});

test("a used file that is missing is told, and the JSON has it as a member of its own", async () => {
  const { folder, write, commit } = makeRepository({ ...shed, "craft/jug.fettle": jug().replace("habits", "gone") });
  commit({});
  write({ "craft/jug.fettle": jug() });
  const { out } = await compare(folder, ["HEAD:craft/jug.fettle", "craft/jug.fettle"]);
  expect(out).toContain("note  HEAD:craft/jug.fettle: “../layers/gone.fettle” is missing: there is no such file.\n");
  const json = JSON.parse(
    (await compare(folder, ["HEAD:craft/jug.fettle", "craft/jug.fettle", "--format", "json"])).out,
  );
  expect(json.missing).toMatchObject([{ path: "../layers/gone.fettle", file: "HEAD:craft/jug.fettle", line: 3 }]);
});

test("where the controls differ that is said, since conditions are then compared as text", async () => {
  const folder = await folderOf({
    ...shed,
    "handsets/lathe.fettle": wheel.replace('"Wheel"', '"Lathe"').replace("TL", "SR"),
    "craft/mug.fettle": `craft "Mug"\nuse "../handsets/lathe.fettle"\nmodes\n  arm when SR is up\n`,
  });
  const { out } = await compare(folder, ["craft/jug.fettle", "craft/mug.fettle"]);
  expect(out).toContain("arm moves from TL down to SR up");
  expect(out).toMatch(/^note {2}The controls differ, so conditions are compared as they are written: /m);
});

let made: string | undefined;
/** One for all that only read it. */
const repository = () => {
  made ??= makeRepository(shed).folder;
  return made;
};
test.each<[title: string, args: string[], message: RegExp, folder?: () => string | Promise<string>]>([
  ["nothing", [], /^say which two: fettle compare A B$/],
  ["one", ["craft/jug.fettle"], /^say with what craft\/jug\.fettle is compared: fettle compare A B$/],
  ["three", ["a", "b", "c"], /^two are compared at a time, and “c” is one too many$/],
  ["an option that there is not", ["a", "b", "--colour"], /^there is no option --colour/],
  ["a format that there is not", ["a", "b", "--format", "sarif"], /^--format is text or json, not “sarif”$/],
  ["input twice", ["-", "-"], /^“-” stands for one of the two/],
  ["a file that there is not", ["craft/jug.fettle", "lid.fettle"], /^lid\.fettle: there is no such file$/],
  ["a folder", ["craft", "craft/jug.fettle"], /^craft is a folder: name one script in it$/],
  ["a folder of a revision", ["HEAD:craft", "craft/jug.fettle"], /^HEAD:craft is a folder: name one script in it$/],
  ["the top of a revision", ["HEAD:", "craft/jug.fettle"], /^HEAD: is a folder: name one script in it$/],
  [
    "no such revision",
    ["v9:craft/jug.fettle", "craft/jug.fettle"],
    /^v9:craft\/jug\.fettle: there is no such file, and git knows no revision “v9” here$/,
  ],
  [
    "an option in place of a revision",
    ["--", "--upload-pack=x:craft/jug.fettle", "craft/jug.fettle"],
    /git knows no revision “--upload-pack=x” here$/,
  ],
  [
    "several revisions",
    ["HEAD..HEAD:craft/jug.fettle", "craft/jug.fettle"],
    /“HEAD\.\.HEAD” is several revisions, and one is compared$/,
  ],
  [
    "no such file in it",
    ["HEAD:craft/lid.fettle", "craft/jug.fettle"],
    /^HEAD:craft\/lid\.fettle: craft\/lid\.fettle is not in “HEAD”$/,
  ],
  ["a path out of the repository", ["HEAD:../x.fettle", "craft/jug.fettle"], /the path leads out of the repository$/],
  [
    "no repository",
    ["HEAD:jug.fettle", "craft/jug.fettle"],
    /no git repository is around this folder$/,
    () => folderOf(shed),
  ],
  [
    "no commit yet",
    ["HEAD:jug.fettle", "jug.fettle"],
    /nothing has been committed in this repository yet$/,
    () => makeRepository().folder,
  ],
  ["a newer edition", ["HEAD:craft/jug.fettle", "-"], /^- is written in a newer edition/],
])("%s cannot be compared, and says why in a line", async (_, args, message, folder = repository) => {
  const { status, out, error } = await compare(await folder(), args, 'craft "A" edition 9\n');
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(error).toMatch(/^fettle: [^\n]+\n$/);
  expect(error.slice("fettle: ".length, -1)).toMatch(message);
});

test("without git a revision cannot be read, and files still can", async () => {
  const folder = repository();
  vi.stubEnv("PATH", "/nowhere");
  expect((await compare(folder, ["HEAD:craft/jug.fettle", "craft/jug.fettle"])).error).toBe(
    "fettle: HEAD:craft/jug.fettle: there is no such file, and git was not found: a revision is read through it\n",
  );
  expect((await compare(folder, ["craft/jug.fettle", "craft/jug.fettle"])).status).toBe(0);
});

test("a file of a revision that is no text, or is too large, is refused and not read", async () => {
  const { folder } = makeRepository({ ...shed, "big.fettle": "x".repeat(1_100_000) });
  expect((await compare(folder, ["HEAD:big.fettle", "craft/jug.fettle"])).error).toMatch(
    /^fettle: HEAD:big\.fettle: it is 1\.\d MB, and a script is read up to 1 MB: is it a script at all\?\n$/,
  );
});

test("a short name that several revisions have says so", async () => {
  const { folder, git } = makeRepository(shed);
  // Of so many commits two begin with the same four letters: by the birthday problem surely, and the same two each time.
  const flights = Array.from(
    { length: 1500 },
    (_, i) => `commit refs/heads/many\ncommitter Potter <potter@shed.example> ${1_700_000_000 + i} +0000\ndata 0\n`,
  );
  importCommits(folder, `${flights.join("\n")}\n`);
  const names = git("rev-list", "many").split("\n");
  const short = names.map((name) => name.slice(0, 4)).find((name, i, all) => all.indexOf(name) !== i);
  expect((await compare(folder, [`${short}:craft/jug.fettle`, "craft/jug.fettle"])).error).toContain(
    `several revisions begin with “${short}”: write more of it`,
  );
});

test("a workspace inside the repository ends at its mark, as on the disk", async () => {
  const { folder } = makeRepository({
    ".fettle-root": "",
    "garden/.fettle-root": "",
    "layers/habits.fettle": habits(),
    "garden/jug.fettle": 'craft "Jug"\nuse "../layers/habits.fettle"\n',
  });
  mkdirSync(join(folder, "x"));
  renameSync(join(folder, "garden/jug.fettle"), join(folder, "x/jug.fettle"));
  const { out } = await compare(folder, ["HEAD:garden/jug.fettle", "x/jug.fettle"]);
  expect(out).toContain("it lies outside the workspace");
});
