/** `fettle history` wherever a repository may be: bare, shallow, in worktrees and submodules; large; and what it prints. */
import { mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import type { HistoryReport } from "../../../shared/ide/history/history-report.ts";
import { dataOf, historiesIn, repositoryOf } from "../../fixtures/histories/histories.ts";
import { glow } from "../../ide/own-words/glow.ts";
import { held } from "../held.ts";
import { folderOf, temporaryFolder } from "../program.ts";
import { importCommits, makeRepository } from "../repository.ts";

const [jug] = historiesIn(`== Jug
@a 2026-02-01 Anna: Begin
file layers/habits.fettle
  layer "Habits"
  pack
    warn-at  3.4 V/cell
file craft/jug.fettle
  craft "Jug"
  use "../layers/habits.fettle"
@b 2026-02-02 Mo: Earlier
file layers/habits.fettle
  layer "Habits"
  pack
    # cold packs sag
    warn-at  3.5 V/cell
@c 2026-02-03 Anna: Earlier still
file layers/habits.fettle
  layer "Habits"
  pack
    # cold packs sag
    warn-at  3.6 V/cell
`);

async function told(folder: string, args: readonly string[], ink: "plain" | "coloured" = "plain") {
  const io = held(folder, "", ink);
  const status = await run(["history", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

async function values(folder: string, ...args: string[]): Promise<string[]> {
  const { out, error } = await told(folder, [...args, "--format", "json"]);
  if (error !== "") return [error.trim()];
  const { changes, notes } = JSON.parse(out) as HistoryReport;
  const rows = changes.map(({ subject, before, after }) =>
    [subject, before.text ?? before.unknown ?? "not said", after.text ?? after.unknown ?? "not said"].join(" | "),
  );
  return [...rows, ...notes];
}

const ALL = [
  "Earlier still | 3.5 V/cell | 3.6 V/cell",
  "Earlier | 3.4 V/cell | 3.5 V/cell",
  "Begin | not said | 3.4 V/cell",
];

test("the text says who, when and why, what it was before, and the line with its note", async () => {
  const { folder, git } = repositoryOf(jug!);
  const ids = git("log", "--format=%h", "--abbrev=8").trim().split("\n");
  expect((await told(folder, ["craft/jug.fettle", "warn-at"])).out).toBe(`pack.warn-at on Jug: 3.6 V/cell

2026-02-03  ${ids[0]}  Anna  3.5 V/cell → 3.6 V/cell
    Earlier still
    layers/habits.fettle:4
    # cold packs sag

2026-02-02  ${ids[1]}  Mo    3.4 V/cell → 3.5 V/cell
    Earlier
    layers/habits.fettle:4
    # cold packs sag

2026-02-01  ${ids[2]}  Anna  not said → 3.4 V/cell
    Begin
    layers/habits.fettle:3
`);
  expect((await told(folder, ["craft/jug.fettle", "warn-at"], "coloured")).out).toContain("\u001b[1m2026-02-03");
  expect((await told(folder, ["craft/jug.fettle", "land-at"])).out).toBe(
    "pack.land-at on Jug: not said\n\nNo commit changed it.\n",
  );
});

test("from a folder inside, from a revision on back, and of a layer by itself", async () => {
  const { folder } = repositoryOf(jug!);
  expect(await values(join(folder, "craft"), "jug.fettle", "pack.warn-at")).toEqual(ALL);
  expect(await values(folder, "HEAD~1:craft/jug.fettle", "pack.warn-at")).toEqual(ALL.slice(1));
  expect(await values(join(folder, "craft"), "HEAD:./jug.fettle", "warn-at")).toEqual(ALL);
  expect(await values(folder, "layers/habits.fettle", "warn-at")).toEqual(ALL);
});

test("a bare repository, a worktree of its own, a submodule, a shallow clone", async () => {
  const { folder, git } = repositoryOf(jug!);
  const [bare, tree, shallow] = [1, 2, 3].map(() => join(temporaryFolder(), "shed"));
  git("clone", "-q", "--bare", folder, bare!);
  expect(await values(bare!, "craft/jug.fettle", "warn-at")).toEqual(ALL);
  expect(await values(bare!, "HEAD~2:craft/jug.fettle", "warn-at")).toEqual(ALL.slice(2));
  git("worktree", "add", "-q", "--detach", tree!, "HEAD~1");
  expect(await values(tree!, "craft/jug.fettle", "warn-at")).toEqual(ALL.slice(1));
  const outer = makeRepository({ "saucer.fettle": 'craft "Saucer"\n' });
  outer.git("-c", "protocol.file.allow=always", "submodule", "--quiet", "add", folder, "shed");
  outer.git("commit", "-q", "-m", "with the shed");
  expect(await values(outer.folder, "shed/craft/jug.fettle", "warn-at")).toEqual(ALL);
  git("clone", "-q", "--depth", "2", `file://${folder}`, shallow!);
  expect(await values(shallow!, "craft/jug.fettle", "warn-at")).toEqual([
    ALL[0],
    "Earlier | earlier commits are not in this clone | 3.5 V/cell",
    "this is a shallow clone: earlier commits are not in it",
  ]);
});

test("a folder of layers behind a link, and a workspace that is a folder of the repository", async () => {
  const { folder, git } = repositoryOf(jug!);
  mkdirSync(join(folder, "mine"));
  symlinkSync("../layers", join(folder, "mine/layers"));
  writeFileSync(join(folder, "mine/mug.fettle"), 'craft "Mug"\nuse "layers/habits.fettle"\n');
  git("add", "-A");
  git("commit", "-q", "-m", "A mug");
  writeFileSync(join(folder, "layers/habits.fettle"), 'layer "Habits"\npack\n  warn-at  3.7 V/cell\n');
  git("commit", "-q", "-a", "-m", "Even earlier");
  expect(await values(folder, "mine/mug.fettle", "warn-at")).toEqual([
    "Even earlier | 3.6 V/cell | 3.7 V/cell",
    "A mug | not said | 3.6 V/cell",
  ]);
  writeFileSync(join(folder, "mine/.fettle-root"), "");
  git("add", "-A");
  git("commit", "-q", "-m", "By itself");
  expect((await values(folder, "mine/mug.fettle", "warn-at"))[0]).toBe(
    "By itself | 3.7 V/cell | habits.fettle, which may say it, could not be read",
  );
});

test("settings of one's own have a history, read by the words of now", async () => {
  const { folder, commit } = makeRepository();
  const own = JSON.stringify({ catalogue: "The lamp", settings: [glow] });
  const lit = (delay: string) => `craft "A"\nlights\n  glow-delay  ${delay}\n`;
  commit({ "lamp.catalogue.json": own, "a.fettle": lit("3000 ms") }, "Begin");
  commit({ "a.fettle": lit("4 s") }, "Later");
  expect(await values(folder, "a.fettle", "glow-delay")).toEqual([
    "Later | 3000 ms | 4 s",
    "Begin | not said | 3000 ms",
  ]);
});

test("what cannot be told is refused in a line", async () => {
  const { folder, commit } = makeRepository({ "jug.fettle": 'craft "Jug"\n', "photos/a.txt": "no script\n" });
  commit({ "loom.fettle": 'dialect "Loom"\n' });
  const outside = await folderOf({ "jug.fettle": 'craft "Jug"\npack\n  cells  4\n' });
  const refused = async (from: string, ...args: string[]) => {
    const { status, error, out } = await told(from, args);
    expect([status, out, error.split("\n").length]).toEqual([2, "", 2]);
    return error.trim();
  };
  expect(await refused(outside, "jug.fettle", "cells")).toContain("no git repository is around this folder");
  expect(await refused(folder, "mug.fettle", "cells")).toContain("mug.fettle: there is no such file");
  expect(await refused(folder, "HEAD:mug.fettle", "cells")).toContain("mug.fettle is no script in “HEAD”");
  expect(await refused(folder, "nowhere:jug.fettle", "cells")).toContain("git knows no revision “nowhere” here");
  expect(await refused(folder, "--upload-pack=x:jug.fettle", "cells")).toContain("there is no option");
  expect(await refused(folder, ":jug.fettle", "cells")).toContain("what is staged has no history");
  expect(await refused(folder, "photos", "cells")).toContain("photos is a folder");
  expect(await refused(folder, "-", "cells")).toContain("standard input has no history");
  expect(await refused(folder, "jug.fettle")).toContain("say which value of jug.fettle");
  expect(await refused(folder)).toContain("say which craft");
  expect(await refused(folder, "jug.fettle", "zzzz")).toContain("fettle show lists what a craft has");
});

test("nobody's own settings of git change what is told", async () => {
  const { folder, git } = repositoryOf(jug!);
  for (const [name, value] of [
    ["log.showSignature", "true"],
    ["diff.renames", "false"],
    ["diff.external", "/bin/false"],
    ["color.ui", "always"],
    ["log.follow", "true"],
    ["diff.relative", "true"],
    ["log.decorate", "full"],
    ["core.abbrev", "4"],
    ["log.diffMerges", "off"],
    ["diff.noprefix", "true"],
    ["i18n.logOutputEncoding", "latin1"],
  ] as const)
    git("config", name, value);
  expect(await values(join(folder, "craft"), "jug.fettle", "pack.warn-at")).toEqual(ALL);
});

test("a thousand commits in some two seconds", async () => {
  const { folder, git } = makeRepository();
  const craft = (i: number) =>
    `craft "Jug"\n\nuse "base.fettle"\n\npack\n  cells     4\n  capacity  ${1000 + Math.floor(i / 10)} mAh\n\nvideo\n  power  ${i + 1} mW\n`;
  const write = (path: string, text: string) => `M 100644 inline ${path}\n${dataOf(text)}`;
  const stream = Array.from({ length: 1000 }, (_, i) =>
    [
      "commit refs/heads/main",
      `committer Anna <anna@shed.example> ${1_700_000_000 + i * 60} +0000`,
      dataOf(`flight ${i}`),
      write("jug.fettle", craft(i)),
      ...(i === 0 ? [write("base.fettle", 'layer "Base"\nframe\n  motors  4\n')] : []),
      write(`other-${i % 50}.fettle`, `craft "Other"\n# ${i}\n`),
      "",
    ].join("\n"),
  );
  importCommits(folder, stream.join("\n"));
  git("reset", "-q", "--hard", "main");
  const started = performance.now();
  expect(await values(folder, "jug.fettle", "pack.capacity")).toHaveLength(100);
  const ms = performance.now() - started;
  // Far more than it takes by itself, as other tests run beside it.
  expect(ms).toBeLessThan(6000);
});
