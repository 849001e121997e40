/** Comparisons over the wire: the other side from the workspace, from a revision that the client reads, and from a text. */
import { afterEach, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { asUri } from "../../shared/protocol/addresses.ts";
import {
  COMPARE_REQUEST,
  type CompareResult,
  type OtherSide,
  REVISION_REQUEST,
  type RevisionParams,
  type RevisionResult,
  TAKE_REQUEST,
  type TakeResult,
} from "../../shared/protocol/compare.ts";
import type { PlaceRange } from "../../shared/protocol/findings.ts";
import { keyOfText, otherTextIn } from "../../shared/protocol/other-texts.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const wheel = `handset "Wheel"
controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
`;
const habits = (arm = "TL is down") => `layer "Habits"\nmodes\n  arm when ${arm}\n`;
const craft = (name: string, more = "") =>
  `craft "${name}"\nuse "../handsets/wheel.fettle"\nuse "../layers/habits.fettle"\n${more}`;
const now = {
  "/shed/handsets/wheel.fettle": wheel,
  "/shed/layers/habits.fettle": habits(),
  "/shed/craft/jug.fettle": craft("Jug", "pack\n  cells 4\n"),
  "/shed/craft/mug.fettle": craft("Mug", "pack\n  cells 6\n"),
};
/** As the last commit has them. */
const committed: Readonly<Record<string, string>> = {
  ...now,
  "/shed/layers/habits.fettle": habits("TL is down and TR is up"),
  "/shed/craft/jug.fettle": craft("Jug", "pack\n  cells 3\n"),
};

let session: Session;
afterEach(() => session?.end());

const uri = (path: string) => asUri(`file:///shed/${path}`);
const asked: RevisionParams[] = [];

async function compare(other: OtherSide, of = "craft/jug.fettle", texts: Record<string, string> = { ...now }) {
  asked.length = 0;
  session = await startSession(filesInMemory(texts), PULLING, undefined, undefined, (client) => {
    client.onRequest<RevisionResult, void>(REVISION_REQUEST, (params: RevisionParams) => {
      asked.push(params);
      const text = params.revision === "HEAD" ? committed[params.uri.replace("file://", "")] : undefined;
      return text === undefined ? { kind: "missing" } : { kind: "text", text };
    });
  });
  return session.client.sendRequest<CompareResult>(COMPARE_REQUEST, { uri: uri(of), other });
}

function words(result: CompareResult): string[] {
  return result.kind === "refused" ? [result.message] : result.rows.map((row) => row.words);
}

test("a craft with another of the workspace: words, canonical texts, both lines", async () => {
  const result = await compare({ kind: "file", uri: uri("craft/mug.fettle") });
  expect(result).toMatchObject({
    kind: "differences",
    mine: { name: "Jug", uri: uri("craft/jug.fettle") },
    theirs: { name: "Mug", uri: uri("craft/mug.fettle") },
    notes: [],
  });
  expect(result.kind === "differences" && result.rows).toEqual([
    {
      what: "pack.cells",
      kind: "setting",
      risk: "medium",
      summary: expect.stringMatching(/cells/i),
      mine: "4",
      theirs: "6",
      words: "cells goes up from 4 to 6",
      mineAt: { file: uri("craft/jug.fettle"), line: 4 },
      theirsAt: { file: uri("craft/mug.fettle"), line: 4 },
      notTaken: null,
    },
  ]);
});

test("what is typed counts at once", async () => {
  await compare({ kind: "file", uri: uri("craft/mug.fettle") });
  await session.open(uri("craft/jug.fettle"), craft("Jug", "pack\n  cells 6\n"));
  const params = { uri: uri("craft/jug.fettle"), other: { kind: "file", uri: uri("craft/mug.fettle") } };
  expect(words(await session.client.sendRequest(COMPARE_REQUEST, params))).toEqual([]);
});

test("a craft at a revision, with the layers as that revision has them", async () => {
  const result = await compare({ kind: "revision", uri: uri("craft/jug.fettle"), revision: "HEAD" });
  expect(words(result)).toEqual(["arm also needs TR up", "cells goes down from 4 to 3"]);
  expect(asked.map((each) => each.uri).sort()).toEqual([
    uri("craft/jug.fettle"),
    uri("handsets/wheel.fettle"),
    uri("layers/habits.fettle"),
  ]);
  if (result.kind === "refused") return;
  expect(result.theirs.name).toBe("Jug at HEAD");
  const [arm] = result.rows;
  expect(arm!.mineAt).toEqual({ file: uri("layers/habits.fettle"), line: 2 });
  expect(otherTextIn(decodeURIComponent(arm!.theirsAt!.file.split("?")[1]!))).toEqual({
    uri: uri("layers/habits.fettle"),
    revision: "HEAD",
  });
  expect(arm!.theirsAt!.file).toMatch(/^fettle-other:\/habits%20\(HEAD\)\.fettle\?/);
});

test("a layer at a revision is compared by itself, with the handset of a craft that uses it", async () => {
  const result = await compare(
    { kind: "revision", uri: uri("layers/habits.fettle"), revision: "HEAD" },
    "layers/habits.fettle",
  );
  expect(words(result)).toEqual(["arm also needs TR up"]);
  expect(result.kind === "differences" && result.notes).toEqual([
    "“Habits” is a layer, and says only part of a craft: what it does not say counts as not there.",
    "“Habits” has no handset here: “Wheel” stands in.",
    "“Habits” at HEAD is a layer, and says only part of a craft: what it does not say counts as not there.",
    "“Habits” at HEAD has no handset here: “Wheel” stands in.",
  ]);
});

test.each([
  [
    "a revision that there is not",
    { kind: "revision", uri: uri("craft/jug.fettle"), revision: "v9" },
    /^There is no jug\.fettle at v9: /,
  ],
  [
    "a file that there is not",
    { kind: "file", uri: uri("craft/lid.fettle") },
    /^“lid\.fettle” cannot be compared: there is no such file\.$/,
  ],
  [
    "a text without a line of a script",
    { kind: "text", text: "hello\n", name: "the clipboard" },
    /^Nothing in the clipboard is a line of a script/,
  ],
  ["an empty text", { kind: "text", text: "", name: "the clipboard" }, /^Nothing in the clipboard/],
  [
    "a newer edition",
    { kind: "text", text: 'craft "A" edition 9\npack\n  cells 4\n', name: "the clipboard" },
    /newer edition/,
  ],
] satisfies [string, OtherSide, RegExp][])("%s is refused in a sentence", async (_, other, message) => {
  expect(await compare(other)).toEqual({ kind: "refused", message: expect.stringMatching(message) });
});

test("a text that lies nowhere: its own lines count, and no file of mine that it happens to name", async () => {
  const text = craft("Friend", "pack\n  cells 6\nmodes\n  arm when TR is up\n");
  const result = await compare({ kind: "text", text, name: "the clipboard" });
  expect(words(result)).toContain("cells goes up from 4 to 6");
  expect(words(result)).toContain("arm moves from TL down to TR up");
  if (result.kind === "refused") return;
  expect(result.theirs.name).toBe("Friend (the clipboard)");
  expect(result.notes).toEqual([
    "“Friend” of the clipboard: “../handsets/wheel.fettle” is left out: only the text itself is here, and no file beside it.",
    "“Friend” of the clipboard: “../layers/habits.fettle” is left out: only the text itself is here, and no file beside it.",
    "“Friend” of the clipboard has no handset here: “Wheel” stands in.",
  ]);
  const place = result.rows.find(({ what }) => what === "pack.cells")!.theirsAt!;
  expect(place.line).toBe(4);
  expect(otherTextIn(decodeURIComponent(place.file.split("?")[1]!))).toEqual({
    key: keyOfText(text),
    name: "the clipboard",
  });
});

test("a part of a script is a layer, and the handset of the craft stands in", async () => {
  const result = await compare({ kind: "text", text: "modes\n  arm when TL is up\n", name: "the clipboard" });
  expect(words(result)[0]).toBe("arm moves from TL down to TL up");
  expect(result.kind === "differences" && result.theirs.name).toBe("the clipboard");
});

test("an editor that reads no revisions is told so", async () => {
  session = await startSession(filesInMemory({ ...now }));
  const params = {
    uri: uri("craft/jug.fettle"),
    other: { kind: "revision", uri: uri("craft/jug.fettle"), revision: "HEAD" },
  };
  expect(await session.client.sendRequest(COMPARE_REQUEST, params)).toEqual({
    kind: "refused",
    message: "jug.fettle cannot be read at HEAD: this editor does not read revisions of git.",
  });
});

test("texts of another side do not push out what is remembered of the files: findings stay the same", async () => {
  await compare({ kind: "revision", uri: uri("craft/jug.fettle"), revision: "HEAD" });
  await session.open(uri("craft/jug.fettle"), craft("Jug", "pack\n  cells many\n"));
  const before = await session.pull(uri("craft/jug.fettle"));
  await session.client.sendRequest(COMPARE_REQUEST, {
    uri: uri("craft/jug.fettle"),
    other: { kind: "revision", uri: uri("craft/jug.fettle"), revision: "HEAD" },
  });
  expect(await session.pull(uri("craft/jug.fettle"))).toEqual(before);
  expect(before.map(({ code }) => code)).toContain("unknown-name");
});

/** The text of a document once the edits are made. */
function edited(text: string, edits: readonly { range: PlaceRange; text: string }[]): string {
  const document = TextDocument.create("file:///a", "fettle", 1, text);
  return TextDocument.applyEdits(
    document,
    edits.map(({ range, text: newText }) => ({ range, newText })),
  );
}

async function take(other: OtherSide, whats: readonly string[], text = now["/shed/craft/jug.fettle"]) {
  await compare(other);
  await session.open(uri("craft/jug.fettle"), text);
  return session.client.sendRequest<TakeResult>(TAKE_REQUEST, { uri: uri("craft/jug.fettle"), other, whats });
}

const HEAD = { kind: "revision", uri: uri("craft/jug.fettle"), revision: "HEAD" } as const;

test("what is taken is written into the craft, for the version that is open, and is no difference then", async () => {
  const text = craft("Jug", "pack\n  cells  4  # as delivered\n");
  const result = await take(HEAD, ["pack.cells", "modes.arm"], text);
  expect(result).toMatchObject({ kind: "edits", left: [], files: [{ file: uri("craft/jug.fettle"), version: 1 }] });
  if (result.kind === "refused") return;
  const after = edited(text, result.files[0]!.edits);
  expect(after).toContain("  cells  3  # as delivered\n");
  expect(after).toMatch(/^modes\n {2}arm +when TL is down and TR is up$/m);
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: uri("craft/jug.fettle"), version: 2 },
    contentChanges: [{ text: after }],
  });
  const params = { uri: uri("craft/jug.fettle"), other: HEAD };
  expect(words(await session.client.sendRequest(COMPARE_REQUEST, params))).toEqual([]);
});

test("what differs no more gives no edits, and what cannot be taken says why", async () => {
  expect(await take(HEAD, ["pack.capacity"])).toEqual({ kind: "edits", files: [], left: [] });
  const text = 'craft "Friend"\npack\n  cells  4 V\n';
  const result = await take({ kind: "text", text, name: "the clipboard" }, ["pack.cells"]);
  expect(result).toEqual({ kind: "refused", message: expect.stringMatching(/^[A-Z“].*\.$/) });
});

test("a row says why it cannot be taken: a fault, or a handset that is not among the files", async () => {
  const other = `${wheel.replace('"Wheel"', '"Lathe"')}\ntransmitter\n  power  100 mW\n`;
  const text = `craft "Friend"\npack\n  cells  4 V\n  capacity 1100 mAh\n`;
  const faulty = await compare({ kind: "text", text, name: "the clipboard" });
  const reasons = (result: CompareResult) =>
    result.kind === "refused" ? [] : result.rows.map(({ what, notTaken }) => [what, notTaken]);
  expect(reasons(faulty)).toEqual([
    ["modes.arm", null],
    ["pack.capacity", null],
    ["pack.cells", "The line on the other side has a fault, so it has no value to take."],
  ]);
  const texts = { ...now, "/shed/handsets/lathe.fettle": other };
  const handset = await compare({ kind: "file", uri: uri("handsets/lathe.fettle") }, "craft/jug.fettle", texts);
  expect(reasons(handset).find(([what]) => what === "handset.name")).toEqual(["handset.name", null]);
  const alone = await compare({ kind: "text", text: other, name: "the clipboard" });
  expect(reasons(alone).find(([what]) => what === "handset.name")).toEqual([
    "handset.name",
    expect.stringMatching(/handset.*\.$/),
  ]);
});
