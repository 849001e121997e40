/** A board's text, asked for as an editor does: its states, a line that is named, the script, the review, and the text that is written. */
import { afterEach, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import {
  BOARD_DIALECTS_REQUEST,
  BOARD_LINE_REQUEST,
  BOARD_MOVED_REQUEST,
  BOARD_OF_REQUEST,
  BOARD_READ_REQUEST,
  BOARD_TEXT_REQUEST,
  BOARD_WRITE_REQUEST,
  type BoardTextResult,
  NAME_LINE_REQUEST,
  type NameLineResult,
} from "../../shared/protocol/board.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const TIDE = `dialect "Tide"\n\ntext\n  known-by  "tide table"\n\npack\n  "holds {c}"  capacity {c} mAh\n`;
const JUG = `craft "Jug"\n\nboard\n  dialect  "tide.fettle"\n  text     "jug.txt"\n\npack\n  capacity  1500 mAh\n`;
const TEXT = "tide table\nholds 1300\nbell at 175\n";
const uri = asUri("file:///shed/jug.txt");
const dialect = asUri("file:///shed/tide.fettle");
const craft = asUri("file:///shed/jug.fettle");
const asked = { uri, text: TEXT, dialect: null };

let session: Session;
afterEach(() => session.end());
async function start(files: Record<string, string> = { "/shed/tide.fettle": TIDE, "/shed/jug.fettle": JUG }) {
  session = await startSession(filesInMemory(files));
  return <T>(method: string, params: unknown) => session.client.sendRequest<T>(method, params);
}

test("the states of a text, its craft, and a line in words that leads on", async () => {
  const ask = await start();
  const states = await ask<BoardTextResult>(BOARD_TEXT_REQUEST, asked);
  if (states.kind !== "read") throw new Error(states.kind);
  expect(states.lines.map(({ state }) => state)).toEqual(["kept", "read", "kept"]);
  expect(states).toMatchObject({ dialect: { uri: dialect, name: "Tide" }, craft: [{ uri: craft, name: "Jug" }] });
  const line = await ask(BOARD_LINE_REQUEST, { ...asked, line: 1 });
  expect(line).toMatchObject({
    markdown: expect.stringContaining("`pack capacity 1300 mAh`"),
    leadsTo: [
      { file: dialect, line: 6 },
      { file: craft, line: 7 },
    ],
  });
  expect(await ask(BOARD_DIALECTS_REQUEST, {})).toEqual({ dialects: [{ uri: dialect, name: "Tide" }] });
});

test("a line is named in the open dialect, for its version, and the states follow", async () => {
  const ask = await start();
  await session.open(dialect, TIDE);
  const params = { ...asked, line: 2, section: "pack", name: "warn-at", value: "3.5 V/cell" };
  const named = await ask<NameLineResult>(NAME_LINE_REQUEST, params);
  if (named.kind !== "lines") throw new Error(named.message);
  expect(named.isNew).toBe(false);
  const [offer] = named.offers;
  expect(offer!.adopt.files).toMatchObject([{ file: dialect, version: 1 }]);
  const edits = offer!.adopt.files[0]!.edits.map(({ range, text }) => ({ range, text }));
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: dialect, version: 2 },
    // From the last on, so that no edit moves another.
    contentChanges: edits.toSorted((a, b) => b.range.start.line - a.range.start.line),
  });
  const states = await ask<BoardTextResult>(BOARD_TEXT_REQUEST, asked);
  expect(states.kind === "read" && states.lines[2]).toMatchObject({ state: "read", says: ["pack warn-at 3.5 V/cell"] });
});

test("where there is no dialect one begins beside the text", async () => {
  const ask = await start({ "/shed/wheel.fettle": 'handset "Wheel"\n' });
  expect(await ask(BOARD_TEXT_REQUEST, asked)).toEqual({ kind: "none" });
  const params = { ...asked, line: 1, section: "pack", name: "capacity", value: "1300 mAh" };
  const named = await ask<NameLineResult>(NAME_LINE_REQUEST, params);
  if (named.kind !== "lines") throw new Error(named.message);
  expect(named).toMatchObject({ isNew: true, dialect: { uri: "file:///shed/jug-dialect.fettle", name: "Jug" } });
  expect(named.offers[0]!.adopt).toEqual({
    kind: "edits",
    files: [],
    creates: [
      {
        file: "file:///shed/jug-dialect.fettle",
        text: 'dialect "Jug"\n\ntext\n  known-by  "tide table"\n\npack\n  "holds {c}"  capacity {c} mAh\n',
      },
    ],
  });
  expect(await ask(BOARD_READ_REQUEST, { ...asked, handset: null })).toMatchObject({ kind: "refused" });
});

test("a text becomes a script beside it that no file has, and a craft becomes text onto the last one", async () => {
  const ask = await start();
  const read = await ask(BOARD_READ_REQUEST, { ...asked, handset: null });
  expect(read).toMatchObject({
    proposed: "file:///shed/jug-2.fettle",
    text: expect.stringContaining('dialect  "tide.fettle"\n  text     "jug.txt"\n'),
  });
  expect(await ask(BOARD_OF_REQUEST, { uri: craft })).toMatchObject({ dialect: { uri: dialect }, base: uri });
  const written = await ask(BOARD_WRITE_REQUEST, { craft, dialect, base: TEXT });
  expect(written).toMatchObject({ changes: "holds 1500\n", changedLines: 1, text: TEXT.replace("1300", "1500") });
  expect(await ask(BOARD_MOVED_REQUEST, { before: TEXT, after: TEXT.replace("175", "170") })).toEqual({
    moved: [{ before: { line: 2, text: "bell at 175" }, after: { line: 2, text: "bell at 170" } }],
  });
});

test("a craft that names no dialect says what to do", async () => {
  const ask = await start({ "/shed/jug.fettle": 'craft "Jug"\n' });
  expect(await ask(BOARD_OF_REQUEST, { uri: craft })).toMatchObject({
    kind: "refused",
    message: expect.stringContaining("“Jug” names no dialect of its board"),
  });
});
