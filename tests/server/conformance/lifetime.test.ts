/** From the first message to the last: what a client may send when, and what comes of what nobody should send. */
import { spawn } from "node:child_process";
import { afterEach, beforeAll, describe, expect, test } from "vitest";
import { buildProgram } from "../../cli/program.ts";
import { filesInMemory } from "../session.ts";
import { CLIENTS, type ClientName } from "./clients.ts";
import { SHED, TABLE, TEXTS } from "./table.ts";
import { begin, inProcess, openWire, type Told, type Wire } from "./wire.ts";

const NOT_INITIALIZED = -32002;
const INVALID_REQUEST = -32600;
const METHOD_NOT_FOUND = -32601;
const PARSE_ERROR = -32700;

const jug = `${SHED}/jug.fettle`;
const inJug = { textDocument: { uri: jug } };
const item = (version: number, text: string, uri = jug) => ({
  textDocument: { uri, languageId: "fettle", version, text },
});
const some = 'craft "Jug"\n\npack\n  cells 99\n';

let wire: Wire;
afterEach(() => wire?.end());
const connect = (client: ClientName = "no abilities") => {
  wire = openWire(inProcess(filesInMemory({ ...TEXTS })), CLIENTS[client]);
  return wire;
};
const started = async (client: ClientName = "no abilities") => {
  await begin(connect(client), CLIENTS[client]);
  return wire;
};
const codeOf = async (asked: Promise<Told>) => (await asked).error?.code ?? "a result";
const isWell = async () => {
  expect(
    (await wire.request("textDocument/hover", { ...inJug, position: { line: 0, character: 0 } })).error,
  ).toBeUndefined();
  expect(wire.faults).toEqual([]);
  expect(wire.errors).toEqual([]);
};

describe("before it is initialized", () => {
  test.each([...Object.keys(TABLE), "fettle/panel", "kettle/boil", "shutdown"])("%s is refused", async (method) => {
    connect();
    expect(await codeOf(wire.request(method, TABLE[method]?.params ?? (method === "shutdown" ? undefined : {})))).toBe(
      NOT_INITIALIZED,
    );
  });

  test("what is told is dropped", async () => {
    connect();
    wire.notify("textDocument/didOpen", item(1, some));
    await begin(wire, {});
    const { result } = await wire.request("textDocument/documentSymbol", inJug);
    expect(JSON.stringify(result)).not.toContain("99");
    await isWell();
  });
});

test("it is initialized once", async () => {
  await started();
  expect(await codeOf(wire.request("initialize", { processId: null, rootUri: null, capabilities: {} }))).toBe(
    INVALID_REQUEST,
  );
  await isWell();
});

describe("after it was shut down", () => {
  test.each([...Object.keys(TABLE), "fettle/panel", "kettle/boil", "shutdown", "initialize"])(
    "%s is refused",
    async (method) => {
      await started();
      expect(await wire.request("shutdown")).toEqual({ result: null });
      const params = { processId: null, rootUri: null, capabilities: {}, ...TABLE[method]?.params };
      expect(await codeOf(wire.request(method, method === "shutdown" ? undefined : params))).toBe(INVALID_REQUEST);
    },
  );
});

describe("what it does not know", () => {
  test("a request is told so", async () => {
    await started();
    for (const method of ["kettle/boil", "$/kettle", "textDocument/kettle", "textDocument/moniker"])
      expect(await codeOf(wire.request(method, { ...inJug, position: { line: 0, character: 0 } }))).toBe(
        METHOD_NOT_FOUND,
      );
    await isWell();
  });

  test("a notification is let pass", async () => {
    await started();
    for (const method of ["$/kettle", "$/progress", "kettle/boiled", "notebookDocument/didOpen"])
      wire.send({ jsonrpc: "2.0", method, params: {} });
    wire.notify("$/setTrace", { value: "verbose" });
    wire.notify("$/setTrace", { value: "off" });
    wire.notify("window/workDoneProgress/cancel", { token: "nobody's" });
    wire.notify("$/cancelRequest", { id: 4711 });
    wire.notify("textDocument/didSave", inJug);
    await isWell();
  });
});

describe("documents that it does not know", () => {
  test("a change or a close of one that is not open changes nothing", async () => {
    await started();
    wire.notify("textDocument/didChange", {
      textDocument: { uri: jug, version: 7 },
      contentChanges: [{ text: some }],
    });
    wire.notify("textDocument/didClose", inJug);
    const { result } = await wire.request("textDocument/documentSymbol", inJug);
    expect(JSON.stringify(result)).not.toContain("99");
    await isWell();
  });

  test.each([
    "file:///shed/none.fettle",
    "untitled:Untitled-1",
    "git:/shed/jug.fettle?HEAD",
    "file:///shed/a%20b%C3%A4.fettle",
    "x:",
  ])("%s is answered", async (uri) => {
    await started();
    for (const [method, { asks }] of Object.entries(TABLE)) {
      if (method === "textDocument/diagnostic") continue;
      for (const params of asks?.({ uri, text: "" }) ?? [])
        expect((await wire.request(method, params)).error, method).toBeUndefined();
    }
    await isWell();
  });
});

describe("what clients may leave out", () => {
  test.each<[string, object]>([
    ["nothing but what must be there", { processId: null, rootUri: null, capabilities: {} }],
    ["folders that are null", { processId: null, rootUri: null, capabilities: {}, workspaceFolders: null }],
    [
      "a process that is there",
      { processId: process.pid, rootUri: SHED, rootPath: "/shed", capabilities: {}, workspaceFolders: [] },
    ],
    [
      "options that are null",
      {
        processId: null,
        rootUri: null,
        capabilities: {},
        initializationOptions: null,
        trace: "off",
        locale: "en",
        clientInfo: { name: "x" },
      },
    ],
    [
      "abilities that are empty",
      {
        processId: null,
        rootUri: null,
        capabilities: { workspace: {}, textDocument: {}, window: {}, general: {}, experimental: null },
        workDoneToken: "w",
      },
    ],
  ])("%s", async (_, params) => {
    connect();
    expect((await wire.request("initialize", params)).result.capabilities.hoverProvider).toBe(true);
    wire.notify("initialized", {});
    wire.notify("textDocument/didOpen", item(1, some));
    await isWell();
  });

  test("a context of completion, a kind of action, settings that are null", async () => {
    await started("all abilities");
    wire.notify("textDocument/didOpen", item(1, some));
    const position = { line: 3, character: 4 };
    const range = { start: position, end: position };
    for (const context of [
      undefined,
      { triggerKind: 1 },
      { triggerKind: 2, triggerCharacter: " " },
      { triggerKind: 3 },
    ])
      expect(
        (await wire.request("textDocument/completion", { ...inJug, position, ...(context && { context }) })).error,
      ).toBeUndefined();
    for (const context of [
      { diagnostics: [] },
      { diagnostics: [], only: [] },
      { diagnostics: [], only: ["", "kettle"], triggerKind: 2 },
    ])
      expect((await wire.request("textDocument/codeAction", { ...inJug, range, context })).error).toBeUndefined();
    wire.notify("workspace/didChangeConfiguration", { settings: null });
    wire.notify("workspace/didChangeWatchedFiles", { changes: [] });
    wire.notify("workspace/didRenameFiles", { files: [] });
    wire.notify("textDocument/didChange", { textDocument: { uri: jug, version: 2 }, contentChanges: [] });
    for (const method of ["workspace/willRenameFiles", "workspace/willDeleteFiles"])
      expect(await wire.request(method, { files: [] })).toEqual({ result: null });
    await isWell();
  });

  test("the end of a range before its beginning, and a change beyond the text", async () => {
    await started("all abilities");
    wire.notify("textDocument/didOpen", item(1, some));
    const range = { start: { line: 3, character: 4 }, end: { line: 0, character: 2 } };
    expect(
      (await wire.request("textDocument/codeAction", { ...inJug, range, context: { diagnostics: [] } })).error,
    ).toBeUndefined();
    expect((await wire.request("textDocument/inlayHint", { ...inJug, range })).error).toBeUndefined();
    wire.notify("textDocument/didChange", {
      textDocument: { uri: jug, version: 2 },
      contentChanges: [
        { range: { start: { line: 900, character: 0 }, end: { line: 1000, character: 4 } }, text: "\nosd\n" },
      ],
    });
    const { result } = await wire.request("textDocument/documentSymbol", inJug);
    expect(JSON.stringify(result)).toContain("osd");
    await isWell();
  });
});

describe("what is no message", () => {
  const framed = (text: string) => `Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`;

  test.each<[string, string, number]>([
    ["no JSON", '{"jsonrpc": "2.0", "id": 1, ', PARSE_ERROR],
    ["nothing", "", PARSE_ERROR],
    ["several at once", '[{"jsonrpc":"2.0","id":1,"method":"shutdown"}]', INVALID_REQUEST],
    ["null", "null", INVALID_REQUEST],
    ["a number", "42", INVALID_REQUEST],
    ["neither asked nor answered", '{"jsonrpc":"2.0","id":12,"params":{}}', INVALID_REQUEST],
    ["a method that is none", '{"jsonrpc":"2.0","id":12,"method":5}', INVALID_REQUEST],
  ])("%s: is told so, and the next is answered", async (_, text, code) => {
    await started();
    const before = wire.heard.length;
    wire.write(framed(text));
    await wire.settled();
    expect(wire.heard.slice(before).flatMap(({ error }) => error?.code ?? [])).toEqual([code]);
  });

  test("many at once, in pieces, with other headers", async () => {
    await started();
    const count = 200;
    const all = Array.from({ length: count }, (_, i) => {
      const text = JSON.stringify({ jsonrpc: "2.0", id: `x${i}`, method: "fettle/page", params: { name: "pack" } });
      return `Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length:${text.length}\r\n\r\n${text}`;
    }).join("");
    for (let i = 0; i < all.length; i += 777) wire.write(all.slice(i, i + 777));
    await wire.settled();
    const ids = wire.heard.flatMap(({ id, result }) => (String(id).startsWith("x") && result ? [id] : []));
    expect(ids).toHaveLength(count);
  });

  test("a text of several megabytes is opened, and said not to be read", async () => {
    await started("only pushed findings");
    wire.notify("textDocument/didOpen", item(1, `craft "Jug"\n${"# é\n".repeat(1_500_000)}`));
    const pushed = () =>
      wire.heard.filter(
        ({ method, params }) => method?.endsWith("publishDiagnostics") && (params as { uri: string }).uri === jug,
      );
    await expect.poll(() => JSON.stringify(pushed().at(-1)?.params)).toContain("was not read");
    expect(wire.faults).toEqual([]);
  });
});

describe("the program", () => {
  let program: string;
  beforeAll(async () => {
    program = await buildProgram();
  });

  /** Its exit code after these steps over standard input and output; null would be a signal. */
  async function exitOf(
    steps: (wire: Wire) => unknown,
    end: (stdin: NodeJS.WritableStream) => unknown,
  ): Promise<number | null> {
    const child = spawn(process.execPath, [program, "serve", "--stdio"], { stdio: ["pipe", "pipe", "ignore"] });
    const gone = new Promise<number | null>((resolve) => child.once("exit", resolve));
    const running = openWire({ toServer: child.stdin, fromServer: child.stdout }, {});
    await begin(running, {}, { folder: "file:///nowhere" });
    await steps(running);
    await end(child.stdin);
    const code = await gone;
    expect(running.faults).toEqual([]);
    return code;
  }

  test("ends with 0 where it was shut down before, also with the stream, and with 1 where it was not", async () => {
    const shutDown = (running: Wire) => running.request("shutdown");
    const exit = (running: Wire) => running.notify("exit");
    const [nothing, close] = [() => {}, (stdin: NodeJS.WritableStream) => stdin.end()];
    const codes = await Promise.all([
      exitOf((running) => shutDown(running).then(() => exit(running)), nothing),
      exitOf(shutDown, close),
      exitOf(exit, nothing),
      exitOf(nothing, close),
    ]);
    expect(codes).toEqual([0, 0, 1, 1]);
  });
});
