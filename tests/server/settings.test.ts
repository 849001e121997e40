/** What the user has set, by every way in which an editor tells it: it counts at once, and nonsense is left out. */
import { afterEach, describe, expect, test } from "vitest";
import { readSettings } from "../../server/src/lsp/settings.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const jugUri = "file:///shed/jug.fettle";
const jug = `craft "Jug"
use "wheel.fettle"
pack
  chemistry lipo
  cells 4
  cells 6
  capacity 1000 mAh
modes
  arm when TL is down
`;
const texts = { "/shed/wheel.fettle": 'handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n' };

describe("reading", () => {
  const usual = { findsInClosed: true, showsLenses: true, useLines: "ask" };
  test.each<[string, unknown, object, number]>([
    ["nothing", undefined, usual, 0],
    ["null", null, usual, 0],
    ["a text", "kettle", usual, 0],
    ["a list", [1, 2], usual, 0],
    ["an empty section", {}, usual, 0],
    ["nested", { findings: { ofClosedScripts: false } }, { ...usual, findsInClosed: false }, 0],
    ["with dots", { "findings.ofClosedScripts": false }, { ...usual, findsInClosed: false }, 0],
    ["a part that is null", { findings: null, lenses: null, rules: null, hints: null, useLines: null }, usual, 0],
    ["a part of another type", { findings: 3, lenses: "no", rules: "off", hints: [], useLines: 7 }, usual, 4],
    ["one way of three", { useLines: "never", lenses: false }, { ...usual, useLines: "never", showsLenses: false }, 0],
    ["a way that there is not", { useLines: "sometimes" }, usual, 1],
    ["others' names", { panel: { reveal: true }, kettle: {} }, usual, 0],
    ["a name that objects have", { rules: { constructor: "off", __proto__: "off" } }, usual, 1],
  ])("%s", (_, section, expected, refused) => {
    const read = readSettings(section);
    expect(read.settings).toMatchObject(expected);
    expect(read.refused).toHaveLength(refused);
  });

  test("rules: what makes sense is taken, and the rest is said", () => {
    const { settings, refused } = readSettings({
      rules: { "osd-overlap": "off", "arm-at-rest": 3, "osd-overlp": "hint", syntax: "off", "use-missing": "hint" },
    });
    expect([...settings.levels]).toEqual([
      ["osd-overlap", "off"],
      ["use-missing", "hint"],
    ]);
    expect(refused).toEqual([
      "The setting fettle.rules has a line that is left out: arm-at-rest is set to off, hint, info, warning or error, not to anything else.",
      "The setting fettle.rules has a line that is left out: there is no rule “osd-overlp”: did you mean osd-overlap?",
      "The setting fettle.rules has a line that is left out: syntax cannot be turned off, since its findings say what was not understood: set it to hint, info, warning or error.",
    ]);
  });

  test("hints: a kind that is not named is shown", () => {
    const { settings, refused } = readSettings({ hints: { pulses: false, kettle: true, consequence: "yes" } });
    expect([settings.showsHint("pulses"), settings.showsHint("consequence")]).toEqual([false, true]);
    expect(refused).toHaveLength(2);
  });

  test("equal settings have equal keys, and others do not", () => {
    const key = (section: unknown) => readSettings(section).key;
    expect(key({ rules: { "osd-overlap": "off" } })).toBe(
      key({ rules: { "osd-overlap": "off", kettle: "off" }, lenses: true }),
    );
    const sections = [
      {},
      { lenses: false },
      { useLines: "never" },
      { hints: { pulses: false } },
      { findings: { ofClosedScripts: false } },
      { together: ["Jug"] },
      { rules: { "osd-overlap": "off" } },
    ];
    expect(new Set(sections.map(key)).size).toBe(sections.length);
  });
});

let session: Session;
afterEach(() => session?.end());

const codes = async () => (await session.pull(jugUri)).map(({ code, severity }) => `${code} ${severity}`);
const duplicate = "duplicate-entry 2";
const settingsSent = (settings: unknown) =>
  session.client.sendNotification("workspace/didChangeConfiguration", { settings });

test("an editor that asks nothing back gives them with its first message, and sends what changes", async () => {
  session = await startSession(filesInMemory(texts), PULLING, { settings: { rules: { "duplicate-entry": "hint" } } });
  await session.open(jugUri, jug);
  expect(await codes()).toContain("duplicate-entry 4");
  await settingsSent({ fettle: { rules: { "duplicate-entry": "off" } } });
  expect((await codes()).join()).not.toContain("duplicate-entry");
  // Without the name of the section, as some editors send it.
  await settingsSent({ rules: { "duplicate-entry": "info" } });
  expect(await codes()).toContain("duplicate-entry 3");
  await settingsSent({ fettle: {} });
  expect(await codes()).toContain(duplicate);
  await settingsSent(null);
  await settingsSent("nonsense");
  expect(await codes()).toContain(duplicate);
});

/** A session with an editor that is asked for its settings, and can refresh what it shows. */
async function asking(
  initially: unknown,
): Promise<{ set(section: unknown): Promise<void>; refreshed: string[]; registered: string[] }> {
  let section = initially;
  const refreshed: string[] = [];
  const registered: string[] = [];
  session = await startSession(
    filesInMemory(texts),
    {
      ...PULLING,
      workspace: {
        configuration: true,
        didChangeConfiguration: { dynamicRegistration: true },
        diagnostics: { refreshSupport: true },
        inlayHint: { refreshSupport: true },
        codeLens: { refreshSupport: true },
      },
    },
    undefined,
    undefined,
    (client) => {
      client.onRequest("workspace/configuration", ({ items }) =>
        items.map((item: { section: string }) => (item.section === "fettle" ? section : null)),
      );
      client.onRequest("client/registerCapability", ({ registrations }) => {
        registered.push(...registrations.map(({ method }: { method: string }) => method));
        return null;
      });
      for (const what of ["diagnostic", "inlayHint", "codeLens"])
        client.onRequest(`workspace/${what}/refresh`, () => {
          refreshed.push(what);
          return null;
        });
    },
  );
  return {
    refreshed,
    registered,
    set(now) {
      section = now;
      return settingsSent(null);
    },
  };
}

test("an editor that can be asked is asked, and asked again when it says that something changed", async () => {
  const editor = await asking({ rules: { "duplicate-entry": "off" } });
  await session.open(jugUri, jug);
  await expect.poll(async () => (await codes()).join()).not.toContain("duplicate-entry");
  expect(editor.registered).toContain("workspace/didChangeConfiguration");
  editor.refreshed.length = 0;
  await editor.set({ rules: { "duplicate-entry": "error" } });
  await expect.poll(() => editor.refreshed).toEqual(["diagnostic", "inlayHint", "codeLens"]);
  expect(await codes()).toContain("duplicate-entry 1");
  // What is not ours, and what stays as it is, refreshes nothing.
  editor.refreshed.length = 0;
  await editor.set({ rules: { "duplicate-entry": "error" }, panel: { reveal: true } });
  await session.client.sendRequest("fettle/page", { name: "pack" });
  expect(editor.refreshed).toEqual([]);
});

test("an editor that answers nothing keeps what came with its first message", async () => {
  session = await startSession(
    filesInMemory(texts),
    { ...PULLING, workspace: { configuration: true } },
    { settings: { rules: { "duplicate-entry": "off" } } },
    undefined,
    (client) => client.onRequest("workspace/configuration", ({ items }) => items.map(() => null)),
  );
  await session.open(jugUri, jug);
  await session.client.sendRequest("fettle/page", { name: "pack" });
  expect((await codes()).join()).not.toContain("duplicate-entry");
});

test("what makes no sense is said once in the log, and the rest counts", async () => {
  const settings = { rules: { "duplicate-entry": "off", kettle: "off" } };
  session = await startSession(filesInMemory(texts), PULLING, { settings });
  await session.open(jugUri, jug);
  expect((await codes()).join()).not.toContain("duplicate-entry");
  await settingsSent({ fettle: { ...settings, lenses: false } });
  await codes();
  expect(session.log.filter((line) => line.includes("kettle"))).toHaveLength(1);
});

test("a finding that is off has no repair, no note to accept it, and is not in the panel", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(jugUri, jug);
  const asked = {
    textDocument: { uri: jugUri },
    range: { start: { line: 5, character: 2 }, end: { line: 5, character: 2 } },
    context: { diagnostics: [] },
  };
  const actions = async () =>
    ((await session.client.sendRequest("textDocument/codeAction", asked)) as { title: string }[]).filter(({ title }) =>
      title.includes("duplicate-entry"),
    );
  const inPanel = async () =>
    JSON.stringify(
      ((await session.client.sendRequest("fettle/panel", { uri: jugUri })) as { findings: unknown }).findings,
    );
  expect(await actions()).not.toEqual([]);
  expect(await inPanel()).toContain("duplicate-entry");
  await settingsSent({ fettle: { rules: { "duplicate-entry": "off" } } });
  expect(await actions()).toEqual([]);
  expect(await inPanel()).not.toContain("duplicate-entry");
});

test("lenses and each kind of hint can be turned off by themselves", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(jugUri, jug);
  const textDocument = { uri: jugUri };
  const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const counts = async () => [
    ((await session.client.sendRequest("textDocument/codeLens", { textDocument })) as unknown[]).length,
    ((await session.client.sendRequest("textDocument/inlayHint", { textDocument, range })) as { label: string }[])
      .map(({ label }) => (/ us$/.test(label) ? "pulses" : "consequence"))
      .sort()
      .join(),
  ];
  const [lenses, hints] = await counts();
  expect([lenses, hints]).toEqual([1, "consequence,pulses"]);
  await settingsSent({ fettle: { lenses: false, hints: { pulses: false } } });
  expect(await counts()).toEqual([0, "consequence"]);
  await settingsSent({ fettle: { hints: { consequence: false } } });
  expect(await counts()).toEqual([1, "pulses"]);
  await settingsSent({ fettle: { hints: { consequence: false, pulses: false } } });
  expect(await counts()).toEqual([1, ""]);
});
