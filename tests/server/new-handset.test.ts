import { afterEach, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import {
  MAP_CONTROLS_REQUEST,
  type MapControlsParams,
  type MapControlsResult,
} from "../../shared/protocol/map-controls.ts";
import {
  NEW_HANDSET_REQUEST,
  type NewHandsetParams,
  type NewHandsetResult,
} from "../../shared/protocol/new-handset.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const handset = (name: string, ...lines: string[]) => `handset "${name}"\n\ncontrols\n  ${lines.join("\n  ")}\n`;
const texts = {
  "/shed/handsets/wheel.fettle": handset("Wheel", "TL  switch  ch5  up 1000 us  down 2000 us"),
  "/shed/handsets/kiln.fettle": handset("Kiln", "SA  switch  ch5  back 1000 us  front 2000 us"),
  "/shed/layers/habits.fettle": 'layer "Habits"\n\noutputs\n  lamp  when TL is up\n',
  "/shed/jug.fettle":
    'craft "Jug"\n\nuse "handsets/wheel.fettle"\nuse "layers/habits.fettle"\n\nmodes\n  arm  when TL is down\n',
};

let session: Session;
afterEach(() => session?.end());

async function ask<P, R>(method: string, params: P): Promise<R> {
  session = await startSession(filesInMemory({ ...texts }));
  return session.client.sendRequest(method, params) as Promise<R>;
}

const FOLDER = asUri("file:///shed");
const ANSWERS = {
  name: "Bellows",
  "as-on": "none",
  band: "2.4-ghz",
  power: "not-known",
  "stick-mode": "2",
  order: "roll pitch throttle yaw",
  travel: "not-measured",
  ...{ "control-1.kind": "dial", "control-1.name": "KN", "control-1.channel": "ch5" },
  ...{ "control-1.range": "1000 us to 2000 us", "control-1.lies": "left" },
};

test("one question after the other, with what the folder holds", async () => {
  const answers = { name: "Bellows" };
  const result = await ask<NewHandsetParams, NewHandsetResult>(NEW_HANDSET_REQUEST, { folder: FOLDER, answers });
  expect(result.question?.id).toBe("as-on");
  expect(result.question?.choices.map(({ word }) => word)).toContain("copy handsets/wheel.fettle");
  expect(result).toMatchObject({ text: null, problem: null, path: "handsets/bellows.fettle" });
});

test("behind the last answer the script, which checks clean where it is to be kept, and what is to be done", async () => {
  const params = { folder: FOLDER, answers: { ...ANSWERS, "control-2.kind": "done" } };
  const { text, next, order, controls } = await ask<NewHandsetParams, NewHandsetResult>(NEW_HANDSET_REQUEST, params);
  expect({ order, controls }).toEqual({ order: "roll pitch throttle yaw", controls: ["KN on ch5"] });
  expect(next[0]).toContain("order roll pitch throttle yaw");
  await session.open("file:///shed/handsets/bellows.fettle", text!);
  expect(await session.pull("file:///shed/handsets/bellows.fettle")).toEqual([]);
});

test("a wrong answer is named, and without a folder no file is offered", async () => {
  const answers = { ...ANSWERS, "control-1.channel": "ch3" };
  delete (answers as Partial<typeof ANSWERS>)["as-on"];
  const result = await ask<NewHandsetParams, NewHandsetResult>(NEW_HANDSET_REQUEST, { folder: null, answers });
  expect(result.problem).toMatchObject({ id: "control-1.channel" });
  expect(result.question).toBeNull();
});

test("controls are mapped with the versions of open documents, and layers only where they are asked for", async () => {
  session = await startSession(filesInMemory({ ...texts }));
  await session.open("file:///shed/jug.fettle", texts["/shed/jug.fettle"]);
  const map = (layers: string[]) =>
    session.client.sendRequest<MapControlsResult>(MAP_CONTROLS_REQUEST, {
      uri: asUri("file:///shed/jug.fettle"),
      handset: asUri("file:///shed/handsets/kiln.fettle"),
      chosen: {},
      layers: layers.map(asUri),
    } satisfies MapControlsParams);
  const proposal = await map([]);
  expect(proposal).toMatchObject({
    kind: "mapping",
    rows: [{ from: "TL", to: "SA", why: "the same channel, ch5" }],
    layers: [{ file: "file:///shed/layers/habits.fettle", lines: 1, alsoIn: [] }],
    files: [{ file: "file:///shed/jug.fettle", version: 1 }],
  });
  expect(proposal.kind === "mapping" && proposal.files[0]!.edits.map(({ text }) => text)).toEqual([
    '"handsets/kiln.fettle"',
    "SA",
    "front",
  ]);
  const both = await map(["file:///shed/layers/habits.fettle"]);
  expect(both.kind === "mapping" && both.files.map(({ file, version }) => [file, version])).toEqual([
    ["file:///shed/jug.fettle", 1],
    ["file:///shed/layers/habits.fettle", null],
  ]);
});
