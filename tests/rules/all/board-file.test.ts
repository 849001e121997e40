import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";

const KILN = 'dialect "Kiln"\n\ntext\n  comment  ";"\n';
const FILES = {
  "/shed/boards/kiln.fettle": KILN,
  "/shed/boards/jug.txt": "tile 3\n",
  "/shed/layers/own.fettle": 'layer "Own"\n',
  "/shed/layers/no-header.fettle": "pack\n  cells 4\n",
};

/** What is found of a craft with this section `board`, at the columns of its value. */
function found(line: string): string[] {
  const file = "/shed/craft/jug.fettle";
  const workspace = makeCore(makeCatalogue()).at(
    memoryFiles({ ...FILES, [file]: `craft "Jug"\n\nboard\n  ${line}\n` }),
  );
  return findingsOf(workspace, file).map(
    ({ code, message, range }) => `${code} ${range.start.line}:${range.start.character} ${message}`,
  );
}

test("files of the board that are there, of the right kind, are silent", () => {
  expect(found('dialect "../boards/kiln.fettle"')).toEqual([]);
  expect(found('text "../boards/jug.txt"')).toEqual([]);
});

test.each([
  [
    'dialect "../boards/kilm.fettle"',
    "board-file 3:10 “../boards/kilm.fettle” cannot be used as the board's dialect: there is no such file; write the path of a dialect. Did you mean “../boards/kiln.fettle”?",
  ],
  [
    'dialect "../layers/own.fettle"',
    "board-file 3:10 “../layers/own.fettle” cannot be used as the board's dialect: it is a layer and no dialect; write the path of a dialect. Did you mean “../boards/kiln.fettle”?",
  ],
  [
    'dialect "../layers/no-header.fettle"',
    "board-file 3:10 “../layers/no-header.fettle” cannot be used as the board's dialect: it is no dialect; write the path of a dialect. Did you mean “../boards/kiln.fettle”?",
  ],
  [
    'text "jug.txt"',
    "board-file 3:7 “jug.txt” cannot be used as the board's saved text: there is no such file; save the board's text under this name, or write the path of the file that holds it.",
  ],
  [
    'text "jug.fettle"',
    "board-file 3:7 “jug.fettle” cannot be used as the board's saved text: it is this very script; save the board's text under this name, or write the path of the file that holds it.",
  ],
  [
    'text "/tmp/jug.txt"',
    "board-file 3:7 “/tmp/jug.txt” cannot be used as the board's saved text: a path begins in the folder of this file, with / between folders.",
  ],
])("%s", (line, message) => {
  expect(found(line)).toEqual([message]);
});

test("a file of which nobody knows yet whether it is there is not judged", () => {
  const file = "/shed/jug.fettle";
  const files = memoryFiles({ [file]: 'craft "Jug"\n\nboard\n  text "jug.txt"\n' });
  const unread = { ...files, read: (path: string) => (path === file ? files.read(path) : undefined) };
  expect(findingsOf(makeCore(makeCatalogue()).at(unread), file)).toEqual([]);
});
