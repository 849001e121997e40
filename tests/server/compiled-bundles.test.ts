/** What is compiled is kept, taken only where it is whole and ours, and never needed. */
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { cacheFolder } from "../../server/src/node/cache-folder.ts";
import { compiledBundles } from "../../server/src/node/compiled-bundles.ts";

let folder: string;
let cache: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "fettle-compiled-"));
  cache = join(folder, "user", "fettle");
  writeFileSync(
    join(folder, "jug.cjs"),
    'exports.pour = () => require("./water.js").what + " – " + require("node:path").sep;',
  );
  writeFileSync(join(folder, "water.js"), 'let times = 0; exports.what = "water " + ++times;');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** As a start of the program does it, and what it keeps in its first silence. */
async function start(): Promise<string> {
  const bundles = compiledBundles(folder, cache);
  const { pour } = bundles.load("./jug.cjs") as { pour(): string };
  const poured = pour();
  await bundles.keep();
  return poured;
}
const kept = () => readdirSync(cache).filter((name) => name.endsWith(".compiled"));
const POURED = "water 1 – /";

/** What is kept is written only where nothing was taken: so it is taken away, and looked for. */
async function expectTaken(isTaken: boolean): Promise<void> {
  const bundles = compiledBundles(folder, cache);
  expect((bundles.load("./jug.cjs") as { pour(): string }).pour()).toBe(POURED);
  for (const name of readdirSync(cache)) rmSync(join(cache, name));
  await bundles.keep();
  expect(kept().length).toBe(isTaken ? 0 : 2);
}

test("a second start takes what the first one kept, a file for each bundle, which nobody else can write", async () => {
  expect(await start()).toBe(POURED);
  expect(kept().length).toBe(2);
  expect(readdirSync(cache).length).toBe(2);
  await expectTaken(true);
});

test("a bundle is run once, whoever asks for it", () => {
  const bundles = compiledBundles(folder, null);
  expect(bundles.load("./water.js")).toBe(bundles.load("./water.js"));
  expect(bundles.load("./water.js")).toEqual({ what: "water 1" });
});

test("another text is compiled anew", async () => {
  await start();
  writeFileSync(join(folder, "jug.cjs"), "exports.pour = () => 'milk';");
  expect(await start()).toBe("milk");
  expect(kept().length).toBe(3);
});

test.each([
  ["cut off", (file: string) => writeFileSync(file, readFileSync(file).subarray(0, 200))],
  ["empty", (file: string) => writeFileSync(file, "")],
  [
    "changed in one bit",
    (file: string) =>
      writeFileSync(
        file,
        readFileSync(file).map((byte, i) => (i === 300 ? byte ^ 1 : byte)),
      ),
  ],
  ["writable for others", (file: string) => chmodSync(file, 0o666)],
  [
    "a link",
    (file: string) => {
      writeFileSync(`${file}-there`, readFileSync(file));
      rmSync(file);
      symlinkSync(`${file}-there`, file);
    },
  ],
  [
    "a folder",
    (file: string) => {
      rmSync(file);
      mkdirSync(file);
    },
  ],
])("what is kept is not taken where it is %s", async (_, spoil) => {
  await start();
  for (const name of kept()) spoil(join(cache, name));
  const bundles = compiledBundles(folder, cache);
  expect((bundles.load("./jug.cjs") as { pour(): string }).pour()).toBe(POURED);
  for (const name of readdirSync(cache)) rmSync(join(cache, name), { recursive: true });
  await bundles.keep();
  expect(kept().length).toBe(2);
});

test("nothing is taken from a folder, or kept in it, that others can write to", async () => {
  await start();
  chmodSync(cache, 0o777);
  const bundles = compiledBundles(folder, cache);
  expect((bundles.load("./jug.cjs") as { pour(): string }).pour()).toBe(POURED);
  for (const name of kept()) rmSync(join(cache, name));
  await bundles.keep();
  expect(kept()).toEqual([]);
  chmodSync(cache, 0o700);
  await bundles.keep();
  expect(kept().length).toBe(2);
});

test("where no folder can be made all works, and nothing is kept", async () => {
  writeFileSync(join(folder, "user"), "a file");
  expect(await start()).toBe(POURED);
  expect(readFileSync(join(folder, "user"), "utf8")).toBe("a file");
});

test("what other versions kept is taken away after two months", async () => {
  mkdirSync(cache, { recursive: true, mode: 0o700 });
  for (const [name, days] of [
    ["old.compiled", 61],
    ["draft.compiled.77", 61],
    ["new.compiled", 59],
    ["other", 61],
  ] as const) {
    writeFileSync(join(cache, name), "");
    const at = new Date(Date.now() - days * 24 * 3600 * 1000);
    utimesSync(join(cache, name), at, at);
  }
  await start();
  expect(
    readdirSync(cache)
      .filter((name) => !name.includes("-"))
      .sort(),
  ).toEqual(["new.compiled", "other"]);
});

test.each([
  ["linux", { XDG_CACHE_HOME: "/caches" }, "/home/mud", "/caches/fettle"],
  ["linux", { XDG_CACHE_HOME: "caches" }, "/home/mud", "/home/mud/.cache/fettle"],
  ["linux", {}, "/home/mud", "/home/mud/.cache/fettle"],
  ["linux", {}, null, null],
  ["darwin", { XDG_CACHE_HOME: "/caches" }, "/Users/mud", "/Users/mud/Library/Caches/fettle"],
  [
    "win32",
    { LOCALAPPDATA: "C:\\Users\\mud\\AppData\\Local" },
    "C:\\Users\\mud",
    "C:\\Users\\mud\\AppData\\Local\\fettle",
  ],
  ["win32", {}, "C:\\Users\\mud", null],
] as const)("on %s with %j the user's caches are where they ought to be", (platform, env, home, expected) => {
  expect(cacheFolder(env, platform, () => home)).toBe(expected);
});
