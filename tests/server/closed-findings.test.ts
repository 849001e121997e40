/** The findings of scripts that are not open: pulled at once, told as they change, or pushed. */
import fc from "fast-check";
import { afterEach, describe, expect, test } from "vitest";
import type { CancellationTokenSource as Cancellation, Diagnostic } from "vscode-languageserver/node";
import { CancellationTokenSource } from "vscode-languageserver/node";
import { glow } from "../ide/own-words/glow.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const craft = (name: string, uses: readonly string[], more = "") =>
  `craft "${name}"\n${uses.map((path) => `use "${path}"\n`).join("")}${more}`;
const pack = "pack\n  chemistry lipo\n  cells 4\n";
const twice = `${pack}  cells 6\n`;
const base = (tilt = "30 deg") => `layer "Base"\nsafety\n  arm-tilt-limit ${tilt}\n`;

/** A shed of five scripts: two craft on a layer, one of them with a finding of its own, one craft by itself, one faulty. */
const shed = () => ({
  "/shed/base.fettle": base(),
  "/shed/jug.fettle": craft("Jug", ["base.fettle"], pack),
  "/shed/far/mug.fettle": craft("Mug", ["../base.fettle"], twice),
  "/shed/urn.fettle": craft("Urn", [], pack),
  "/shed/bowl.fettle": craft("Bowl", ["gone.fettle"], "kettle\n"),
});

interface Report {
  readonly uri: string;
  readonly kind: "full" | "unchanged";
  readonly resultId?: string;
  readonly version: null;
  readonly items: Diagnostic[];
}

let session: Session;
afterEach(() => session?.end());

const uriOf = (name: string) => `file:///shed/${name}.fettle`;
const nameOf = (uri: string) => uri.replace("file:///shed/", "").replace(".fettle", "");
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

/** What a client knows that takes partial results: the last report of each script, and all of them in order. */
function following() {
  const shown = new Map<string, Diagnostic[]>();
  const ids = new Map<string, string>();
  let reports: Report[] = [];
  const source: Cancellation = new CancellationTokenSource();
  return {
    shown,
    ids,
    /** The names of what was reported since the last time this was asked. */
    news: () => {
      const names = reports.map(({ uri, kind }) => (kind === "unchanged" ? `${nameOf(uri)} unchanged` : nameOf(uri)));
      reports = [];
      return names.sort();
    },
    begin(token = "stream", previousResultIds: readonly { uri: string; value: string }[] = []) {
      session.client.onNotification("$/progress", (progress: { token: string; value: { items: Report[] } }) => {
        if (progress.token !== token) return;
        for (const report of progress.value.items) {
          reports.push(report);
          if (report.kind === "full") shown.set(report.uri, report.items);
          if (report.resultId === undefined) ids.delete(report.uri);
          else ids.set(report.uri, report.resultId);
        }
      });
      const answer = session.client.sendRequest<{ items: Report[] }>(
        "workspace/diagnostic",
        { previousResultIds, partialResultToken: token },
        source.token,
      );
      // It stays open until somebody ends it: with the session, in most cases.
      answer.catch(() => undefined);
      return answer;
    },
    cancel: () => source.cancel(),
  };
}

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
    const stream = following();
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
    const stream = following();
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
    const stream = following();
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

/** What may happen in a workspace, one thing after another. */
const TEXTS = [
  base(),
  base("30"),
  '# allow duplicate-entry: two packs\nlayer "Base"\n',
  craft("Jug", ["base.fettle"], twice),
  craft("Jug", ["urn.fettle", "far/mug.fettle"], pack),
  craft("Mug", ["../base.fettle"], pack),
  craft("Urn", [], twice),
  "kettle\n",
];
const NAMES = ["base", "jug", "far/mug", "urn"] as const;
const step = fc.record({
  what: fc.constantFrom("disk", "delete", "open", "type", "close", "level", "off"),
  name: fc.constantFrom(...NAMES),
  text: fc.nat(TEXTS.length - 1),
});

test("whatever happens, a client that follows knows in the end what one knows that asks afterwards", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 8 }), async (steps) => {
      const texts: Record<string, string> = shed();
      session = await startSession(filesInMemory(texts));
      const stream = following();
      const answer = stream.begin();
      const opened = new Map<string, string>();
      let [version, level, isOff] = [1, "warning", false];
      for (const { what, name, text } of steps) {
        const uri = uriOf(name);
        const path = `/shed/${name}.fettle`;
        if (what === "disk") {
          texts[path] = TEXTS[text]!;
          await watched({ uri, type: 1 }, { uri, type: 2 });
        } else if (what === "delete") {
          delete texts[path];
          await watched({ uri, type: 3 });
        } else if (what === "open" && !opened.has(name)) {
          opened.set(name, TEXTS[text]!);
          await session.open(uri, TEXTS[text]!);
        } else if (what === "type" && opened.has(name)) {
          opened.set(name, TEXTS[text]!);
          await typed(name, ++version, TEXTS[text]!);
        } else if (what === "close" && opened.delete(name)) await closed(name);
        else if (what === "level" || what === "off") {
          if (what === "off") isOff = !isOff;
          else level = level === "hint" ? "warning" : "hint";
          await settings({ rules: { "duplicate-entry": level }, findings: { ofClosedScripts: !isOff } });
        }
        if (text % 3 === 0) await new Promise((resolve) => setTimeout(resolve, 25));
      }
      await expect
        .poll(
          async () => {
            const known = [...stream.shown].filter(([uri]) => !opened.has(nameOf(uri)));
            const wanted = await askedAfterwards(texts, opened, level, isOff);
            return [known, wanted].map((all) => JSON.stringify(all.filter(([, items]) => items.length > 0).sort()));
          },
          { timeout: 5000 },
        )
        .toSatisfy(([known, wanted]: string[]) => known === wanted);
      void answer.catch(() => undefined);
      session.end();
    }),
    { numRuns: 12 },
  );

  /** What a server says that begins with everything as it is. */
  async function askedAfterwards(
    texts: Record<string, string>,
    opened: ReadonlyMap<string, string>,
    level: string,
    isOff: boolean,
  ): Promise<[string, Diagnostic[]][]> {
    const first = session;
    try {
      session = await startSession(filesInMemory(texts), PULLING, {
        settings: { rules: { "duplicate-entry": level }, findings: { ofClosedScripts: !isOff } },
      });
      for (const [name, text] of opened) await session.open(uriOf(name), text);
      const reports = await pullAll();
      session.end();
      return reports.map(({ uri, items }) => [uri, items]);
    } finally {
      session = first;
    }
  }
});
