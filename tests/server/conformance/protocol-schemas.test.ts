/** The schemas are those of the protocol: what it admits passes, and what it does not is told. */
import { describe, expect, test } from "vitest";
import type { Part } from "./kept-schemas.ts";
import { METHODS } from "./methods.ts";
import { PROGRESS, protocolJudge } from "./protocol-schemas.ts";

const judge = protocolJudge();
const at = (line: number, character: number) => ({ line, character });
const range = { start: at(1, 2), end: at(1, 5) };

describe("what the protocol admits", () => {
  test.each<[string, Part, unknown]>([
    ["textDocument/hover", "result", null],
    ["textDocument/hover", "result", { contents: { kind: "markdown", value: "x" }, range }],
    ["textDocument/semanticTokens/full/delta", "result", { edits: [{ start: 0, deleteCount: 5 }] }],
    ["textDocument/codeAction", "result", [{ title: "x", kind: "quickfix", edit: { changes: {} }, data: { a: 1 } }]],
    ["textDocument/diagnostic", "error", { retriggerRequest: true }],
    ["workspace/symbol", "partial", [{ name: "x", kind: 5, location: { uri: "file:///a" } }]],
    ["shutdown", "result", null],
    [PROGRESS, "params", { kind: "report", percentage: 20 }],
  ])("%s: %s %j", (method, part, value) => expect(judge(method, part, value)).toBeNull());
});

describe("what it does not", () => {
  test.each<[string, Part, unknown, RegExp]>([
    ["textDocument/hover", "result", { contents: "x", more: 1 }, /additional properties/],
    ["textDocument/hover", "result", { contents: "x", range: { ...range, start: at(-1, 0) } }, />= 0/],
    ["textDocument/hover", "result", { contents: "x", range: { ...range, start: at(0.5, 0) } }, /integer/],
    ["textDocument/definition", "result", [{ uri: "jug.fettle", range }], /pattern/],
    ["textDocument/diagnostic", "result", { kind: "full" }, /items/],
    ["textDocument/codeAction", "result", [{ kind: "quickfix" }], /title/],
    ["textDocument/publishDiagnostics", "params", { uri: "file:///a", diagnostics: [{ range }] }, /message/],
    ["initialize", "result", { capabilities: { kettleProvider: true } }, /additional properties/],
    ["textDocument/kettle", "result", {}, /has no result/],
  ])("%s: %s %j", (method, part, value, told) => expect(judge(method, part, value)).toMatch(told));
});

test("every method of the library has a schema of what it brings, where it brings anything", () => {
  const bare = [...METHODS.values()].filter(({ name }) => judge(name, "params", {})?.includes("has no params"));
  expect(
    bare.map(({ name }) => name).filter((name) => !/refresh$|^shutdown$|^exit$|^notebookDocument\/sync$/.test(name)),
  ).toEqual(["workspace/workspaceFolders"]);
});
