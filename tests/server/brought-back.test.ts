/** Items that a client brings back, with what is none of ours beside them: they come back as they are. */
import { afterEach, beforeEach, expect, test } from "vitest";
import { filesInMemory, type Session, startSession } from "./session.ts";

const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 5 } };
const part = { name: "arm", kind: 24, uri: "file:///shed/jug.fettle", range, selectionRange: range };

let session: Session;
beforeEach(async () => {
  session = await startSession(filesInMemory({ "/shed/jug.fettle": 'craft "Jug"\n' }));
});
afterEach(() => session.end());

const NONE_OF_OURS = [undefined, null, 5, "x", [], {}, { uri: null }, { craft: 5, part: null }, { kind: "x", name: 1 }];

test.each<[string, object]>([
  ["completionItem/resolve", { label: "cells" }],
  ["inlayHint/resolve", { position: range.start, label: "x" }],
  ["workspaceSymbol/resolve", { name: "x", kind: 7, location: { uri: part.uri } }],
])("%s", async (method, item) => {
  for (const data of NONE_OF_OURS) {
    const sent = data === undefined ? item : { ...item, data };
    expect(await session.client.sendRequest(method, sent)).toEqual(sent);
  }
  expect(session.log).toEqual([]);
});

test.each(["callHierarchy/incomingCalls", "callHierarchy/outgoingCalls"])("nothing comes of it: %s", async (method) => {
  for (const data of NONE_OF_OURS)
    expect(await session.client.sendRequest(method, { item: { ...part, data } })).toBeNull();
  expect(session.log).toEqual([]);
});
