import { afterEach, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { MotorEditParams, MotorEditResult } from "../../shared/protocol/motor-edit.ts";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const base = 'layer "Base"\n\nmotors\n  motor1  place rear-left\n';
const jug = 'craft "Jug"\nuse "base ä.fettle"\n\nmotors\n  motor2  place front-left\n';
const mug = 'craft "Mug"\nuse "base ä.fettle"\n';
const texts = { "/shed/base ä.fettle": base, "/shed/jug.fettle": jug, "/shed/mug.fettle": mug };
const JUG = asUri("file:///shed/jug.fettle");
const BASE = asUri("file:///shed/base%20%C3%A4.fettle");

let session: Session;
afterEach(() => session?.end());

const ask = (params: Partial<MotorEditParams> & Pick<MotorEditParams, "gesture">): Promise<MotorEditResult> =>
  session.client.sendRequest("fettle/motorEdit", { uri: JUG, where: null, ...params });
const to = (motor: number, place: string) => ({ kind: "place" as const, motor, place });

test("two that change places: the edits of both files, each with the version that it was made for", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  expect(await ask({ gesture: to(2, "rear-left") })).toEqual({ kind: "choose", layer: "Base", sharedWith: ["Mug"] });
  expect(await ask({ gesture: to(2, "rear-left"), where: "there" })).toMatchObject({
    kind: "edits",
    files: [
      { file: JUG, version: 1, edits: [{ range: { start: { line: 4 } }, text: "rear-left" }] },
      { file: BASE, version: null, edits: [{ range: { start: { line: 3 } }, text: "front-left" }] },
    ],
  });
  expect(await ask({ uri: BASE, craft: asUri("file:///shed/mug.fettle"), gesture: to(1, "front-left") })).toMatchObject(
    {
      kind: "choose",
      sharedWith: ["Jug"],
    },
  );
});

test("the drawing after the edit has the motor where it was put, with the editor's own address of its line", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  const answer = await ask({ gesture: to(2, "rear-right") });
  const { range, text } = answer.kind === "edits" ? answer.files[0]!.edits[0]! : { range: null, text: "" };
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: JUG, version: 2 },
    contentChanges: [{ range, text }],
  });
  const model: PanelModel = await session.client.sendRequest("fettle/panel", { uri: JUG, view: "numbers" });
  expect(model.numbers?.motors?.motors.slice(0, 2)).toMatchObject([
    { number: 1, place: "rear-left", at: { file: BASE, line: 3 } },
    { number: 2, place: "rear-right", at: { file: JUG, line: 4 } },
  ]);
  expect(session.log).toEqual([]);
});

test("what cannot be done is refused, and a fault of ours is no answer to wait for", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, jug);
  expect(await ask({ gesture: to(3, "front-left") })).toMatchObject({ kind: "refused" });
  const broken = { gesture: null } as unknown as Pick<MotorEditParams, "gesture">;
  expect(await ask(broken)).toMatchObject({ kind: "refused", message: expect.stringContaining("Nothing was written") });
  expect(session.log.join()).toContain("motor edit");
});
