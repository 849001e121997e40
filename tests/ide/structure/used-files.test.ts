/** Which files lean on which. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { fileItemAt, filesThatUse, filesUsedBy } from "../../../shared/ide/structure/used-files.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { finish } from "../../../shared/text/steps.ts";

const core = makeCore(makeCatalogue());

const shed = core.at(
  memoryFiles({
    "/craft/jug.fettle":
      'craft "Jug"\n\nuse "../wheel.fettle"\nuse "../habits.fettle"\nuse "../habits.fettle"\nuse "../gone.fettle"\nuse "mug.fettle"\n\npack\n  cells 6\n',
    "/craft/mug.fettle": '# mine\ncraft "Mug"\nuse "../osd.fettle"\nuse "mug.fettle"\n',
    "/habits.fettle": 'layer "Habits"\nuse "osd.fettle"\nuse "kiln.fettle"\n',
    "/osd.fettle": 'layer "OSD"\nuse "habits.fettle"\n',
    "/wheel.fettle": 'handset "Wheel"\nuse "base.fettle"\nuse "osd.fettle"\n',
    "/base.fettle": 'handset "Base"\n',
    "/kiln.fettle": 'dialect "Kiln"\n',
    "/nameless.fettle": "pack\n  cells 6\n",
  }),
);

const names = (items: readonly { name: string; kind: string }[]) => items.map(({ name, kind }) => `${kind} ${name}`);
const used = (file: string) => names(filesUsedBy(shed, file));
const users = (file: string) => names(finish(filesThatUse(shed, file)));
const at = (file: string, line: number) => {
  const item = fileItemAt(shed, file, { line, character: 3 });
  return item && [item.file, item.name, item.range.start.line, item.nameRange.start.character];
};

test("a file uses those that its lines name: each once, in their order, and none that has no part in it", () => {
  expect(used("/craft/jug.fettle")).toEqual(["handset Wheel", "layer Habits"]);
  expect(used("/craft/mug.fettle")).toEqual(["layer OSD"]);
  expect(used("/habits.fettle")).toEqual(["layer OSD"]);
  expect(used("/wheel.fettle")).toEqual(["handset Base"]);
  expect(used("/base.fettle")).toEqual([]);
  expect(used("/kiln.fettle")).toEqual([]);
  expect(used("/nowhere.fettle")).toEqual([]);
});

test("and is used by those whose lines name it, in a circle as well", () => {
  expect(users("/osd.fettle")).toEqual(["craft Mug", "layer Habits"]);
  expect(users("/habits.fettle")).toEqual(["craft Jug", "layer OSD"]);
  expect(users("/base.fettle")).toEqual(["handset Wheel"]);
  expect(users("/craft/mug.fettle")).toEqual([]);
});

test("it is asked about on its header and where it is used, and nowhere else", () => {
  expect(at("/craft/jug.fettle", 0)).toEqual(["/craft/jug.fettle", "Jug", 0, 6]);
  expect(at("/craft/jug.fettle", 2)).toEqual(["/wheel.fettle", "Wheel", 0, 8]);
  expect(at("/craft/jug.fettle", 6)).toEqual(["/craft/mug.fettle", "Mug", 1, 6]);
  expect(at("/craft/jug.fettle", 5)).toBeNull();
  expect(at("/craft/jug.fettle", 9)).toBeNull();
  expect(at("/craft/mug.fettle", 0)).toBeNull();
  expect(at("/nameless.fettle", 0)).toBeNull();
  expect(at("/kiln.fettle", 0)).toEqual(["/kiln.fettle", "Kiln", 0, 8]);
});

test("on the examples each is the inverse of the other", () => {
  const folder = join(import.meta.dirname, "../../../examples");
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".fettle"));
  const texts = Object.fromEntries(files.map((name) => [`/${name}`, readFileSync(join(folder, name), "utf8")]));
  const workspace = core.at(memoryFiles(texts));
  const down = Object.keys(texts).flatMap((file) => filesUsedBy(workspace, file).map((each) => `${file} ${each.file}`));
  const up = Object.keys(texts).flatMap((file) =>
    finish(filesThatUse(workspace, file)).map((each) => `${each.file} ${file}`),
  );
  expect(down.length).toBeGreaterThan(15);
  expect(down.sort()).toEqual(up.sort());
});
