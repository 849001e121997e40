/** Which folder is a script's workspace: where own words count, and how far a `use` leads. */
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { diskView } from "../../server/src/node/disk-view.ts";
import { glow } from "../ide/own-words/glow.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";

const lamp = JSON.stringify({ catalogue: "The lamp", settings: [glow] });
/** Nothing is found where the lamp's catalogue counts and the layer is reached. */
const jug = 'craft "Jug"\n\nuse "../layers/base.fettle"\n\nlights\n  glow-delay  3 s\n';
const base = 'layer "Base"\n';

interface Run {
  readonly from: string;
  readonly check: string;
}

/** The codes that `fettle check` finds; what it says on standard error stands among them. */
async function found(files: Record<string, string>, { from, check }: Run): Promise<string[]> {
  const folder = await folderOf({ "elsewhere/nothing.txt": "", ...files });
  const io = held(`${folder}/${from}`.replace(/\/$/, ""), "");
  await run(["check", `${folder}/${check}`, "--format", "json"], io);
  const { findings } = JSON.parse(io.outText()) as { findings: { code: string }[] };
  return [...findings.map(({ code }) => code), ...io.errorText().split("\n").filter(Boolean)];
}

const shed = { "shed/craft/jug.fettle": jug, "shed/layers/base.fettle": base, "shed/words/lamp.catalogue.json": lamp };
const fromElsewhere = { from: "elsewhere", check: "shed/craft/jug.fettle" };

test("a git repository is one workspace, wherever one stands", async () => {
  expect(await found({ ...shed, "shed/.git/HEAD": "" }, fromElsewhere)).toEqual([]);
});

test("so is the folder that is marked, without git", async () => {
  expect(await found({ ...shed, "shed/.fettle-root": "" }, fromElsewhere)).toEqual([]);
});

test("of both, the nearest counts", async () => {
  const files = { ...shed, ".git/HEAD": "", "strange.catalogue.json": "{", "shed/.fettle-root": "" };
  expect(await found(files, fromElsewhere)).toEqual([]);
  const inner = { ...shed, "shed/.git/HEAD": "", "shed/craft/.fettle-root": "" };
  expect(await found(inner, fromElsewhere)).toEqual(["use-missing", "unknown-name"]);
});

test("each script below a folder that is named has its own, the nearest around it", async () => {
  const two = Object.fromEntries(Object.entries(shed).map(([path, text]) => [path.replace("shed", "shed/deep"), text]));
  const strange = { "shed/strange.catalogue.json": "{", "shed/.git/HEAD": "", "shed/mug.fettle": base };
  const files = { ...two, ...strange, "shed/deep/.fettle-root": "" };
  const [told, ...more] = await found(files, { from: "elsewhere", check: "shed" });
  // The fault is told of once, for the script of the outer workspace, and the inner one has its own words.
  expect(told).toContain("strange.catalogue.json");
  expect(more).toEqual([]);
  const outer = await found({ ...shed, "shed/craft/.fettle-root": "" }, { from: "elsewhere", check: "shed" });
  expect(outer).toEqual(["use-missing", "unknown-name"]);
});

test("with neither, the working folder is the workspace of what lies below it", async () => {
  expect(await found(shed, { from: "shed", check: "shed/craft/jug.fettle" })).toEqual([]);
  expect(await found(shed, { from: "", check: "shed/craft/jug.fettle" })).toEqual([]);
});

test("a folder that is named is the workspace of what lies below it", async () => {
  expect(await found(shed, { from: "elsewhere", check: "shed" })).toEqual([]);
});

test("a script by itself has what it uses, and no words but those that lie beside it", async () => {
  expect(await found(shed, fromElsewhere)).toEqual(["unknown-name"]);
  expect(await found({ ...shed, "shed/craft/lamp.catalogue.json": lamp }, fromElsewhere)).toEqual([]);
});

test("words that strangers keep nearby do not count, nor are their faults told of", async () => {
  const strangers = {
    "strange.catalogue.json": "{",
    "shed/other/strange.catalogue.json": "{",
    "shed/craft/deep/strange.aliases.json": "{",
  };
  expect(await found({ ...shed, ...strangers }, fromElsewhere)).toEqual(["unknown-name"]);
});

test("of a script by itself only what lies beside it is listed", async () => {
  const folder = await folderOf({ "jug.fettle": jug, "mug.fettle": jug, "deep/pot.fettle": jug });
  const list = (reach: "below" | "alone") => diskView({ folder, reach }).list();
  expect(list("alone")).toEqual([`${folder}/jug.fettle`, `${folder}/mug.fettle`]);
  expect(list("below")).toHaveLength(3);
});

test("the help of check says so", async () => {
  const io = held("/", "");
  await run(["check", "--help"], io);
  expect(io.outText()).toContain(".fettle-root");
});
