/** The ways to a review, in a fake editor: what is offered, and for which craft; it is asked only where that is not clear. */
import { beforeEach, expect, test, vi } from "vitest";
import type { Reviewed } from "../../shared/protocol/review-messages.ts";
import type { WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";

vi.mock("vscode", () => import("./fake-editor.ts"));

const { asked, Uri, window } = await import("./fake-editor.ts");
const { reviewCommands } = await import("../../client/src/review-commands.ts");

const uri = (name: string) => `file:///shed/${name}.fettle`;
const plain = { line: 0, fault: null, uses: [], handset: null, users: [], findings: null } as const;
const SHED: WorkspaceTree = {
  files: [
    { ...plain, file: uri("jug"), kind: "craft", name: "Jug" },
    { ...plain, file: uri("mug"), kind: "craft", name: "Mug" },
    { ...plain, file: uri("habits"), kind: "layer", name: "Habits", users: [0, 1] },
    { ...plain, file: uri("wide"), kind: "layer", name: "Wide", users: [1] },
  ],
};
const ALONE: WorkspaceTree = { files: SHED.files.slice(0, 1) };

let opened: Reviewed[] = [];
const commandsFor = (tree: WorkspaceTree) =>
  reviewCommands({ scripts: { list: async () => tree }, open: (about) => void opened.push(about) });
const commands = commandsFor(SHED);

/** Puts a script in front: a craft unless its text says otherwise; none for null. */
function inFront(name: string | null, text = `craft "${name}"\n`, selected = ""): void {
  const document = {
    uri: new Uri(uri(name ?? "")),
    languageId: "fettle",
    version: 1,
    getText: (of?: object) => (of ? selected : text),
  };
  const editor = { document, selection: { isEmpty: selected === "" } };
  Object.assign(window, { activeTextEditor: name ? editor : undefined, visibleTextEditors: name ? [editor] : [] });
}

beforeEach(() => {
  opened = [];
  asked.told.length = 0;
  asked.items = [];
  asked.answer = undefined;
  asked.files.clear();
  inFront("jug");
});

const offered = { kind: "text", text: "arm when TR is up", name: "the pasted text" };

test("a paste is reviewed for the craft in front; an empty clipboard is told of", async () => {
  asked.clipboard = "arm when TR is up";
  await commands.clipboard();
  expect(opened).toEqual([{ mine: uri("jug"), offer: offered, purpose: "review" }]);
  asked.clipboard = " \n";
  await commands.clipboard();
  expect(asked.told.join()).toContain("no text in the clipboard");
  expect(opened.length).toBe(1);
});

test("it is asked for which craft where a layer of several is in front, or nothing; not where one alone uses it", async () => {
  asked.clipboard = offered.text;
  inFront("habits", 'layer "Habits"\n');
  asked.answer = "Mug";
  await commands.clipboard();
  expect(asked.items.map(({ label }) => label)).toEqual(["Jug", "Mug"]);
  inFront("wide", 'layer "Wide"\n');
  asked.items = [];
  await commands.clipboard();
  expect(asked.items).toEqual([]);
  inFront(null);
  asked.answer = undefined;
  await commands.clipboard();
  expect(asked.items.map(({ label }) => label)).toEqual(["Jug", "Mug"]);
  expect(opened.map(({ mine }) => mine)).toEqual([uri("mug"), uri("mug")]);
});

test("a selection is for the craft in front, unless that is where it was made", async () => {
  inFront("jug", 'craft "Jug"\n', "level when TR is mid");
  asked.answer = "Mug";
  await commands.selection();
  expect(asked.items.map(({ label }) => label)).toEqual(["Mug"]);
  expect(opened).toEqual([
    {
      mine: uri("mug"),
      offer: { kind: "text", text: "level when TR is mid", name: "the selection in jug.fettle" },
      purpose: "review",
    },
  ]);
  inFront("jug");
  await commands.selection();
  expect(asked.told.join()).toContain("Select the lines");
});

test("a script of the workspace is read as it stands there, any other file as a text", async () => {
  asked.answer = "Mug";
  await commands.review({ uri: uri("jug") });
  await commands.review(new Uri(uri("jug")));
  expect(opened.map(({ mine, offer }) => [mine, offer])).toEqual([
    [uri("mug"), { kind: "file", uri: uri("jug") }],
    [uri("mug"), { kind: "file", uri: uri("jug") }],
  ]);
  asked.answer = "file:///downloads/from bram.txt";
  asked.files.set(asked.answer, "warn-at 3.6 V/cell");
  await commands.file();
  expect(opened.at(-1)).toEqual({
    mine: uri("jug"),
    offer: { kind: "text", text: "warn-at 3.6 V/cell", name: "from bram.txt" },
    purpose: "review",
  });
});

test("what cannot be read, or is no text of a person, is told of with its name", async () => {
  await commands.file(new Uri("file:///downloads/gone.txt") as never);
  asked.files.set("file:///downloads/film.txt", "x".repeat(5 * 1024 * 1024));
  await commands.file(new Uri("file:///downloads/film.txt") as never);
  await commands.review({ dropped: { kind: "too-large", name: "film.mp4", megabytes: 210 } });
  expect(asked.told).toEqual([
    "“gone.txt” could not be read: it is not there",
    "“film.txt” has 5.0 MB, and a text is reviewed up to 4 MB: is it a text at all?",
    "“film.mp4” has 210.0 MB, and a text is reviewed up to 4 MB: is it a text at all?",
  ]);
  expect(opened).toEqual([]);
});

test("what is dropped on the panel is for the craft that it draws", async () => {
  const dropped = { kind: "text", text: "a", name: "the dropped text" } as const;
  await commands.review({ dropped, mine: uri("mug") });
  await commands.review({ dropped: { kind: "file", uri: uri("jug") }, mine: uri("mug") });
  expect(opened.map(({ mine, offer }) => [mine, offer])).toEqual([
    [uri("mug"), dropped],
    [uri("mug"), { kind: "file", uri: uri("jug") }],
  ]);
  // A craft is not reviewed for itself.
  asked.answer = "Mug";
  await commands.review({ dropped: { kind: "file", uri: uri("jug") }, mine: uri("jug") });
  expect(opened.at(-1)?.mine).toBe(uri("mug"));
});

test("a craft is carried over to another one, and where there is none that is said", async () => {
  asked.answer = "Mug";
  await commands.carryOver();
  expect(opened).toEqual([{ mine: uri("mug"), offer: { kind: "file", uri: uri("jug") }, purpose: "carry" }]);
  await commandsFor(ALONE).carryOver();
  expect(asked.told.join()).toContain("no other craft in this workspace");
  expect(opened.length).toBe(1);
});
