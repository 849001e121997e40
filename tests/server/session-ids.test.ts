/** A client that outlives its server asks the next one by the ids of the last: the answer is whole. */
import { afterEach, expect, test } from "vitest";
import type { InitializeParams, SemanticTokens } from "vscode-languageserver/node";
import type { FleetResult } from "../../shared/protocol/fleet-messages.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const jug = "file:///shed/jug.fettle";
const text = 'craft "Jug"\n';

let session: Session;
afterEach(() => session.end());
const started = async () => {
  session = await startSession(filesInMemory({ "/shed/jug.fettle": text }), {
    textDocument: { semanticTokens: { requests: { full: { delta: true } } } },
  } as InitializeParams["capabilities"]);
  await session.open(jug, text);
};
const again = () => {
  session.end();
  return started();
};

test("of the fleet", async () => {
  await started();
  const fleet = (known: string | null) => session.client.sendRequest<FleetResult>("fettle/fleet", { known });
  const known = (await fleet(null))!.id;
  expect(await fleet(known)).toEqual({ id: known, fleet: null });
  await again();
  expect(await fleet(known)).toMatchObject({ fleet: { craft: [{ name: "Jug" }] } });
});

test("of a script's tokens", async () => {
  await started();
  const textDocument = { uri: jug };
  const ask = (name: string, more = {}) =>
    session.client.sendRequest<SemanticTokens>(`textDocument/semanticTokens/${name}`, { textDocument, ...more });
  const { resultId: previousResultId, data } = await ask("full");
  expect(await ask("full/delta", { previousResultId })).toMatchObject({ edits: [] });
  await again();
  await ask("full");
  expect(await ask("full/delta", { previousResultId })).toMatchObject({ data });
});
