/** The panel of a script of the past: drawn with what it used then, without anything that would change it. */
import { expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { RevisionParams, RevisionResult } from "../../shared/protocol/compare.ts";
import type { PanelModel, PanelParams } from "../../shared/protocol/panel.ts";
import { filesInMemory, PULLING, startSession } from "./session.ts";

const wide = (grid: string) => `layer "Wide"\nosd\n  grid  ${grid}\n  horizon-line  at centre, middle\n`;
const jug = (place: string) => `craft "Jug"\nuse "wide.fettle"\nosd\n  flight-time  at ${place}\n`;
const THEN: Readonly<Record<string, string>> = {
  "file:///jug.fettle": jug("left, top"),
  "file:///wide.fettle": wide("30 x 16"),
};

async function drawn(params: Omit<PanelParams, "past">, of: string, revision = "1".repeat(10)): Promise<PanelModel> {
  const files = filesInMemory({ "/jug.fettle": jug("right, bottom"), "/wide.fettle": wide("53 x 20") });
  const session = await startSession(files, PULLING, undefined, undefined, (client) => {
    client.onRequest<RevisionResult, void>("fettle/revision", ({ uri, revision: asked }: RevisionParams) =>
      asked.startsWith("1") && uri in THEN ? { kind: "text", text: THEN[uri]! } : { kind: "missing" },
    );
  });
  const past = { uri: asUri(of), revision, title: "1111111111, “Begin”" };
  const model = await session.client.sendRequest<PanelModel>("fettle/panel", { ...params, past });
  session.end();
  return model;
}

test("a craft is drawn with the layers of its commit, and its lines are those of the document in front", async () => {
  const uri = asUri("git:/jug.fettle?%7B%22ref%22%3A%22HEAD%22%7D");
  const { goggles, begin, past, file, version, findings } = await drawn({ uri }, "file:///jug.fettle");
  expect([past, file, version]).toEqual(["1111111111, “Begin”", uri, Number.MAX_SAFE_INTEGER]);
  expect([goggles?.columns, goggles?.rows, begin, goggles?.addable]).toEqual([30, 16, null, []]);
  const [time, horizon] = ["flight-time", "horizon-line"].map((name) =>
    goggles?.elements.find((each) => each.name === name),
  );
  expect([time?.column, time?.row, time?.at]).toEqual([0, 0, { file: uri, line: 3 }]);
  // A line of a layer is that of the layer then, which is a text of its own.
  expect(horizon?.at.file).toContain("fettle-other:/wide%20(1111111111).fettle");
  expect(findings.length).toBeGreaterThan(0);
  const ways = goggles?.elements.flatMap(({ faults }) => faults.flatMap((fault) => fault.ways)) ?? [];
  expect(ways.filter(({ action }) => action.name !== "go")).toEqual([]);
});

test("a layer is drawn as part of the craft, as that was then", async () => {
  const uri = asUri("git:/wide.fettle?x");
  const { craft, goggles } = await drawn({ uri, craft: asUri("file:///jug.fettle") }, "file:///wide.fettle");
  expect([craft, goggles?.columns]).toEqual(["Jug", 30]);
  expect(goggles?.elements.find(({ name }) => name === "horizon-line")?.at).toEqual({ file: uri, line: 3 });
});

test("a commit that does not have it is said", async () => {
  const model = await drawn({ uri: asUri("git:/jug.fettle?x") }, "file:///jug.fettle", "9".repeat(10));
  expect(model.empty).toContain("There is no jug.fettle at 9999999999");
  expect([model.craft, model.past]).toEqual(["", "1111111111, “Begin”"]);
});
