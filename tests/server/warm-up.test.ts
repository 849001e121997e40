import { expect, test } from "vitest";
import { rehearse } from "../../server/src/lsp/warm-up.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

test("every key of the rehearsal is checked, and its digit is found to be too much each time", async () => {
  const found: number[] = [];
  for await (const count of rehearse()) found.push(count);
  expect(found.length).toBe(150);
  const [typed, untyped] = found;
  expect(typed).toBeGreaterThan(untyped!);
  expect(found).toEqual(found.map((_, i) => (i % 2 === 0 ? typed : untyped)));
});

test("an editor hears nothing of the warm-up, and is answered while it goes on", async () => {
  const jug = 'craft "Jug"\n\npack\n  cells 99\n';
  const session: Session = await startSession(filesInMemory({ "/shed/jug.fettle": jug }), { textDocument: {} });
  await session.open("file:///shed/jug.fettle", jug);
  // Longer than the silence after which it begins.
  await new Promise((resolve) => setTimeout(resolve, 200));
  const symbols = await session.client.sendRequest("textDocument/documentSymbol", {
    textDocument: { uri: "file:///shed/jug.fettle" },
  });
  expect(symbols).toMatchObject([{ name: "Jug" }]);
  expect([...session.pushed.keys()]).toEqual(["file:///shed/jug.fettle"]);
  expect(session.log).toEqual([]);
  session.end();
});
