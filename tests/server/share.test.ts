/** A craft shared over the wire, and the offer above a script that was shared. */
import { afterEach, expect, test } from "vitest";
import type { CodeLens } from "vscode-languageserver/node";
import { asUri } from "../../shared/protocol/addresses.ts";
import { SHARE_REQUEST, type ShareResult } from "../../shared/protocol/share.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const texts = {
  "/shed/wheel.fettle":
    'handset "Wheel"\n\ntransmitter\n  band  2.4 GHz\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n',
  "/shed/mine.fettle": 'layer "Mine"\n\nlink\n  pair-secret  "glaze before you fire"\n',
  "/shed/jug.fettle":
    'craft "Jug"\n\nuse "wheel.fettle"\nuse "mine.fettle"\n\nmodes\n  # Maud\'s own\n  arm when TL is down\n\nverbatim "kiln"\n  |set shelf = 4\n',
};
const uri = (name: string) => asUri(`file:///shed/${name}.fettle`);

let session: Session;
afterEach(() => session?.end());

test("the script comes with what was taken out of it and what was left in, each with its line", async () => {
  session = await startSession(filesInMemory(texts), PULLING);
  const ask = (name: string, board: "with" | "without") =>
    session.client.sendRequest<ShareResult>(SHARE_REQUEST, { uri: uri(name), board });
  const shared = await ask("jug", "without");
  if (shared.kind === "refused") throw new Error(shared.message);
  expect(shared.text).toMatch(/^# Shared with Fettle/);
  expect(shared.text).not.toMatch(/glaze|shelf|^use /m);
  expect({ ...shared, text: "" }).toMatchObject({
    name: "Jug",
    proposed: uri("jug-shared"),
    taken: [
      { what: "verbatim.kiln", at: { file: uri("jug"), line: 10 } },
      { what: "link.pair-secret", at: { file: uri("mine"), line: 3 } },
    ],
    ofHandset: [
      { what: "handset.name", at: { file: uri("wheel"), line: 0 } },
      { what: "transmitter.band", at: { file: uri("wheel"), line: 3 } },
    ],
    kept: [{ what: "note", at: { file: uri("jug"), line: 6 } }],
    hasBoardText: true,
  });
  expect(await ask("jug", "with")).toMatchObject({ text: expect.stringContaining("|set shelf = 4") });
  // A layer stands for the craft that uses it.
  expect(await ask("mine", "without")).toEqual(shared);
});

test("above a script that was shared a lens offers the review, to a client that can follow it", async () => {
  session = await startSession(filesInMemory(texts), PULLING, { lensCommand: "follow" });
  const untitled = "untitled:Untitled-1";
  await session.open(untitled, '# Shared with Fettle\ncraft "Cup"\n');
  const [lens] = await session.client.sendRequest<CodeLens[]>("textDocument/codeLens", {
    textDocument: { uri: untitled },
  });
  expect(lens!.command).toEqual({
    title: "Review for a craft of yours…",
    command: "follow",
    arguments: [{ uri: untitled, action: { kind: "review" } }],
  });
});
