import { afterEach, expect, test, vi } from "vitest";
import type { CodeLens } from "vscode-languageserver/node";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const wheel = 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n';
const habits = 'layer "Habits"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n';
const jug = 'craft "Jug"\n\nuse "habits.fettle"\n\nmodes\n  level when TL is up\n';
const texts = { "/shed/wheel.fettle": wheel, "/shed/habits.fettle": habits, "/shed/jug.fettle": jug };
const JUG = "file:///shed/jug.fettle";
const HABITS = "file:///shed/habits.fettle";

let session: Session;
afterEach(() => {
  session?.end();
  vi.useRealTimers();
});

/**
 * Delays go by the clock of the test. A turn that is only let go by, with no delay, stays real: on a busy machine
 * the server takes some while it reads, and would wait for ever.
 */
function fakeDelays(): void {
  const real = globalThis.setTimeout;
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const faked = globalThis.setTimeout;
  globalThis.setTimeout = new Proxy(faked, {
    apply: (_, self, args: [() => void, number?]) => ((args[1] ?? 0) > 0 ? faked : real).apply(self, args),
  });
}

function lenses(uri: string): Promise<CodeLens[]> {
  return session.client.sendRequest("textDocument/codeLens", { textDocument: { uri } });
}

test("a craft's own modes have lenses that are words alone, and follow the text as it is typed", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  const range = { start: { line: 5, character: 2 }, end: { line: 5, character: 7 } };
  expect(await lenses(JUG)).toEqual([{ range, command: { title: "on in 1 of 2 states; at rest: on", command: "" } }]);
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 2 },
    contentChanges: [{ text: jug.replace("is up", "is down") }],
  });
  expect((await lenses(JUG))[0]!.command!.title).toBe("on in 1 of 2 states; at rest: off");
});

test("a layer says by how many craft it is used", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(HABITS, habits);
  expect((await lenses(HABITS)).map(({ command }) => command)).toEqual([{ title: "used by 1 craft", command: "" }]);
});

test("a client that has a command for them gets lenses that lead on, each with where to", async () => {
  session = await startSession(filesInMemory(texts), PULLING, { lensCommand: "follow" });
  await session.open(JUG, jug);
  await session.open(HABITS, habits);
  const shown = async (uri: string) =>
    (await lenses(uri)).map(({ command }) => [command!.title, command!.command, ...(command!.arguments ?? [])]);
  const leads = (uri: string, title: string, action: unknown) => [title, "follow", { uri, action }];
  const views = (uri: string) =>
    ["Goggles", "Switches", "Numbers"].map((title) => leads(uri, title, { kind: "view", view: title.toLowerCase() }));
  expect(await shown(JUG)).toEqual([
    ...views(JUG),
    leads(JUG, "as effective craft", { kind: "effective" }),
    leads(JUG, "on in 1 of 2 states; at rest: on", { kind: "positions", positions: {} }),
  ]);
  expect(await shown(HABITS)).toEqual([
    ...views(HABITS),
    leads(HABITS, "used by 1 craft", { kind: "users" }),
    leads(HABITS, "as effective craft", { kind: "effective" }),
  ]);
  expect(session.log).toEqual([]);
});

test("an editor that can is told to ask anew when a used file changes behind its back", async () => {
  const files: Record<string, string> = { ...texts };
  session = await startSession(filesInMemory(files), { ...PULLING, workspace: { codeLens: { refreshSupport: true } } });
  const asked = new Promise<void>((resolve) => {
    session.client.onRequest("workspace/codeLens/refresh", () => {
      resolve();
      return null;
    });
  });
  await session.open(JUG, jug);
  expect((await lenses(JUG))[0]!.command!.title).toBe("on in 1 of 2 states; at rest: on");
  // Now a third state can be reached: neither mode on, with TL in the middle.
  files["/shed/wheel.fettle"] = wheel.replace("up 1000 us", "up 1000 us mid 1500 us");
  const changes = [{ uri: "file:///shed/wheel.fettle", type: 2 }];
  await session.client.sendNotification("workspace/didChangeWatchedFiles", { changes });
  await asked;
  expect((await lenses(JUG))[0]!.command!.title).toBe("on in 1 of 3 states; at rest: on");
  expect(session.log).toEqual([]);
});

test("an editor that can is told to ask anew for a craft beside the layer that is typed in, once for each pause", async () => {
  fakeDelays();
  session = await startSession(filesInMemory(texts), { ...PULLING, workspace: { codeLens: { refreshSupport: true } } });
  let times = 0;
  session.client.onRequest("workspace/codeLens/refresh", () => {
    times++;
    return null;
  });
  /** How often the editor has been told, once the server has answered for all before. */
  const told = async () => {
    await lenses(HABITS);
    return times;
  };
  const type = (version: number, text: string) =>
    session.client.sendNotification("textDocument/didChange", {
      textDocument: { uri: HABITS, version },
      contentChanges: [{ text }],
    });
  await session.open(JUG, jug);
  await session.open(HABITS, habits);
  for (const version of [2, 3, 4]) {
    await type(version, version === 4 ? habits.replace("  arm when TL is down\n", "") : habits);
    expect(await told()).toBe(0);
    vi.advanceTimersByTime(299);
    expect(await told()).toBe(0);
  }
  vi.advanceTimersByTime(1);
  expect(await told()).toBe(1);
  expect((await lenses(JUG))[0]!.command!.title).toBe("on in 1 of 2 states; at rest: on");
  vi.advanceTimersByTime(1000);
  expect(await told()).toBe(1);
  await type(5, habits);
  expect(await told()).toBe(1);
  vi.advanceTimersByTime(300);
  expect(await told()).toBe(2);
  expect(session.log).toEqual([]);
});
