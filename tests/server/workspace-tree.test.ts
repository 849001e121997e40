/** What a client asks of a whole workspace and of the craft behind a document, on the wire. */
import { afterEach, expect, test, vi } from "vitest";
import type { EffectiveText } from "../../shared/protocol/effective.ts";
import type { CraftStatus } from "../../shared/protocol/status.ts";
import type { FindingCounts, WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";
import { following, shed } from "./closed-shed.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const wheel = 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n';
const habits = 'layer "Habits"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n';
const jug = 'craft "Jug"\n\nuse "habits.fettle"\n\nmodes\n  level when TL is up\n';
const mug = 'craft "Mug"\n\nuse "habits.fettle"\nuse "gone.fettle"\n';
const texts = {
  "/shed/habits.fettle": habits,
  "/shed/jug.fettle": jug,
  "/shed/mug.fettle": mug,
  "/shed/wheel.fettle": wheel,
};
const uri = (name: string) => `file:///shed/${name}.fettle`;

let session: Session;
afterEach(() => session?.end());

const ask = <T>(method: string, params: unknown): Promise<T> => session.client.sendRequest(`fettle/${method}`, params);

test("the tree has every script, open or not, by the editor's own addresses", async () => {
  session = await startSession(filesInMemory(texts));
  const { files } = await ask<WorkspaceTree>("workspaceTree", { findings: true });
  expect(files.map(({ file, kind, name, users, handset }) => [file, kind, name, users, handset])).toEqual([
    [uri("habits"), "layer", "Habits", [1, 2], null],
    [uri("jug"), "craft", "Jug", [], 3],
    [uri("mug"), "craft", "Mug", [], 3],
    [uri("wheel"), "handset", "Wheel", [1, 2], null],
  ]);
  expect(files[2]!.uses).toEqual([
    { line: 2, to: 0, path: "habits.fettle", why: null },
    { line: 3, to: null, path: "gone.fettle", why: "there is no such file" },
  ]);
  expect(files[2]!.findings!.worst).toEqual({ severity: "error", line: 3 });
  expect(session.log).toEqual([]);
});

test("without findings nothing is checked; with them the tree follows what is typed and not saved", async () => {
  session = await startSession(filesInMemory(texts));
  const quick = await ask<WorkspaceTree>("workspaceTree", { findings: false });
  expect(quick.files.map(({ findings }) => findings)).toEqual([null, null, null, null]);
  await session.open(uri("jug"), jug.replace("Jug", "Tall jug").replace("level", "levle"));
  const { files } = await ask<WorkspaceTree>("workspaceTree", { findings: true });
  expect([files[1]!.name, files[1]!.findings!.errors]).toEqual(["Tall jug", 1]);
});

test("the status is that of the craft behind the document, the one that is asked for where there are several", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("habits"), habits);
  const status = (craft?: string) => ask<CraftStatus>("status", { uri: uri("habits"), craft });
  expect(await status()).toMatchObject({ craft: { file: uri("jug"), name: "Jug" }, arming: { state: "ready" } });
  expect(await status(uri("mug"))).toMatchObject({ craft: { name: "Mug" }, arming: { state: "unknown" } });
  expect(await ask("status", { uri: uri("nowhere") })).toBeNull();
});

test("the effective craft follows the text, and leads to the editor's own addresses", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("jug"), jug.replace("is up", "is not down"));
  const shown = await ask<EffectiveText>("effective", { uri: uri("jug") });
  expect(shown.text).toContain("level  when TL is not down");
  expect(shown.text).toContain("arm    when TL is down");
  expect(shown.lines.map(({ sources }) => sources[0])).toContainEqual({ file: uri("habits"), line: 5 });
  expect(shown.craft).toBe("Jug");
  expect((await ask<EffectiveText>("effective", { uri: uri("habits"), craft: uri("mug") })).craft).toBe("Mug");
  expect(await ask("effective", { uri: uri("nowhere") })).toBeNull();
  expect(session.log).toEqual([]);
});

test("a client that is told of scripts that are not open sees the same numbers, and none before they are known", async () => {
  session = await startSession(filesInMemory(shed()));
  const counts = async () => {
    const { files } = await ask<WorkspaceTree>("workspaceTree", { findings: true });
    return Object.fromEntries(files.map(({ file, findings }) => [file, findings && sum(findings)]));
  };
  const sum = ({ errors, warnings, infos, hints }: FindingCounts) => errors + warnings + infos + hints;
  const alone = await counts();
  const client = following(session);
  client.begin();
  expect(Object.values(await counts())).toContain(null);
  await vi.waitFor(() => expect(client.shown.size).toBe(5));
  const told = Object.fromEntries([...client.shown].map(([file, items]) => [file, items.length]));
  expect(await counts()).toEqual(told);
  expect(told).toEqual(alone);
});
