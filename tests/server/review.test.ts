import { afterEach, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { ReviewParams, ReviewResult } from "../../shared/protocol/review.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const texts = {
  "/shed/wheel.fettle":
    'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch6 up 1000 us mid 1500 us down 2000 us\n',
  "/shed/habits ä.fettle": 'layer "Habits"\n\nmodes\n  arm  when TL is down\n',
  "/shed/jug.fettle": 'craft "Jug"\nuse "wheel.fettle"\nuse "habits ä.fettle"\n\npack\n  warn-at  3.5 V/cell\n',
  "/shed/mug.fettle":
    'craft "Mug"\nuse "wheel.fettle"\nuse "habits ä.fettle"\n\npack\n  cells    4\n  warn-at  3.6 V/cell\n',
};
const JUG = asUri("file:///shed/jug.fettle");
const MUG = asUri("file:///shed/mug.fettle");
const LAYER = asUri("file:///shed/habits%20%C3%A4.fettle");

let session: Session;
afterEach(() => session?.end());

async function review(
  params: Partial<ReviewParams> & Pick<ReviewParams, "offer">,
): Promise<Extract<ReviewResult, { kind: "review" }>> {
  const result = await ask(params);
  if (result.kind !== "review") throw new Error(JSON.stringify(result));
  return result;
}

const ask = (params: Partial<ReviewParams> & Pick<ReviewParams, "offer">): Promise<ReviewResult> =>
  session.client.sendRequest("fettle/review", {
    uri: JUG,
    purpose: "review",
    chosen: null,
    mapping: {},
    into: null,
    dialect: "",
    ...params,
  });
const pasted = (text: string) => ({ kind: "text" as const, text, name: "the clipboard" });

test("a paste has its rows, and the edits for the document as it is, with its version", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, texts["/shed/jug.fettle"]);
  const result = await review({ offer: pasted("warn-at 3.6 V/cell\nmodes\n  arm when TR is up\nkiln = 3\n") });
  expect(result.rows.map((row) => [row.class, row.what, row.chosen, row.mineAt])).toEqual([
    ["dangerous", "modes.arm", false, { file: LAYER, line: 3 }],
    ["differs", "pack.warn-at", true, { file: JUG, line: 5 }],
    ["unknown", "line 4", false, null],
  ]);
  expect(result.theirs.name).toBe("the clipboard");
  expect(result.adopt).toEqual({
    kind: "edits",
    files: [
      {
        file: JUG,
        version: 1,
        edits: [{ range: { start: { line: 5, character: 11 }, end: { line: 5, character: 21 } }, text: "3.6 V/cell" }],
      },
    ],
  });
});

test("what is chosen goes into a layer, of which it is told who uses it, or into a new one", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, texts["/shed/jug.fettle"]);
  const offer = pasted("modes\n  arm when TR is up\n");
  const first = await review({ offer, chosen: ["modes.arm"], into: LAYER });
  expect(first.into).toBe(LAYER);
  expect(first.targets).toMatchObject([
    { uri: JUG, name: "Jug", kind: "craft", alsoIn: [] },
    { uri: LAYER, name: "Habits", kind: "layer", alsoIn: ["Mug"] },
    { kind: "new-layer" },
  ]);
  expect(first.adopt).toMatchObject({
    kind: "edits",
    files: [{ file: LAYER, version: null, edits: [{ text: "when TR is up" }] }],
  });
  const fresh = first.targets.at(-1)!.uri;
  expect((await review({ offer, chosen: ["modes.arm"], into: fresh })).adopt).toMatchObject({
    kind: "edits",
    files: [{ file: JUG, version: 1 }],
    creates: [{ file: fresh, text: 'layer "Adopted"\n\nmodes\n  arm  when TR is up\n' }],
  });
});

test("another craft of the workspace is carried over as it is in effect", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, texts["/shed/jug.fettle"]);
  const result = await review({ offer: { kind: "file", uri: MUG }, purpose: "carry" });
  expect(result.rows.map((row) => [row.class, row.what, row.chosen])).toEqual([
    ["differs", "pack.cells", false],
    ["differs", "pack.warn-at", true],
    ["same", "modes.arm", false],
  ]);
  expect(result.theirs).toEqual({
    name: "Mug",
    uri: "fettle-effective:/mug%20(effective).fettle?file%3A%2F%2F%2Fshed%2Fmug.fettle",
  });
  expect(result.measure.map(({ what }) => what)).toContain("bench.failsafe-checked");
  expect(result.measure[0]!.at.file).toBe(JUG);
  // As a text its lines alone count: what it uses are files of their own.
  const lines = await review({ offer: { kind: "file", uri: MUG } });
  expect(lines.rows.filter((row) => row.class === "unknown").map(({ words }) => words)).toEqual([
    expect.stringContaining("“Wheel”"),
    expect.stringContaining("“Habits”"),
  ]);
});

test("a layer that no craft uses stands for itself", async () => {
  const lone = 'layer "Lone"\n\npack\n  warn-at  3.5 V/cell\n';
  session = await startSession(filesInMemory({ ...texts, "/shed/lone.fettle": lone }));
  const uri = asUri("file:///shed/lone.fettle");
  await session.open(uri, lone);
  const result = await review({ uri, offer: pasted("warn-at 3.6 V/cell") });
  expect(result.targets[0]).toMatchObject({ uri, kind: "layer" });
  expect(result.adopt).toMatchObject({
    kind: "edits",
    files: [{ file: uri, version: 1, edits: [{ text: "3.6 V/cell" }] }],
  });
});

test("what is no script is told, and what cannot be read refused", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, texts["/shed/jug.fettle"]);
  expect(await ask({ offer: pasted('{ "cells": 6 }') })).toMatchObject({
    kind: "no-script",
    looksLike: expect.stringContaining("JSON"),
  });
  expect(await ask({ offer: { kind: "file", uri: asUri("file:///shed/none.fettle") } })).toMatchObject({
    kind: "refused",
  });
  expect(
    await ask({ uri: asUri("file:///shed/wheel-none.fettle"), offer: pasted("warn-at 3.6 V/cell") }),
  ).toMatchObject({ kind: "refused" });
  expect((await review({ offer: pasted("# \u202ehey\nwarn-at 3.6 V/cell") })).hidden).toMatchObject([
    { line: 0, start: 2, kind: "direction" },
  ]);
  expect(await ask({ offer: pasted("hey \u202ethere, how are you?") })).toMatchObject({
    hidden: [{ kind: "direction" }],
  });
  expect((await review({ offer: pasted("warn-at 3.5 V/cell") })).adopt).toMatchObject({ kind: "refused" });
});
