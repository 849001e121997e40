/** The setting “together”: craft by their files or names, open or not, and every change of what one of them sends shows on the others. */
import { afterEach, describe, expect, test, vi } from "vitest";
import type { Diagnostic } from "vscode-languageserver/node";
import { readSettings } from "../../server/src/lsp/settings.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

let session: Session;
afterEach(() => session?.end());

const craft = (name: string, mhz: number) =>
  `craft "${name}"\n\nvideo\n  signal analogue\n  frequency ${mhz} MHz\n  power 25 mW\n`;
const uriOf = (name: string) => `file:///shed/craft/${name}.fettle`;
const shed = () => ({
  "/shed/craft/jug.fettle": craft("Jug", 5806),
  "/shed/craft/saucer.fettle": craft("Saucer", 5806),
  "/shed/craft/cup.fettle": craft("Cup", 5658),
  "/shed/craft/bowl.fettle": 'craft "Bowl"\nuse "../goggles.fettle"\n',
  "/shed/goggles.fettle": 'layer "Goggles"\nvideo\n  signal analogue\n  frequency 5658 MHz\n',
});

const begin = (texts: Record<string, string>, together: unknown) =>
  startSession(filesInMemory(texts), undefined, { settings: { together } });
const of = (items: readonly Diagnostic[]) =>
  items.filter(({ code }) => code === "fleet-video").map(({ message }) => String(message).split(":")[0]);
const found = async (name: string) => of(await session.pull(uriOf(name)));
const eventually = (name: string, expected: readonly string[]) =>
  vi.waitFor(async () => expect(await found(name)).toEqual(expected), { timeout: 5000 });
const typed = (name: string, version: number, text: string) =>
  session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: uriOf(name), version },
    contentChanges: [{ text }],
  });
const written = (name: string, type: 1 | 2 | 3 = 2) =>
  session.client.sendNotification("workspace/didChangeWatchedFiles", { changes: [{ uri: uriOf(name), type }] });

const BY_JUG = ["“Jug” sends on 5806 MHz as well"];
const BY_SAUCER = ["“Saucer” sends on 5806 MHz as well"];

describe("who is named", () => {
  test.each([
    ["by their files", ["craft/jug.fettle", "craft/saucer.fettle"]],
    ["by their names", ["Jug", "Saucer"]],
    ["by both, and one twice", ["craft/jug.fettle", "Saucer", "Jug"]],
    ["in another way of writing paths", ["craft\\jug.fettle", "./craft/../craft/saucer.fettle"]],
  ])("%s", async (_, together) => {
    const texts = shed();
    session = await begin(texts, together);
    await session.open(uriOf("jug"), texts["/shed/craft/jug.fettle"]);
    await eventually("jug", BY_SAUCER);
    expect(await found("saucer")).toEqual(BY_JUG);
    expect(await found("cup")).toEqual([]);
  });

  test("a fix moves the craft whose own line is to change, and no other", async () => {
    const texts = shed();
    session = await begin(texts, ["Jug", "Saucer"]);
    await session.open(uriOf("saucer"), texts["/shed/craft/saucer.fettle"]);
    await eventually("saucer", BY_JUG);
    const [diagnostic] = (await session.pull(uriOf("saucer"))).filter(({ code }) => code === "fleet-video");
    const actions = await session.client.sendRequest<{ title: string; edit?: { changes?: object } }[]>(
      "textDocument/codeAction",
      { textDocument: { uri: uriOf("saucer") }, range: diagnostic!.range, context: { diagnostics: [diagnostic] } },
    );
    const move = actions.find(({ title }) => title === "Move to 5769 MHz");
    expect(JSON.stringify(move?.edit)).toContain('"newText":"5769 MHz"');
  });

  test("nobody, until the setting says so, and then no more", async () => {
    const texts = shed();
    session = await begin(texts, []);
    await session.open(uriOf("jug"), texts["/shed/craft/jug.fettle"]);
    expect(await found("jug")).toEqual([]);
    const set = (together: readonly string[]) =>
      session.client.sendNotification("workspace/didChangeConfiguration", { settings: { fettle: { together } } });
    await set(["Jug", "Saucer"]);
    await eventually("jug", BY_SAUCER);
    await set(["Jug", "Cup"]);
    await eventually("jug", []);
    expect(session.log).toEqual([]);
  });

  test("what is not there is said once, and counts as soon as it is", async () => {
    const texts: Record<string, string> = shed();
    session = await begin(texts, ["Jug", "Teapot", "craft/teapot.fettle", "goggles.fettle", "Saucer"]);
    await session.open(uriOf("jug"), texts["/shed/craft/jug.fettle"]!);
    await eventually("jug", BY_SAUCER);
    await vi.waitFor(() => expect(session.log).toHaveLength(1));
    expect(session.log[0]?.split("\n")).toEqual([
      "In the setting fettle.together: No craft of this workspace is called “Teapot”: write its name as the first line of its script does, or its file.",
      "In the setting fettle.together: “craft/teapot.fettle” is no craft of this workspace: name it from a folder that is open, as in “craft/jug.fettle”.",
      "In the setting fettle.together: “goggles.fettle” is no craft of this workspace: name it from a folder that is open, as in “craft/jug.fettle”.",
    ]);
    texts["/shed/craft/teapot.fettle"] = craft("Teapot", 5806);
    await written("teapot", 1);
    await eventually("teapot", [
      "The picture at 5806 MHz stands in the way of that of “Jug” at 5806 MHz and “Saucer” at 5806 MHz",
    ]);
  });

  test("of two craft of one name neither is meant", async () => {
    const texts = { ...shed(), "/shed/craft/other.fettle": craft("Saucer", 5806) };
    session = await begin(texts, ["Jug", "Saucer"]);
    await session.open(uriOf("jug"), texts["/shed/craft/jug.fettle"]);
    await vi.waitFor(() => expect(session.log.join()).toContain("2 craft are called “Saucer”"), { timeout: 5000 });
    expect(await found("jug")).toEqual([]);
  });
});

describe("what changes", () => {
  test("on one craft shows on the other at once, typed or written, and in a layer", async () => {
    const texts: Record<string, string> = shed();
    session = await begin(texts, ["Jug", "Saucer", "Bowl"]);
    await session.open(uriOf("jug"), texts["/shed/craft/jug.fettle"]!);
    await session.open(uriOf("saucer"), texts["/shed/craft/saucer.fettle"]!);
    await eventually("jug", BY_SAUCER);
    await typed("saucer", 2, craft("Saucer", 5769));
    expect(await found("jug")).toEqual([]);
    await typed("saucer", 3, craft("Saucer", 5806));
    expect(await found("jug")).toEqual(BY_SAUCER);
    await typed("saucer", 4, craft("Saucer", 5769));
    texts["/shed/goggles.fettle"] = 'layer "Goggles"\nvideo\n  signal analogue\n  frequency 5806 MHz\n';
    await session.client.sendNotification("workspace/didChangeWatchedFiles", {
      changes: [{ uri: "file:///shed/goggles.fettle", type: 2 }],
    });
    expect(await found("jug")).toEqual(["“Bowl” sends on 5806 MHz as well"]);
  });

  test("on one craft is found in others that are not open", async () => {
    const texts: Record<string, string> = shed();
    session = await begin(texts, ["craft/jug.fettle", "craft/saucer.fettle"]);
    const pullAll = async () => {
      const { items } = await session.client.sendRequest<{ items: { uri: string; items?: Diagnostic[] }[] }>(
        "workspace/diagnostic",
        { previousResultIds: [] },
      );
      return Object.fromEntries(items.map(({ uri, items }) => [uri, of(items ?? [])]));
    };
    await vi.waitFor(
      async () => expect(await pullAll()).toMatchObject({ [uriOf("jug")]: BY_SAUCER, [uriOf("saucer")]: BY_JUG }),
      { timeout: 5000 },
    );
    texts["/shed/craft/saucer.fettle"] = craft("Saucer", 5769);
    await written("saucer");
    expect(await pullAll()).toMatchObject({ [uriOf("jug")]: [], [uriOf("saucer")]: [], [uriOf("cup")]: [] });
  });
});

describe("the setting", () => {
  test.each<[string, unknown, readonly string[], number]>([
    ["is not set", undefined, [], 0],
    ["is null", null, [], 0],
    ["is a list", ["Jug", "craft/saucer.fettle"], ["Jug", "craft/saucer.fettle"], 0],
    ["is a text", "Jug", [], 1],
    ["holds something else", ["Jug", 3, "", null], ["Jug"], 1],
    ["names one twice", ["Jug", " Jug "], ["Jug"], 0],
    ["names too many", Array.from({ length: 50 }, (_, i) => `${i}`), Array.from({ length: 40 }, (_, i) => `${i}`), 1],
  ])("%s", (_, together, expected, refused) => {
    const read = readSettings({ together });
    expect(read.settings.together).toEqual(expected);
    expect(read.refused).toHaveLength(refused);
  });
});
