/** The schemas of our own requests are those of their types. */
import { describe, expect, test } from "vitest";
import type { Part } from "./kept-schemas.ts";
import { declaredRequests, OWN_TYPES, ownJudge } from "./own-schemas.ts";

const judge = ownJudge();
const uri = "file:///shed/jug.fettle";

/** What the server asks of a client. */
const OF_CLIENT = ["fettle/list", "fettle/log", "fettle/read", "fettle/revision"];

test("every request that the types declare has its types in the table", () => {
  const declared = declaredRequests();
  expect(declared.length).toBeGreaterThan(30);
  expect(Object.keys(OWN_TYPES).sort()).toEqual(declared.filter((method) => !OF_CLIENT.includes(method)).sort());
});

describe("what the types admit", () => {
  test.each<[string, Part, unknown]>([
    ["fettle/panel", "params", { uri, view: "goggles" }],
    ["fettle/panel", "result", null],
    ["fettle/habits", "params", {}],
    ["fettle/workspaceTree", "result", { files: [] }],
    ["fettle/share", "result", { kind: "refused", message: "Not now." }],
  ])("%s: %s %j", (method, part, value) => expect(judge(method, part, value)).toBeNull());
});

describe("what they do not", () => {
  test.each<[string, Part, unknown, RegExp]>([
    ["fettle/panel", "params", { uri: "jug.fettle", view: "goggles" }, /pattern/],
    ["fettle/panel", "params", { uri, view: "kettle" }, /allowed values/],
    ["fettle/workspaceTree", "result", { files: [{ file: uri }] }, /required/],
    ["fettle/share", "result", { kind: "refused", message: "Not now.", more: 1 }, /additional properties/],
    ["fettle/kettle", "result", {}, /has no result/],
  ])("%s: %s %j", (method, part, value, told) => expect(judge(method, part, value)).toMatch(told));
});
