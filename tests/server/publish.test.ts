/** What the server says unasked: findings with their version, and what it asks of an editor that can refresh. */
import { afterEach, expect, test } from "vitest";
import { glow } from "../ide/own-words/glow.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const jugUri = "file:///shed/jug.fettle";
const lampUri = "file:///shed/lamp.catalogue.json";
const jug = 'craft "Jug"\nuse "base.fettle"\npack\n  cells 99\n';
const base = 'layer "Base"\n';
const lamp = JSON.stringify({ catalogue: "The lamp", settings: [glow] });

let session: Session;
afterEach(() => session.end());

const typed = (version: number, text: string) =>
  session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: jugUri, version },
    contentChanges: [{ text }],
  });
const watched = (uri: string, type: 1 | 2 | 3) =>
  session.client.sendNotification("workspace/didChangeWatchedFiles", { changes: [{ uri, type }] });

/** A session in which a file that the craft uses is read only once it is released. */
async function waitingForBase(): Promise<() => void> {
  const files = filesInMemory({ "/shed/jug.fettle": jug, "/shed/base.fettle": base });
  let release = () => {};
  const released = new Promise<void>((resolve) => {
    release = resolve;
  });
  let isAsked = false;
  session = await startSession(
    {
      ...files,
      async read(path) {
        if (path !== "/shed/base.fettle") return files.read(path);
        isAsked = true;
        await released;
        return files.read(path);
      },
    },
    {},
    // What is published of scripts that are not open is another matter.
    { settings: { findings: { ofClosedScripts: false } } },
  );
  await session.open(jugUri, jug);
  await expect.poll(() => isAsked).toBe(true);
  return release;
}

/** Answered after all that was sent before it, and without waiting for any file. */
const received = () => session.client.sendRequest("completionItem/resolve", { label: "cells" });

test("findings that had to wait for a file carry the version that they are of, not the one at which the wait began", async () => {
  const release = await waitingForBase();
  await typed(2, jug.replace("cells 99", "cells 4"));
  await received();
  release();
  await expect.poll(() => session.publications.length).toBe(2);
  for (const { version, diagnostics } of session.publications)
    expect({ version, diagnostics }).toEqual({ version: 2, diagnostics: [] });
});

test("a script that is closed while its findings are worked out has none published after it", async () => {
  const release = await waitingForBase();
  await session.client.sendNotification("textDocument/didClose", { textDocument: { uri: jugUri } });
  await received();
  release();
  await session.client.sendRequest("fettle/panel", { uri: jugUri });
  expect(session.publications).toEqual([{ uri: jugUri, diagnostics: [] }]);
});

const CAN_REFRESH = {
  ...PULLING,
  workspace: {
    semanticTokens: { refreshSupport: true },
    diagnostics: { refreshSupport: true },
    inlayHint: { refreshSupport: true },
    codeLens: { refreshSupport: true },
  },
};

/** What the server asks the client to ask for anew, in order. */
function refreshes(answer: () => null = () => null): string[] {
  const asked: string[] = [];
  for (const what of ["semanticTokens", "diagnostic", "inlayHint", "codeLens"])
    session.client.onRequest(`workspace/${what}/refresh`, () => {
      asked.push(what);
      return answer();
    });
  return asked;
}

test("colours are asked for anew when a catalogue changes what the words are, and then only", async () => {
  const texts: Record<string, string> = { "/shed/jug.fettle": jug, "/shed/lamp.catalogue.json": "{}" };
  session = await startSession(filesInMemory(texts), CAN_REFRESH);
  const asked = refreshes();
  await session.open(jugUri, jug);
  await session.pull(jugUri);
  texts["/shed/lamp.catalogue.json"] = lamp;
  await watched(lampUri, 2);
  await expect.poll(() => asked).toEqual(["semanticTokens", "diagnostic", "inlayHint", "codeLens"]);
  asked.length = 0;
  await watched(lampUri, 2);
  await expect.poll(() => asked).toEqual(["diagnostic", "inlayHint", "codeLens"]);
});

test("an editor that cannot refresh is not asked to", async () => {
  const texts: Record<string, string> = { "/shed/lamp.catalogue.json": "{}" };
  session = await startSession(filesInMemory(texts));
  const asked = refreshes();
  texts["/shed/lamp.catalogue.json"] = lamp;
  await watched(lampUri, 2);
  await session.client.sendRequest("fettle/page", { name: "pack" });
  expect(asked).toEqual([]);
});

test("an editor that refuses to refresh is a line in the log, and is answered as before", async () => {
  session = await startSession(filesInMemory({ "/shed/base.fettle": base }), CAN_REFRESH);
  refreshes(() => {
    throw new Error("not now");
  });
  await session.open(jugUri, jug);
  await watched("file:///shed/base.fettle", 2);
  await expect.poll(() => session.log.join("\n")).toContain("not now");
  expect((await session.pull(jugUri)).map(({ code }) => code)).toEqual(["out-of-range"]);
});
