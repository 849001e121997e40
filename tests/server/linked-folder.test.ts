/** A workspace that is opened through a link: whatever the server tells of, it calls as the editor does. */
import { afterEach, expect, test } from "vitest";
import type { Diagnostic, WorkspaceDiagnosticReport } from "vscode-languageserver/node";
import { makeWorkspaceFiles } from "../../server/src/lsp/workspace-files.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const wheel = 'handset "Wheel"\n\ncontrols\n  TL  switch  ch5  up 1000 us  down 2000 us\n';
const jug = 'craft "Jug"\nuse "wheel.fettle"\n\nmodes\n  arm  when TX is down\n';
const texts: Record<string, string> = { "/pottery/wheel.fettle": wheel, "/pottery/jug.fettle": jug };

let session: Session;
afterEach(() => session.end());

/** The editor has the folder as /shed, which is a link to /pottery. */
async function started(): Promise<void> {
  const files = filesInMemory({ ...texts });
  const real = (path: string) => path.replace(/^\/shed(?=\/|$)/, "/pottery");
  const isThere = (path: string) => path === "/shed" || real(path) in texts;
  session = await startSession({
    ...files,
    async read(path) {
      const { answer } = await files.read(real(path));
      return { answer, realPath: isThere(path) ? real(path) : path };
    },
  });
}

const uris = (found: unknown) => [...new Set(JSON.stringify(found).match(/file:[^"]+/g))].sort();

test("findings, places and names of scripts that are not open", async () => {
  await started();
  const all = await session.client.sendRequest<WorkspaceDiagnosticReport>("workspace/diagnostic", {
    previousResultIds: [],
  });
  expect(all.items.map(({ uri }) => uri)).toEqual(["file:///shed/jug.fettle", "file:///shed/wheel.fettle"]);
  await session.open("file:///shed/jug.fettle", jug);
  const [link] = await session.client.sendRequest<{ targetUri: string }[]>("textDocument/definition", {
    textDocument: { uri: "file:///shed/jug.fettle" },
    position: { line: 1, character: 7 },
  });
  expect(link?.targetUri).toBe("file:///shed/wheel.fettle");
  for (const [method, params] of [
    ["workspace/symbol", { query: "" }],
    ["fettle/workspaceTree", { findings: true }],
    ["fettle/fleet", { known: null }],
  ] as const)
    expect(uris(await session.client.sendRequest(method, params)), method).toEqual([
      "file:///shed/jug.fettle",
      "file:///shed/wheel.fettle",
    ]);
  const { handsets } = await session.client.sendRequest<{ handsets: unknown[] }>("fettle/habits", {});
  expect(JSON.stringify(handsets)).not.toContain("pottery");
  // What it names is understood when it comes back.
  const change = { handset: "file:///shed/wheel.fettle", mode: "arm", from: null, to: "TL is down" };
  const asked = (leftOut: string[] | null) =>
    session.client.sendRequest<{ craft: { file: string; chosen: boolean }[] }>("fettle/changeHabit", {
      ...change,
      leftOut,
    });
  expect((await asked(null)).craft).toMatchObject([{ file: "file:///shed/jug.fettle", chosen: true }]);
  expect((await asked(["file:///shed/jug.fettle"])).craft).toMatchObject([{ chosen: false }]);
});

test("a script that is not written yet lies in the folder as well", async () => {
  await started();
  const uri = "file:///shed/mug.fettle";
  await session.open(uri, jug.replace("TX", "TL").replace("Jug", "Mug"));
  const codes = (await session.pull(uri)).map(({ code }: Diagnostic) => code);
  expect(codes).not.toContain("use-missing");
  await session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri, version: 2 },
    contentChanges: [{ text: jug }],
  });
  expect((await session.pull(uri)).map(({ code }: Diagnostic) => code)).toContain("unknown-name");
  expect(session.log).toEqual([]);
});

test("of the craft that use a layer the one that is asked for is drawn, and another one with it", async () => {
  texts["/pottery/base.fettle"] = 'layer "Base"\n\nmodes\n  level  when TL is up\n';
  for (const name of ["Bowl", "Cup"])
    texts[`/pottery/${name.toLowerCase()}.fettle`] = `craft "${name}"\nuse "wheel.fettle"\nuse "base.fettle"\n`;
  await started();
  const model = await session.client.sendRequest<{ craft: string; against: { kind: string; name: string } }>(
    "fettle/panel",
    {
      uri: "file:///shed/base.fettle",
      craft: "file:///shed/cup.fettle",
      view: "switches",
      against: { kind: "file", uri: "file:///shed/bowl.fettle" },
    },
  );
  expect([model.craft, model.against.kind, model.against.name]).toEqual(["Cup", "pictures", "Bowl"]);
});

test("what is told before the folder's real path is known is listed, once, and where it really lies", async () => {
  const there = new Set(["/pottery/jug.fettle", "/pottery/wheel.fettle"]);
  let answered = (_: string) => {};
  const files = makeWorkspaceFiles({
    realPath: () => new Promise((resolve) => (answered = resolve)),
    list: async () => ({ paths: [...there], cut: false }),
    isFolder: async () => false,
    cut: () => undefined,
  });
  files.setFolders(["/shed"]);
  there.delete("/pottery/jug.fettle");
  files.apply({ kind: "deleted", path: "/shed/jug.fettle" });
  files.apply({ kind: "changed", path: "/shed/wheel.fettle" });
  answered("/pottery");
  await files.listed();
  expect(files.scripts()).toEqual(["/pottery/wheel.fettle"]);
});
