/** Accepted findings in an editor: a layer is judged by the craft of its workspace, whether they are open or not. */
import { afterEach, expect, test } from "vitest";
import type { CodeAction } from "vscode-languageserver/node";
import { filesInMemory, type Session, startSession } from "./session.ts";

const wheel = 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n';
const base =
  'layer "Base"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is up # allow arm-at-rest: the permit is a plug\n';
const armed = 'craft "Jug"\n\nuse "base.fettle"\n';
const restated = 'craft "Mug"\n\nuse "base.fettle"\n\nmodes\n  arm when TL is down\n';
const BASE = "file:///shed/base.fettle";

let session: Session;
afterEach(() => session.end());

/** The codes about accepted findings that the layer has, among these craft. */
async function codes(crafts: Record<string, string>): Promise<unknown[]> {
  session = await startSession(filesInMemory({ "/shed/wheel.fettle": wheel, "/shed/base.fettle": base, ...crafts }));
  await session.open(BASE, base);
  return (await session.pull(BASE)).map(({ code }) => code).filter((code) => String(code).startsWith("allow-"));
}

test("what no craft of the workspace needs is unused, and one that is not open counts", async () => {
  expect(await codes({ "/shed/mug.fettle": restated })).toEqual(["allow-unused"]);
  session.end();
  expect(
    await codes({ "/shed/mug.fettle": restated, "/shed/deep/jug.fettle": armed.replace("base", "../base") }),
  ).toEqual([]);
  session.end();
  expect(await codes({})).toEqual([]);
});

test("nothing is claimed where not all of the workspace was listed, or the layer lies outside of it", async () => {
  const files = filesInMemory({
    "/shed/wheel.fettle": wheel,
    "/shed/base.fettle": base,
    "/shed/mug.fettle": restated,
    "/far/wheel.fettle": wheel,
  });
  const cut = { ...files, list: async () => ({ paths: ["/shed/mug.fettle", "/shed/base.fettle"], cut: true }) };
  session = await startSession(cut);
  await session.open(BASE, base);
  expect((await session.pull(BASE)).map(({ code }) => code)).toEqual([]);
  session.end();
  session = await startSession(files);
  await session.open("file:///far/base.fettle", base);
  expect((await session.pull("file:///far/base.fettle")).map(({ code }) => code)).not.toContain("allow-unused");
});

test("a finding can be accepted where it stands, after its repairs", async () => {
  session = await startSession(filesInMemory({}));
  const JUG = "file:///shed/jug.fettle";
  await session.open(JUG, 'craft "Jug"\n\npack\n  cells 99\n');
  const at = { line: 3, character: 9 };
  const actions = await session.client.sendRequest<CodeAction[]>("textDocument/codeAction", {
    textDocument: { uri: JUG },
    range: { start: at, end: at },
    context: { diagnostics: [] },
  });
  expect(actions.map(({ title, kind }) => [title, kind])).toEqual([
    ["Accept out-of-range on this line", "quickfix"],
    ["Accept out-of-range in all of pack", "quickfix"],
    ["Accept out-of-range in this file", "quickfix"],
  ]);
  expect(actions[0]!.edit!.changes![JUG]).toEqual([
    {
      range: { start: { line: 3, character: 0 }, end: { line: 3, character: 0 } },
      newText: "  # allow out-of-range: \n",
    },
  ]);
});
