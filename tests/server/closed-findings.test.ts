/** The findings of scripts that are not open: pulled at once, told as they change, or pushed. */
import { afterEach, describe, expect, test } from "vitest";
import type { Diagnostic } from "vscode-languageserver/node";
import { glow } from "../ide/own-words/glow.ts";
import { base, craft, following, nameOf, pack, type Report, shed, twice, uriOf } from "./closed-shed.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

let session: Session;
afterEach(() => session?.end());

/** The codes of each report by the name of its script, in order of names. */
const codesOf = (reports: Iterable<readonly [string, readonly Diagnostic[]]>) =>
  Object.fromEntries([...reports].map(([uri, items]) => [nameOf(uri), items.map(({ code }) => code).join()]).sort());

async function pullAll(previousResultIds: readonly { uri: string; value: string }[] = []): Promise<Report[]> {
  const { items } = await session.client.sendRequest<{ items: Report[] }>("workspace/diagnostic", {
    previousResultIds,
  });
  return items;
}
const idsOf = (reports: readonly Report[]) =>
  reports.flatMap(({ uri, resultId }) => (resultId === undefined ? [] : { uri, value: resultId }));
const watched = (...changes: { uri: string; type: 1 | 2 | 3 }[]) =>
  session.client.sendNotification("workspace/didChangeWatchedFiles", { changes });
const typed = (name: string, version: number, text: string) =>
  session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: uriOf(name), version },
    contentChanges: [{ text }],
  });
const closed = (name: string) =>
  session.client.sendNotification("textDocument/didClose", { textDocument: { uri: uriOf(name) } });
const settings = (fettle: unknown) =>
  session.client.sendNotification("workspace/didChangeConfiguration", { settings: { fettle } });

const plain = {
  base: "",
  bowl: "use-missing,unknown-name",
  "far/mug": "duplicate-entry",
  jug: "",
  urn: "",
};

describe("a client that asks for all at once", () => {
  test("has a report of each script that is not open, and the same as if it were", async () => {
    session = await startSession(filesInMemory(shed()));
    await session.open(uriOf("jug"), craft("Jug", ["base.fettle"], twice));
    const reports = await pullAll();
    const { jug: _, ...others } = plain;
    expect(codesOf(reports.map(({ uri, items }) => [uri, items] as const))).toEqual(others);
    expect(reports.every(({ kind, version, resultId }) => kind === "full" && version === null && resultId)).toBe(true);
    for (const { uri, items } of reports) {
      await session.open(uri, shed()[uri.replace("file://", "") as keyof ReturnType<typeof shed>]);
      expect(await session.pull(uri)).toEqual(items);
    }
    expect(await pullAll()).toEqual([]);
  });

  test("is told what did not change since, also by another server, and reads no file twice", async () => {
    const reads = new Map<string, number>();
    session = await startSession(filesInMemory(shed(), reads));
    const first = await pullAll();
    expect((await pullAll(idsOf(first))).map(({ kind }) => kind)).toEqual(first.map(() => "unchanged"));
    expect([...reads].filter(([path, count]) => path.endsWith(".fettle") && count > 1)).toEqual([]);
    session.end();
    const texts = { ...shed(), "/shed/urn.fettle": craft("Urn", [], twice) };
    session = await startSession(filesInMemory(texts));
    const second = await pullAll(idsOf(first));
    expect(second.filter(({ kind }) => kind === "full").map(({ uri }) => nameOf(uri))).toEqual(["urn"]);
  });

  test("is told of what it has from before and is no script any more", async () => {
    session = await startSession(filesInMemory(shed()));
    const reports = await pullAll([{ uri: uriOf("broken-pot"), value: "x" }]);
    expect(reports.find(({ uri }) => uri === uriOf("broken-pot"))).toEqual({
      uri: uriOf("broken-pot"),
      kind: "full",
      version: null,
      items: [],
    });
  });

  test("has nothing where the user wants none, and what it had is taken back", async () => {
    session = await startSession(filesInMemory(shed()), PULLING, {
      settings: { findings: { ofClosedScripts: false } },
    });
    expect(await pullAll()).toEqual([]);
    expect(await pullAll([{ uri: uriOf("urn"), value: "x" }])).toMatchObject([{ uri: uriOf("urn"), items: [] }]);
    expect(await session.pull(uriOf("bowl"))).toEqual([]);
    await session.open(uriOf("bowl"), shed()["/shed/bowl.fettle"]);
    expect(await session.pull(uriOf("bowl"))).not.toEqual([]);
  });
});

test("a script that was closed, and does not belong to the workspace, is shown no longer", async () => {
  session = await startSession(filesInMemory(shed()));
  const elsewhere = "file:///elsewhere/pot.fettle";
  await session.open(elsewhere, craft("Pot", [], twice));
  expect(await session.pull(elsewhere)).toHaveLength(1);
  await session.client.sendNotification("textDocument/didClose", { textDocument: { uri: elsewhere } });
  expect(await session.pull(elsewhere)).toEqual([]);
});

describe("a client that takes partial results", () => {
  async function follow(texts: Record<string, string> = shed()) {
    session = await startSession(filesInMemory(texts));
    const stream = following(session);
    const answer = stream.begin();
    await expect
      .poll(() => stream.shown.size)
      .toBe(Object.keys(texts).filter((path) => path.endsWith(".fettle")).length);
    stream.news();
    return { ...stream, texts, answer };
  }

  test("is told of all, and then of what a change of a file on the disk brings", async () => {
    const { shown, texts, news } = await follow();
    expect(codesOf(shown)).toEqual(plain);
    texts["/shed/urn.fettle"] = craft("Urn", [], twice);
    await watched({ uri: uriOf("urn"), type: 2 });
    await expect.poll(() => codesOf(shown)).toEqual({ ...plain, urn: "duplicate-entry" });
    // Touched, and not changed.
    await watched({ uri: uriOf("urn"), type: 2 });
    texts["/shed/jug.fettle"] = craft("Jug", ["base.fettle"], twice);
    await watched({ uri: uriOf("jug"), type: 2 });
    await expect.poll(() => codesOf(shown)).toEqual({ ...plain, urn: "duplicate-entry", jug: "duplicate-entry" });
    expect(news()).toEqual(["jug", "urn"]);
  });

  test("has nothing left of a file of which is told that it changed, and which is not there: a link that leads nowhere", async () => {
    const { shown, texts } = await follow();
    delete texts["/shed/far/mug.fettle"];
    await watched({ uri: uriOf("far/mug"), type: 2 });
    await expect.poll(() => codesOf(shown)).toEqual({ ...plain, "far/mug": "" });
    texts["/shed/far/mug.fettle"] = craft("Mug", ["../base.fettle"], twice);
    await watched({ uri: uriOf("far/mug"), type: 2 });
    await expect.poll(() => codesOf(shown)).toEqual(plain);
  });

  test("is told at once of what a shared layer changes while it is typed, and of nothing else", async () => {
    const { shown, news } = await follow();
    await session.open(uriOf("base"), base());
    await typed("base", 2, base("30"));
    await expect
      .poll(() => codesOf(shown))
      .toMatchObject({ jug: "use-broken", "far/mug": "use-broken,duplicate-entry" });
    expect(news()).toEqual(["far/mug", "jug"]);
    await typed("base", 3, base());
    await expect.poll(() => codesOf(shown)).toEqual(plain);
    expect(news()).toEqual(["far/mug", "jug"]);
  });

  test("is not told of a script that is open, and of it again once it is closed", async () => {
    const { shown, news } = await follow();
    await session.open(uriOf("urn"), craft("Urn", [], twice));
    await watched({ uri: uriOf("urn"), type: 2 });
    await typed("urn", 2, craft("Urn", [], `${twice}  cells 8\n`));
    await session.open(uriOf("jug"), craft("Jug", ["base.fettle"], pack));
    await closed("jug");
    await expect.poll(news).toEqual(["jug"]);
    await closed("urn");
    await expect.poll(news).toEqual(["urn"]);
    expect(codesOf(shown)).toEqual(plain);
  });

  test("is told of scripts that come and go, one by one and with their folders", async () => {
    const { shown, texts } = await follow();
    texts["/shed/gone.fettle"] = 'layer "Found"\n';
    await watched({ uri: uriOf("gone"), type: 1 });
    await expect.poll(() => codesOf(shown)).toEqual({ ...plain, bowl: "unknown-name", gone: "" });
    delete texts["/shed/far/mug.fettle"];
    await watched({ uri: "file:///shed/far", type: 3 });
    await expect.poll(() => codesOf(shown)).toMatchObject({ "far/mug": "" });
    delete texts["/shed/base.fettle"];
    await watched({ uri: uriOf("base"), type: 3 });
    await expect.poll(() => codesOf(shown)).toMatchObject({ jug: "use-missing", base: "" });
  });

  test("is told anew by what settings, and own words, make of them", async () => {
    const texts: Record<string, string> = {
      ...shed(),
      "/shed/pot.fettle": craft("Pot", [], "lights\n  glow-delay 3 s\n"),
    };
    const { shown } = await follow(texts);
    expect(codesOf(shown)).toMatchObject({ pot: "unknown-name" });
    await settings({ rules: { "duplicate-entry": "off" } });
    await expect.poll(() => codesOf(shown)).toMatchObject({ "far/mug": "" });
    await settings({ findings: { ofClosedScripts: false } });
    await expect.poll(() => new Set(Object.values(codesOf(shown)))).toEqual(new Set([""]));
    await settings({});
    await expect.poll(() => codesOf(shown)).toEqual({ ...plain, pot: "unknown-name" });
    texts["/shed/lamp.catalogue.json"] = JSON.stringify({ catalogue: "The lamp", settings: [glow] });
    await watched({ uri: "file:///shed/lamp.catalogue.json", type: 1 });
    await expect.poll(() => codesOf(shown)).toEqual({ ...plain, pot: expect.not.stringContaining("unknown-name") });
  });

  test("a note of a layer that is of use on no craft any more is told of, though the layer did not change", async () => {
    const texts: Record<string, string> = {
      "/shed/base.fettle": '# allow duplicate-entry: two packs\nlayer "Base"\n',
      "/shed/jug.fettle": craft("Jug", ["base.fettle"], twice),
    };
    const { shown } = await follow(texts);
    expect(codesOf(shown)).toEqual({ base: "", jug: "" });
    texts["/shed/jug.fettle"] = craft("Jug", ["base.fettle"], pack);
    await watched({ uri: uriOf("jug"), type: 2 });
    await expect.poll(() => codesOf(shown)).toEqual({ base: "allow-unused", jug: "" });
  });

  test("that cancels has its answer, and goes on later from what it has", async () => {
    const { texts, answer, cancel, ids } = await follow();
    cancel();
    expect(await answer.catch((error) => error.code)).toSatisfy(
      (told: unknown) => told === -32800 || Array.isArray((told as { items: unknown }).items),
    );
    texts["/shed/urn.fettle"] = craft("Urn", [], twice);
    await watched({ uri: uriOf("urn"), type: 2 });
    const stream = following(session);
    void stream.begin(
      "again",
      [...ids].map(([uri, value]) => ({ uri, value })),
    );
    const expected = ["base unchanged", "bowl unchanged", "far/mug unchanged", "jug unchanged", "urn"];
    const seen: string[] = [];
    await expect.poll(() => seen.push(...stream.news()) && seen.sort()).toEqual(expected);
  });

  test("that asks a second time has the first answered", async () => {
    const { answer } = await follow();
    const stream = following(session);
    void stream.begin("second");
    expect(await answer).toEqual({ items: [] });
    await expect.poll(() => codesOf(stream.shown)).toEqual(plain);
  });
});

test("a client that does not pull has them pushed, without a version, and taken back", async () => {
  const texts: Record<string, string> = shed();
  session = await startSession(filesInMemory(texts), {});
  const found = () => codesOf([...session.pushed].filter(([, items]) => items.length > 0));
  const faulty = { bowl: plain.bowl, "far/mug": "duplicate-entry" };
  await expect.poll(found).toEqual(faulty);
  expect(session.publications.every(({ version }) => version === undefined)).toBe(true);
  await session.open(uriOf("far/mug"), craft("Mug", ["../base.fettle"], pack));
  await expect.poll(found).toEqual({ bowl: plain.bowl });
  await closed("far/mug");
  await expect.poll(found).toEqual(faulty);
  await settings({ findings: { ofClosedScripts: false } });
  await expect.poll(found).toEqual({});
});

test("a round over many scripts is shown while it goes on, and a short one is not", async () => {
  const steps: string[] = [];
  const many = Object.fromEntries(
    Array.from({ length: 400 }, (_, i) => [`/shed/pot-${i}.fettle`, craft(`Pot ${i}`, [], pack)]),
  );
  for (const texts of [shed(), many]) {
    steps.length = 0;
    session = await startSession(
      filesInMemory(texts),
      { ...PULLING, window: { workDoneProgress: true } },
      undefined,
      undefined,
      (client) => {
        client.onRequest("window/workDoneProgress/create", () => null);
        client.onNotification("$/progress", ({ value }) => void steps.push(value.kind));
      },
    );
    await pullAll();
    await session.client.sendRequest("fettle/page", { name: "pack" });
    expect([...new Set(steps)]).toEqual(texts === many ? ["begin", "report", "end"] : []);
    if (texts !== many) session.end();
  }
});
