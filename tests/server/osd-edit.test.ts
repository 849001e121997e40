import { afterEach, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { OsdEditParams, OsdEditResult } from "../../shared/protocol/osd-edit.ts";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const layer = 'layer "Wide"\n\nosd\n  grid  30 x 16\n  amps  at left+2, bottom-1\n';
const jug = 'craft "Jug"\nuse "my%20layers/wide ä.fettle"\n\nosd\n  pack-volts  at left+2, top+1\n';
const mug = 'craft "Mug"\nuse "my%20layers/wide ä.fettle"\n';
const texts = {
  "/shed/my%20layers/wide ä.fettle": layer,
  "/shed/jug.fettle": jug,
  "/shed/mug.fettle": mug,
};
const JUG = "file:///shed/jug.fettle";
const LAYER = asUri("file:///shed/my%2520layers/wide%20%C3%A4.fettle");

let session: Session;
afterEach(() => session?.end());

const ask = (params: Partial<OsdEditParams> & Pick<OsdEditParams, "gesture">): Promise<OsdEditResult> =>
  session.client.sendRequest("fettle/osdEdit", { uri: JUG, page: "osd", where: null, ...params });
const move = (element: string, column: number, row: number) => ({ kind: "move" as const, element, column, row });
const change = (version: number, text: string) =>
  session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version },
    contentChanges: [{ text }],
  });

test("the edits come with the version of the document that they were made for", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  const edits = [{ range: { start: { line: 4, character: 17 }, end: { line: 4, character: 23 } }, text: "left+5" }];
  expect(await ask({ gesture: move("pack-volts", 5, 1) })).toEqual({
    kind: "edits",
    files: [{ file: JUG, version: 1, edits }],
  });
  await change(7, `\n${jug}`);
  expect(await ask({ gesture: move("pack-volts", 5, 1) })).toMatchObject({
    files: [{ version: 7, edits: [{ range: { start: { line: 5 } } }] }],
  });
});

test("a layer is asked about; then its file is edited, by the address under which the editor knows it", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  const gesture = move("amps", 3, 14);
  expect(await ask({ gesture })).toEqual({ kind: "choose", layer: "Wide", sharedWith: ["Mug"] });
  expect(await ask({ gesture, where: "there" })).toMatchObject({
    kind: "edits",
    files: [{ file: LAYER, version: null, edits: [{ text: "left+3" }] }],
  });
  await session.open(LAYER, layer);
  expect(await ask({ gesture, where: "there" })).toMatchObject({ files: [{ file: LAYER, version: 1 }] });
  // Drawn for the layer, as part of one of its craft.
  expect(await ask({ uri: LAYER, craft: asUri("file:///shed/mug.fettle"), gesture, where: "override" })).toMatchObject({
    files: [{ file: "file:///shed/mug.fettle", version: null }],
  });
});

test("the picture drawn after the edit shows the element where it was put", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  const answer = await ask({ gesture: { kind: "add", element: "flight-time", column: 2, row: 3 } });
  const { range, text } = answer.kind === "edits" ? answer.files[0]!.edits[0]! : { range: null, text: "" };
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 2 },
    contentChanges: [{ range, text }],
  });
  const model: PanelModel = await session.client.sendRequest("fettle/panel", { uri: JUG });
  expect(model.version).toBe(2);
  expect(model.goggles?.elements).toContainEqual(
    expect.objectContaining({
      name: "flight-time",
      column: 2,
      row: 3,
      placed: "left+2, top+3",
      at: { file: JUG, line: 5 },
    }),
  );
  expect(session.log).toEqual([]);
});

test("what cannot be done is refused, and a fault of ours is no answer to wait for", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  expect(await ask({ gesture: move("kettle", 1, 1) })).toMatchObject({ kind: "refused" });
  const broken = { gesture: null } as unknown as Pick<OsdEditParams, "gesture">;
  expect(await ask(broken)).toMatchObject({ kind: "refused", message: expect.stringContaining("Nothing was written") });
  expect(session.log.join()).toContain("OSD edit");
});
