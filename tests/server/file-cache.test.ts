/** What was read stays until it is told to have changed, and what could not be read until anything is. */
import { expect, test } from "vitest";
import { type FileRead, makeFileCache } from "../../server/src/lsp/file-cache.ts";

const MISSING = { kind: "missing" } as const;
const text = (text: string) => ({ kind: "text", text, validUtf8: true }) as const;

/** A disk on which `link.fettle` leads to `jug.fettle`. */
function linked(texts: Map<string, string>, asked: string[] = []) {
  return makeFileCache(
    async (path): Promise<FileRead> => {
      asked.push(path);
      const target = path === "/shed/link.fettle" ? "/shed/jug.fettle" : path;
      const found = texts.get(target);
      return found === undefined ? { answer: MISSING, realPath: path } : { answer: text(found), realPath: target };
    },
    () => {},
  );
}

test("a link that led nowhere is read again once a file is there, of which alone anybody tells", async () => {
  const texts = new Map<string, string>();
  const cache = linked(texts);
  await cache.read("/shed/link.fettle");
  expect(cache.answer("/shed/link.fettle")).toEqual(MISSING);
  texts.set("/shed/jug.fettle", 'craft "Jug"\n');
  cache.forgetBelow(new Set(["/shed/jug.fettle"]), () => false);
  await cache.read("/shed/link.fettle");
  expect(cache.realPath("/shed/link.fettle")).toBe("/shed/jug.fettle");
  expect(cache.answer("/shed/link.fettle")).toEqual(text('craft "Jug"\n'));
});

test("other texts stay as they were read", async () => {
  const asked: string[] = [];
  const cache = linked(new Map([["/shed/mug.fettle", 'craft "Mug"\n']]), asked);
  await cache.read("/shed/mug.fettle");
  expect(cache.forgetBelow(new Set(["/shed/jug.fettle"]), () => false)).toBe(false);
  await cache.read("/shed/mug.fettle");
  expect(asked).toEqual(["/shed/mug.fettle"]);
});

test("a link that is just being read is read again once what it leads to is gone", async () => {
  const texts = new Map([["/shed/jug.fettle", 'craft "Jug"\n']]);
  const asked: string[] = [];
  const disk = linked(texts, asked);
  const read = disk.read("/shed/link.fettle");
  texts.delete("/shed/jug.fettle");
  disk.forgetBelow(new Set(["/shed/jug.fettle"]), () => false);
  await read;
  expect(asked).toEqual(["/shed/link.fettle", "/shed/link.fettle"]);
  expect(disk.answer("/shed/link.fettle")).toEqual(MISSING);
});
