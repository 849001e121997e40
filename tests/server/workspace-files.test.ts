/** Which files a workspace has: listed once, and kept true by what the editor tells. */
import { afterEach, expect, test, vi } from "vitest";
import type { CompletionItem } from "vscode-languageserver/node";
import type { ServerFiles } from "../../server/src/lsp/documents.ts";
import { glow } from "../ide/own-words/glow.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const layer = (name: string) => `layer "${name}"\n`;
const lamp = JSON.stringify({ catalogue: "The lamp", settings: [glow] });
const CREATED = 1;
const CHANGED = 2;
const DELETED = 3;

let session: Session;
let listings: number;
afterEach(() => session.end());

interface Given {
  /** The listing does not end before this. */
  readonly wait?: Promise<void>;
  readonly capabilities?: typeof PULLING;
}

/** Opens a craft that is about to use a layer, in a workspace of these files. */
async function started(texts: Record<string, string>, { wait, capabilities = PULLING }: Given = {}): Promise<void> {
  listings = 0;
  const files = filesInMemory(texts);
  const counted: ServerFiles = {
    ...files,
    async list(folders) {
      listings++;
      const found = await files.list(folders);
      await wait;
      return found;
    },
  };
  session = await startSession(counted, capabilities, { draws: true });
  await session.open("file:///shed/jug.fettle", 'craft "Jug"\nuse ""\nlights\n  glow-delay 3 s\n');
}

/** The files that the craft is offered to use. */
async function offered(): Promise<string[]> {
  const { items }: { items: CompletionItem[] } = await session.client.sendRequest("textDocument/completion", {
    textDocument: { uri: "file:///shed/jug.fettle" },
    position: { line: 1, character: 5 },
  });
  return items.map(({ label }) => label).sort();
}

const tell = (...changes: [path: string, type: number][]) =>
  session.client.sendNotification("workspace/didChangeWatchedFiles", {
    changes: changes.map(([path, type]) => ({ uri: `file://${path}`, type })),
  });

test("the workspace is listed once, whatever is asked and whatever changes", async () => {
  const texts: Record<string, string> = { "/shed/wide.fettle": layer("Wide") };
  await started(texts);
  expect(await offered()).toEqual(["wide.fettle"]);
  texts["/shed/tune.fettle"] = layer("Tune");
  await tell(["/shed/tune.fettle", CREATED], ["/shed/wide.fettle", 2]);
  expect(await offered()).toEqual(["tune.fettle", "wide.fettle"]);
  delete texts["/shed/wide.fettle"];
  await tell(["/shed/wide.fettle", DELETED]);
  expect(await offered()).toEqual(["tune.fettle"]);
  expect(listings).toBe(1);
});

test("an editor that watches no files is told anew, once it has saved one, what changed on the disk", async () => {
  const texts: Record<string, string> = {
    "/shed/wheel.fettle": 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n',
  };
  const jug = "file:///shed/jug.fettle";
  await started(texts, { capabilities: {} });
  const used = 'craft "Jug"\nuse "wheel.fettle"\n\nmodes\n  arm when TX is down\n\nfailsafe\n  then stop\n';
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: jug, version: 2 },
    contentChanges: [{ text: used }],
  });
  const codes = () => session.pushed.get(jug)?.map(({ code }) => code);
  await vi.waitFor(() => expect(codes()).toEqual(["unknown-name"]));
  // As `git pull` would.
  texts["/shed/wheel.fettle"] = texts["/shed/wheel.fettle"]!.replace("TL", "TX");
  texts["/shed/tune.fettle"] = layer("Tune");
  await session.client.sendNotification("textDocument/didSave", { textDocument: { uri: jug } });
  await vi.waitFor(() => expect(codes()).toEqual([]));
  expect(session.offers.textDocumentSync).toMatchObject({ save: { includeText: false } });
  session.end();
  await started(texts, { capabilities: { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } } });
  expect(session.offers.textDocumentSync).not.toHaveProperty("save");
});

test("what an editor tells twice, or of files that are not ours, changes nothing", async () => {
  await started({ "/shed/wide.fettle": layer("Wide") });
  await offered();
  let changed = 0;
  session.client.onNotification("fettle/changed", () => {
    changed++;
  });
  await tell(["/shed/notes.txt", CREATED], ["/shed/dist", DELETED], ["/shed/other", DELETED]);
  expect(await offered()).toEqual(["wide.fettle"]);
  expect(changed).toBe(0);
  await tell(["/shed/wide.fettle", CREATED], ["/shed/wide.fettle", CREATED]);
  expect(await offered()).toEqual(["wide.fettle"]);
  expect(changed).toBe(1);
});

test("with a folder goes all that is in it, also where the editor tells of the folder alone", async () => {
  const texts: Record<string, string> = {
    "/shed/layers/wide.fettle": layer("Wide"),
    "/shed/layers/old/tune.fettle": layer("Tune"),
    "/shed/layers-more/base.fettle": layer("Base"),
  };
  await started(texts);
  expect(await offered()).toEqual(["layers-more/base.fettle", "layers/old/tune.fettle", "layers/wide.fettle"]);
  delete texts["/shed/layers/wide.fettle"];
  delete texts["/shed/layers/old/tune.fettle"];
  await tell(["/shed/layers", DELETED]);
  expect(await offered()).toEqual(["layers-more/base.fettle"]);
});

test.each([
  ["made", CREATED],
  ["changed", CHANGED],
])("a folder in the place of a script is none, told as %s, and a script in its place is one again", async (_, type) => {
  const texts: Record<string, string> = { "/shed/wide.fettle": layer("Wide") };
  await started(texts);
  expect(await offered()).toEqual(["wide.fettle"]);
  delete texts["/shed/wide.fettle"];
  texts["/shed/wide.fettle/tune.fettle"] = layer("Tune");
  await tell(["/shed/wide.fettle", type], ["/shed/wide.fettle/tune.fettle", CREATED]);
  expect(await offered()).toEqual(["wide.fettle/tune.fettle"]);
  delete texts["/shed/wide.fettle/tune.fettle"];
  texts["/shed/wide.fettle"] = layer("Wide");
  await tell(["/shed/wide.fettle/tune.fettle", DELETED], ["/shed/wide.fettle", type]);
  expect(await offered()).toEqual(["wide.fettle"]);
});

test("a folder that is renamed takes its scripts and its words along", async () => {
  const texts: Record<string, string> = {
    "/shed/layers/wide.fettle": layer("Wide"),
    "/shed/layers/lamp.catalogue.json": lamp,
  };
  await started(texts);
  expect(await offered()).toEqual(["layers/wide.fettle"]);
  expect(await session.pull("file:///shed/jug.fettle")).toHaveLength(1);
  for (const name of ["wide.fettle", "lamp.catalogue.json"]) {
    texts[`/shed/parts/${name}`] = texts[`/shed/layers/${name}`]!;
    delete texts[`/shed/layers/${name}`];
  }
  await session.client.sendNotification("workspace/didRenameFiles", {
    files: [{ oldUri: "file:///shed/layers", newUri: "file:///shed/parts" }],
  });
  expect(await offered()).toEqual(["parts/wide.fettle"]);
  // The one finding is that nothing is named to be used: the setting of their own is known still.
  expect(await session.pull("file:///shed/jug.fettle")).toHaveLength(1);
});

test("a folder that is renamed takes its scripts along, also where its deletion was told before", async () => {
  const texts: Record<string, string> = { "/shed/layers/wide.fettle": layer("Wide") };
  await started(texts);
  expect(await offered()).toEqual(["layers/wide.fettle"]);
  texts["/shed/parts/wide.fettle"] = texts["/shed/layers/wide.fettle"]!;
  delete texts["/shed/layers/wide.fettle"];
  await tell(["/shed/layers", DELETED], ["/shed/parts", CREATED]);
  await session.client.sendNotification("workspace/didRenameFiles", {
    files: [{ oldUri: "file:///shed/layers", newUri: "file:///shed/parts" }],
  });
  expect(await offered()).toEqual(["parts/wide.fettle"]);
});

test("a folder and a script that are moved in from elsewhere count", async () => {
  const texts: Record<string, string> = {};
  await started(texts);
  expect(await offered()).toEqual([]);
  texts["/shed/parts/wide.fettle"] = layer("Wide");
  texts["/shed/tune.fettle"] = layer("Tune");
  await session.client.sendNotification("workspace/didRenameFiles", {
    files: [
      { oldUri: "file:///shop/parts", newUri: "file:///shed/parts" },
      { oldUri: "file:///shop/tune.fettle", newUri: "file:///shed/tune.fettle" },
    ],
  });
  expect(await offered()).toEqual(["parts/wide.fettle", "tune.fettle"]);
});

test("hidden folders, what is installed and what lies elsewhere are nobody's scripts, listed or told of", async () => {
  const hidden = ["/shed/.cache/a.fettle", "/shed/node_modules/a/b.fettle", "/elsewhere/c.fettle"];
  const all = [...hidden, "/shed/layers/wide.fettle"];
  await started(Object.fromEntries(all.map((path) => [path, layer("Wide")])));
  expect(await offered()).toEqual(["layers/wide.fettle"]);
  await tell(...all.map((path): [string, number] => [path, CREATED]));
  expect(await offered()).toEqual(["layers/wide.fettle"]);
});

test("what is told while the workspace is being listed counts", async () => {
  const texts: Record<string, string> = { "/shed/wide.fettle": layer("Wide") };
  let release = () => {};
  const wait = new Promise<void>((resolve) => {
    release = resolve;
  });
  await started(texts, { wait });
  await expect.poll(() => listings).toBe(1);
  texts["/shed/tune.fettle"] = layer("Tune");
  // The file is there, but a script that is told to be gone is gone.
  await tell(["/shed/wide.fettle", DELETED], ["/shed/tune.fettle", CREATED]);
  // Answered after all that was sent before it, and without waiting for any file.
  await session.client.sendRequest("completionItem/resolve", { label: "cells" });
  release();
  expect(await offered()).toEqual(["tune.fettle"]);
});

test("a folder that joins the workspace is listed, and one that leaves it is forgotten", async () => {
  const texts: Record<string, string> = { "/shed/wide.fettle": layer("Wide"), "/attic/tune.fettle": layer("Tune") };
  let folders = [{ uri: "file:///shed", name: "shed" }];
  await started(texts, { capabilities: { ...PULLING, workspace: { workspaceFolders: true } } });
  session.client.onRequest("workspace/workspaceFolders", () => folders);
  const change = async (...uris: string[]) => {
    folders = uris.map((uri) => ({ uri, name: uri }));
    const event = { added: [], removed: [] };
    await session.client.sendNotification("workspace/didChangeWorkspaceFolders", { event });
  };
  expect(await offered()).toEqual(["wide.fettle"]);
  await change("file:///shed", "file:///attic");
  await vi.waitFor(async () => expect(await offered()).toEqual(["../attic/tune.fettle", "wide.fettle"]));
  await change("file:///attic/");
  await vi.waitFor(async () => expect(await offered()).toEqual(["../attic/tune.fettle"]));
});

test("words that are found late count from then on, and nobody waits for them", async () => {
  const texts: Record<string, string> = { "/shed/lamp.catalogue.json": lamp };
  let release = () => {};
  const wait = new Promise<void>((resolve) => {
    release = resolve;
  });
  await started(texts, { wait });
  let changed = 0;
  session.client.onNotification("fettle/changed", () => {
    changed++;
  });
  const codes = async () => (await session.pull("file:///shed/jug.fettle")).map(({ code }) => code);
  expect(await codes()).toContain("unknown-name");
  const before = changed;
  release();
  await vi.waitFor(() => expect(changed).toBe(before + 1));
  expect(await codes()).not.toContain("unknown-name");
});

test("scripts that are found late count in findings from then on, and whoever shows them is told", async () => {
  let release = () => {};
  const wait = new Promise<void>((resolve) => {
    release = resolve;
  });
  await started({ "/shed/layers/wide.fettle": layer("Wide") }, { wait });
  let changed = 0;
  session.client.onNotification("fettle/changed", () => {
    changed++;
  });
  const jug = "file:///shed/jug.fettle";
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: jug, version: 2 },
    contentChanges: [{ text: 'craft "Jug"\nuse "wide.fettle"\n' }],
  });
  const messages = async () => (await session.pull(jug)).map(({ message }) => message).join("\n");
  expect(await messages()).not.toContain("Did you mean");
  const before = changed;
  release();
  await vi.waitFor(() => expect(changed).toBeGreaterThan(before));
  expect(await messages()).toContain("Did you mean “layers/wide.fettle”?");
});

test("an editor whose workspace is larger than what is looked through is told so", async () => {
  const files = filesInMemory({});
  session = await startSession({ ...files, list: async () => ({ paths: [], cut: true }) });
  await session.open("file:///shed/jug.fettle", 'craft "Jug"\n');
  await session.pull("file:///shed/jug.fettle");
  expect(session.log).toEqual([expect.stringContaining("Open a smaller folder")]);
});
