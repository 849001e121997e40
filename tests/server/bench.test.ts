/** What is written down on the bench list: edits with the versions that they are made for, and what a text would be read as. */
import { afterEach, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import type {
  BenchEditParams,
  BenchEditResult,
  BenchReadingParams,
  BenchTrial,
} from "../../shared/protocol/bench-edit.ts";
import type { BenchFileResult } from "../../shared/protocol/bench-file.ts";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const habits = 'layer "Habits"\n\nbench\n  motors-checked  2026-04-18\n';
const jug = 'craft "Jug"\nuse "my habits.fettle"\n';
const mug = 'craft "Mug"\nuse "my habits.fettle"\n';
const texts = { "/shed/my habits.fettle": habits, "/shed/jug.fettle": jug, "/shed/mug.fettle": mug };
const JUG = asUri("file:///shed/jug.fettle");
const MUG = asUri("file:///shed/mug.fettle");
const HABITS = asUri("file:///shed/my%20habits.fettle");
const day = { kind: "day", check: "bench.motors-checked", day: "2026-11-29" } as const;

let session: Session;
afterEach(() => session?.end());

const edit = (params: Partial<BenchEditParams>): Promise<BenchEditResult> =>
  session.client.sendRequest("fettle/benchEdit", { uri: JUG, gesture: day, ...params });
const reads = (params: Partial<BenchReadingParams>): Promise<BenchTrial> =>
  session.client.sendRequest("fettle/benchReading", { uri: JUG, name: "bench.roll", text: "988 2012", ...params });

test("the edits come with the version of the document that they were made for", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  expect(await edit({})).toMatchObject({
    kind: "edits",
    told: "Written: “motors-checked 2026-11-29”, in “Jug” itself, over line 4 of “Habits”, which stays.",
    files: [{ file: JUG, version: 1, edits: [{ text: "\nbench\n  motors-checked  2026-11-29\n" }] }],
  });
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 7 },
    contentChanges: [{ text: `${jug}\nbench\n  order-checked  2026-04-18\n` }],
  });
  expect(await edit({})).toMatchObject({ files: [{ version: 7, edits: [{ text: "\n  motors-checked 2026-11-29" }] }] });
});

test("of a layer the craft that was shown is written to, which need not be open", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(HABITS, habits);
  expect(await edit({ uri: HABITS, craft: MUG })).toMatchObject({ files: [{ file: MUG, version: null }] });
});

test("what cannot be written is refused, and what is typed is read", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  expect(await edit({ gesture: { kind: "reading", name: "bench.roll", text: "988" } })).toMatchObject({
    kind: "refused",
    message: expect.stringContaining("Two figures are needed"),
  });
  expect(await reads({})).toEqual({ kind: "reads", text: "988 us to 2012 us", found: [] });
  expect(await reads({ uri: HABITS, craft: MUG, text: "988" })).toMatchObject({ kind: "unclear" });
  expect(await reads({ uri: asUri("file:///shed/none.fettle") })).toMatchObject({ kind: "unclear" });
});

test("the list is in the model while its view is shown, with the editor's addresses, and is made as a file", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(HABITS, habits);
  const model = (params: object): Promise<PanelModel> =>
    session.client.sendRequest("fettle/panel", { uri: HABITS, craft: MUG, ...params });
  expect((await model({ view: "goggles" })).bench).toBeUndefined();
  expect((await model({ view: "numbers", besides: "bench" })).numbers).toBeDefined();
  const { bench } = await model({ view: "numbers", besides: "bench" });
  expect(bench).toMatchObject({ shown: "due", canChoose: true, list: { file: MUG, craft: "Mug" } });
  expect(bench?.list.checks.find(({ name }) => name === "bench.motors-checked")?.at).toEqual({ file: HABITS, line: 3 });
  expect((await model({ view: "bench", bench: "all" })).bench?.shown).toBe("all");
  const file = (form: string): Promise<BenchFileResult> =>
    session.client.sendRequest("fettle/benchFile", { uri: HABITS, craft: MUG, form });
  const page = await file("page");
  expect(page).toMatchObject({ kind: "text", name: "Mug", proposed: "file:///shed/mug-bench.html" });
  expect(page.kind === "text" && page.text).toMatch(/^<!doctype html>/i);
  // The folders of a disk are nobody else's business.
  expect(JSON.stringify([page, await file("markdown")])).not.toContain("/shed/habits");
  expect(await file("markdown")).toMatchObject({ text: expect.stringContaining("# Bench list: Mug") });
});

test("a stale check offers the list where the client has a command for it", async () => {
  const stale = `${mug}\nboard\n  flashed-on  2026-05-01\n`;
  session = await startSession(filesInMemory({ ...texts, "/shed/mug.fettle": stale }), PULLING, {
    benchCommand: "its.own",
  });
  await session.open(MUG, stale);
  const at = { line: 4, character: 16 };
  const actions: { title: string; command?: object }[] = await session.client.sendRequest("textDocument/codeAction", {
    textDocument: { uri: MUG },
    range: { start: at, end: at },
    context: { diagnostics: [], only: ["quickfix"] },
  });
  expect(actions.find(({ title }) => title === "Show it on the bench list")?.command).toEqual({
    title: "Show it on the bench list",
    command: "its.own",
    arguments: [MUG],
  });
});
