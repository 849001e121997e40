/** Files that nothing is written to: one of them among those that share a name, and nobody gets another one. */
import { expect, test } from "vitest";
import { renameAt, renameableAt } from "../../../shared/ide/names/rename.ts";
import { type FileAnswer, memoryFiles } from "../../../shared/model/files.ts";
import { finish } from "../../../shared/text/steps.ts";
import { at, type Texts } from "../edits/moved-files.ts";

const texts: Texts = {
  "/shed/jug.fettle": 'craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n',
  "/shed/wheel.fettle": 'handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n',
};

const renamed = (answer: FileAnswer, file = "/shed/jug.fettle") => {
  const workspace = at(texts, {
    read: (path) => (path === "/shed/wheel.fettle" ? answer : memoryFiles(texts).read(path)),
  });
  const line = texts[file]!.split("\n").findIndex((each) => each.includes("TL"));
  const position = { line, character: texts[file]!.split("\n")[line]!.indexOf("TL") };
  return [renameableAt(workspace, file, position), finish(renameAt(workspace, file, position, "LA"))] as const;
};
const handset = texts["/shed/wheel.fettle"]!;

test("bytes that are no UTF-8", () => {
  const [able, done] = renamed({ kind: "text", text: `# \uFFFD\n${handset}`, validUtf8: false });
  expect(able.kind).toBe("name");
  expect(done).toMatchObject({ kind: "refused", message: expect.stringContaining("no UTF-8 text") });
});

test("bytes that are no text", () => {
  const [, done] = renamed({ kind: "text", text: `# \0\n${handset}`, validUtf8: true });
  expect(done).toMatchObject({ kind: "refused", message: expect.stringContaining("bytes that are no text") });
});

test("in such a file it is said before another name is asked for", () => {
  const [able] = renamed({ kind: "text", text: handset, validUtf8: false }, "/shed/wheel.fettle");
  expect(able).toMatchObject({ kind: "refused", message: expect.stringContaining("no UTF-8 text") });
});

test("a newer edition", () => {
  const [, done] = renamed({ kind: "text", text: handset.replace('"Wheel"', '"Wheel" edition 4'), validUtf8: true });
  expect(done).toMatchObject({
    kind: "refused",
    message: expect.stringContaining("of a newer edition of the language"),
  });
});

test("a file that nobody has read yet", () => {
  const workspace = at(texts, {
    read: (path) => (path === "/shed/wheel.fettle" ? undefined : memoryFiles(texts).read(path)),
  });
  expect(finish(renameAt(workspace, "/shed/jug.fettle", { line: 3, character: 11 }, "LA"))).toMatchObject({
    kind: "refused",
    message: expect.stringContaining("that has not been read"),
  });
});
