/** Each capability that the server announces is asked for over the wire, and every message is what the protocol's types say. */
import { readFileSync } from "node:fs";
import { afterEach, describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { projectFiles } from "../../tidy/sources.ts";
import { filesInMemory } from "../session.ts";
import { CLIENTS, type ClientName } from "./clients.ts";
import { announced, at, CLIENT_REQUESTS, METHODS } from "./methods.ts";
import { type Document, SHED, TABLE, TEXTS } from "./table.ts";
import { begin, inProcess, openWire, type Wire } from "./wire.ts";

let wire: Wire;
afterEach(() => wire?.end());

async function start(client: ClientName, texts: Readonly<Record<string, string>> = TEXTS): Promise<Wire> {
  wire = openWire(inProcess(filesInMemory({ ...texts })), CLIENTS[client]);
  await begin(wire, CLIENTS[client]);
  return wire;
}
const open = ({ uri, text }: Document, version = 1) =>
  wire.notify("textDocument/didOpen", { textDocument: { uri, languageId: "fettle", version, text } });
const jug: Document = { uri: `${SHED}/jug.fettle`, text: TEXTS["/shed/jug.fettle"]! };

test("every request that is announced has an entry, and every entry is announced", async () => {
  const { offered } = await start("all abilities");
  expect(announced(offered).sort()).toEqual(Object.keys(TABLE).sort());
});

test("nothing is answered that is not announced", async () => {
  const { offered } = await start("all abilities");
  const answered: string[] = [];
  for (const { name } of CLIENT_REQUESTS) {
    const { error } = await wire.request(name, { textDocument: { uri: jug.uri }, files: [], previousResultIds: [] });
    if (error?.code !== -32601) answered.push(name);
  }
  expect(answered.filter((name) => !announced(offered).includes(name))).toEqual([]);
});

describe.each(Object.keys(CLIENTS) as ClientName[])("a client with %s", (client) => {
  test("begins, and nothing that either side says is beyond the types or what the other can do", async () => {
    await start(client);
    open(jug);
    await wire.settled();
    expect(wire.faults).toEqual([]);
    expect(wire.errors).toEqual([]);
  });

  test.each(Object.entries(TABLE))("%s", async (method, { params, expect: hold }) => {
    await start(client);
    open(jug);
    const { clientPath } = METHODS.get(method)!;
    if (!announced(wire.offered).includes(method)) {
      // What a client cannot ask for need not be offered to it.
      expect(at(CLIENTS[client], clientPath)).toBeUndefined();
      return;
    }
    const { result, error } = await wire.request(method, params);
    expect(error).toBeUndefined();
    hold(result, client);
    expect(wire.faults).toEqual([]);
    expect(wire.errors).toEqual([]);
  });
});

describe("all that is asked of every script of the demo", () => {
  const paths = projectFiles().filter((path) => /^examples\/.*\.fettle$/.test(path));
  const texts = Object.fromEntries(paths.map((path) => [`/shed/${path}`, readFileSync(inProject(path), "utf8")]));

  test.each(paths)("%s", async (path) => {
    await start("all abilities", texts);
    const document = { uri: `${SHED}/${path}`, text: texts[`/shed/${path}`]! };
    open(document);
    let count = 0;
    const ask = async (method: string, params: object) => {
      count++;
      const { result, error } = await wire.request(method, params);
      if (error) expect(error.code, `${method}: ${error.message}`).toBe(-32803);
      for (const { method: next, paramsOf } of TABLE[method]?.leadsTo ?? [])
        for (const each of paramsOf(result, document)) await ask(next, each);
    };
    for (const [method, { asks }] of Object.entries(TABLE))
      for (const params of asks?.(document) ?? []) await ask(method, params);
    expect(count).toBeGreaterThan(100);
    expect(wire.faults).toEqual([]);
    expect(wire.errors).toEqual([]);
  });
});
