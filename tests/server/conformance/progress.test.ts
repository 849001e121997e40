/** Results in parts and the progress of work, for clients that ask for them; and for those that take progress unasked. */
import { afterEach, describe, expect, test } from "vitest";
import { filesInMemory } from "../session.ts";
import { CLIENTS } from "./clients.ts";
import type { Part } from "./kept-schemas.ts";
import { PROGRESS, protocolJudge } from "./protocol-schemas.ts";
import { SHED, TABLE, TEXTS } from "./table.ts";
import { begin, inProcess, openWire, type Told, type Wire } from "./wire.ts";

const judge = protocolJudge();
const every = CLIENTS["all abilities"];
let wire: Wire;
afterEach(() => wire?.end());

async function start(texts: Record<string, string> = { ...TEXTS }, client = every): Promise<void> {
  wire = openWire(inProcess(filesInMemory(texts)), client);
  await begin(wire, client);
  const jug = "/shed/jug.fettle";
  if (texts[jug])
    wire.notify("textDocument/didOpen", {
      textDocument: { uri: `file://${jug}`, languageId: "fettle", version: 1, text: texts[jug] },
    });
}

/** What was told under a token, in order. */
const toldUnder = (token: string) =>
  wire.heard.flatMap(({ method, params }: Told) => {
    const told = params as { token: string; value: unknown } | undefined;
    return method === PROGRESS && told?.token === token ? [told.value] : [];
  });

/** Whether the types let a client send a token of this kind with a request. */
const takes = (method: string, name: string) =>
  judge(method, "params", { ...TABLE[method]!.params, [name]: "t" }) === null;
const isList = (method: string, part: Part) => judge(method, part, []) === null;
const methods = Object.keys(TABLE);
/** What the protocol's library gives a server no way to tell. */
const UNTOLD = ["textDocument/inlayHint", "textDocument/prepareRename"];
const listed = methods.filter(
  (method) => takes(method, "partialResultToken") && isList(method, "partial") && !UNTOLD.includes(method),
);
const working = methods.filter(
  (method) => takes(method, "workDoneToken") && ![...UNTOLD, "workspace/diagnostic"].includes(method),
);

test("there are lists that can be sent in parts, and requests of which progress can be told", () => {
  expect(listed.length).toBeGreaterThan(12);
  expect(working.length).toBeGreaterThan(20);
});

test.each(listed)("%s comes in parts where a client wants it so, and they are the whole", async (method) => {
  await start();
  const { params } = TABLE[method]!;
  const { result: whole } = await wire.request(method, params);
  const { result: left } = await wire.request(method, { ...params, partialResultToken: "parts" });
  const parts = toldUnder("parts").flat();
  if (Array.isArray(whole)) {
    expect(parts).toEqual(whole);
    expect(left).toEqual([]);
  } else expect([parts, left]).toEqual([[], whole]);
  expect(wire.faults).toEqual([]);
});

test.each(working)(
  "%s tells of its progress where a client wants to know, and ends it before the answer",
  async (method) => {
    await start();
    await wire.request(method, { ...TABLE[method]!.params, workDoneToken: "work" });
    const kinds = toldUnder("work").map((value) => (value as { kind: string }).kind);
    expect([kinds[0], kinds.at(-1)]).toEqual(["begin", "end"]);
    expect(wire.faults).toEqual([]);
  },
);

test("progress of a request that is refused, or cancelled, ends as well", async () => {
  await start();
  const at = {
    textDocument: { uri: `${SHED}/jug.fettle` },
    position: { line: 5, character: 1 },
    workDoneToken: "work",
  };
  const { error } = await wire.request("textDocument/rename", { ...at, newName: "kettle" });
  expect(error?.message).toMatch(/\.$/);
  expect(toldUnder("work")).toMatchObject([{ kind: "begin" }, { kind: "end" }]);
  const cancelled = await wire.request("workspace/symbol", { query: "", workDoneToken: "other" }, (id) =>
    wire.notify("$/cancelRequest", { id }),
  );
  expect([undefined, -32800]).toContain(cancelled.error?.code);
  expect(toldUnder("other").length).not.toBe(1);
  expect(wire.faults).toEqual([]);
});

describe("the reading of a large workspace", () => {
  const many = Object.fromEntries(
    Array.from({ length: 300 }, (_, i) => [
      `/shed/pot-${i}.fettle`,
      `craft "Pot ${i}"\npack\n  cells ${1 + (i % 6)}\n`,
    ]),
  );
  const titles = () =>
    wire.heard.flatMap(({ method, params }) => {
      const { value } = (params ?? {}) as { value?: { kind: string; title?: string } };
      return method === PROGRESS && value?.kind === "begin" ? [value.title] : [];
    });

  test("is told to a client that takes progress unasked", async () => {
    await start(many);
    await wire.request("workspace/symbol", { query: "pot" });
    await expect.poll(titles).toContain("Fettle reads the scripts");
    expect(wire.faults).toEqual([]);
  });

  test("is not told to any other, nor of a small one", async () => {
    await start(many, CLIENTS["no abilities"]);
    await wire.request("workspace/symbol", { query: "pot" });
    expect(titles()).toEqual([]);
    wire.end();
    await start();
    await wire.request("workspace/symbol", { query: "jug" });
    await wire.settled();
    expect(titles()).toEqual([]);
    expect(wire.faults).toEqual([]);
  });
});

describe("findings of a document", () => {
  const inJug = { textDocument: { uri: `${SHED}/jug.fettle` } };

  test("are said to be the same as before, also by another server, and are sent again once they are others", async () => {
    await start();
    const { result: first } = await wire.request("textDocument/diagnostic", inJug);
    expect(first).toMatchObject({ kind: "full", resultId: expect.any(String) });
    wire.end();
    await start();
    const again = { ...inJug, previousResultId: first.resultId };
    const { result: same } = await wire.request("textDocument/diagnostic", again);
    expect(same).toEqual({ kind: "unchanged", resultId: first.resultId });
    wire.notify("textDocument/didChange", {
      textDocument: { ...inJug.textDocument, version: 2 },
      contentChanges: [{ text: 'craft "Jug"\n\npack\n  cells 99\n' }],
    });
    const { result: other } = await wire.request("textDocument/diagnostic", again);
    expect(other).toMatchObject({ kind: "full", items: [{ code: "out-of-range" }] });
    expect(other.resultId).not.toBe(first.resultId);
    expect(wire.faults).toEqual([]);
  });
});

test("a pull of the whole workspace that is ended says so with the code that the protocol has", async () => {
  await start();
  let asked = 0;
  const first = wire.request("workspace/diagnostic", { previousResultIds: [], partialResultToken: "a" }, (id) => {
    asked = id;
  });
  await expect.poll(() => toldUnder("a").length).toBeGreaterThan(0);
  wire.notify("$/cancelRequest", { id: asked });
  expect((await first).error?.code).toBe(-32800);
  const second = await wire.request("workspace/diagnostic", { previousResultIds: [] });
  expect(second.result.items.length).toBeGreaterThan(0);
  expect(wire.faults).toEqual([]);
});
