/** A pilot's own catalogue and aliases, as an editor meets them. */
import { afterEach, expect, test } from "vitest";
import { PAGE_REQUEST } from "../../shared/protocol/pages.ts";
import { glow } from "../ide/own-words/glow.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const jugUri = "file:///shed/jug.fettle";
const lampUri = "file:///shed/lamp.catalogue.json";
const mineUri = "file:///shed/mine.aliases.json";
const jug = 'craft "Jug"\nlights\n  glow-delay 31 s\n';
const lamp = JSON.stringify({ catalogue: "The lamp", settings: [glow] });

let session: Session;
afterEach(() => session.end());

async function codes(): Promise<unknown[]> {
  return (await session.pull(jugUri)).map(({ code }) => code);
}

/** Waits until something holds, which a notification will bring about. */
async function until(holds: () => boolean): Promise<void> {
  for (let i = 0; i < 200 && !holds(); i++) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(holds()).toBe(true);
}

test("a catalogue in the workspace counts, and a change of it on the disk checks everything anew", async () => {
  const texts: Record<string, string> = { "/shed/jug.fettle": jug, "/shed/lamp.catalogue.json": lamp };
  let refreshed = 0;
  const capabilities = { ...PULLING, workspace: { diagnostics: { refreshSupport: true } } };
  session = await startSession(filesInMemory(texts), capabilities);
  session.client.onRequest("workspace/diagnostic/refresh", () => {
    refreshed++;
    return null;
  });
  await session.open(jugUri, jug);
  expect(await codes()).toEqual(["out-of-range"]);
  texts["/shed/lamp.catalogue.json"] = lamp.replace('"at":30', '"at":40');
  await session.client.sendNotification("workspace/didChangeWatchedFiles", { changes: [{ uri: lampUri, type: 2 }] });
  await until(() => refreshed > 0);
  expect(await codes()).toEqual(["unusual-value"]);
  delete texts["/shed/lamp.catalogue.json"];
  await session.client.sendNotification("workspace/didChangeWatchedFiles", { changes: [{ uri: lampUri, type: 3 }] });
  expect(await codes()).toEqual(["unknown-name"]);
});

test("an open catalogue lies over the one on the disk, as it is written", async () => {
  session = await startSession(filesInMemory({ "/shed/jug.fettle": jug, "/shed/lamp.catalogue.json": "{}" }));
  await session.open(jugUri, jug);
  expect(await codes()).toEqual(["unknown-name"]);
  await until(() => (session.pushed.get(lampUri) ?? []).length > 0);
  expect(session.pushed.get(lampUri)?.map(({ message }) => message)).toContain(
    "catalogue: “catalogue” is missing here: Say what this is a catalogue of.",
  );
  await session.open(lampUri, lamp);
  expect(await codes()).toEqual(["out-of-range"]);
  await until(() => session.pushed.get(lampUri)?.length === 0);
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: lampUri, version: 2 },
    contentChanges: [{ text: lamp.replace('"taste"', '"teste"') }],
  });
  expect(await codes()).toEqual(["unknown-name"]);
  await until(() => session.pushed.get(lampUri)?.length === 1);
  expect(session.pushed.get(lampUri)![0]).toMatchObject({
    severity: 1,
    source: "fettle",
    message: "settings[0].kind: This should be “hardware” or “taste” or “safety”.",
  });
  await session.client.sendNotification("textDocument/didClose", { textDocument: { uri: lampUri } });
  expect(await codes()).toEqual(["unknown-name"]);
});

test("a pilot's own words offer the name that they mean, and a page of it", async () => {
  const words = JSON.stringify({ aliases: { squealer: "finder", flat: "levle" } });
  session = await startSession(filesInMemory({ "/shed/mine.aliases.json": words }));
  const text = 'craft "Jug"\nmodes\n  squealer when ch9 above 1500 us\n';
  await session.open(jugUri, text);
  const findings = await session.pull(jugUri);
  expect(findings.map(({ code, message }) => [code, message])).toContainEqual([
    "unknown-name",
    "“modes” has no mode “squealer”. Did you mean “finder”?",
  ]);
  expect(await session.client.sendRequest(PAGE_REQUEST, { name: "squealer" })).toMatchObject({ title: "finder" });
  await until(() => session.pushed.has(mineUri));
  expect(session.pushed.get(mineUri)?.[0]?.message).toContain("Nothing is called “levle”. Did you mean “level”?");
});

test("what is no script is asked about without answer, and used as none", async () => {
  session = await startSession(filesInMemory({ "/shed/lamp.catalogue.json": lamp }));
  await session.open(lampUri, lamp);
  const at = { textDocument: { uri: lampUri }, position: { line: 0, character: 1 } };
  expect(await session.client.sendRequest("textDocument/hover", at)).toBeNull();
  expect(await session.client.sendRequest("textDocument/completion", at)).toMatchObject({ items: [] });
  expect(await session.client.sendRequest("textDocument/documentSymbol", at)).toBeNull();
  expect(await session.client.sendRequest("textDocument/semanticTokens/full", at)).toEqual({ data: [] });
  expect(await session.pull(lampUri)).toEqual([]);
  await session.open(jugUri, 'craft "Jug"\nuse "lamp.catalogue.json"\n');
  expect((await session.pull(jugUri)).map(({ message }) => message).join()).toContain("words of your own");
  expect(session.log).toEqual([]);
});

test("what is no JSON is left to an editor that tells it of open files itself; what is wrong in it is not", async () => {
  const texts = { "/shed/lamp.catalogue.json": "{", "/shed/mine.aliases.json": "{" };
  const messages = (uri: string) => (session.pushed.get(uri) ?? []).map(({ message }) => message);
  session = await startSession(filesInMemory(texts), PULLING, { checksJson: true });
  await session.open(lampUri, "{");
  await session.pull(lampUri).catch(() => []);
  await until(() => messages(mineUri).length > 0);
  expect(messages(mineUri)[0]).toMatch(/Until this is JSON/);
  expect(messages(lampUri)).toEqual([]);
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: lampUri, version: 2 },
    contentChanges: [{ text: '{ "settings": [], "settings": [] }' }],
  });
  await until(() => messages(lampUri).length > 0);
  expect(messages(lampUri)).toEqual(["catalogue: “catalogue” is missing here: Say what this is a catalogue of."]);
  await session.client.sendNotification("textDocument/didClose", { textDocument: { uri: lampUri } });
  await until(() => messages(lampUri).some((message) => String(message).includes("Until this is JSON")));
});
