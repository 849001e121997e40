/** One file open under two addresses at once: a drive that is spelled in two ways, or a link and what it leads to. */
import { afterEach, expect, test } from "vitest";
import { CLIENTS } from "../conformance/clients.ts";
import { begin, inProcess, openWire, type Wire } from "../conformance/wire.ts";
import { filesInMemory } from "../session.ts";

const CAPITAL = "file:///C:/shed/jug.fettle";
const ENCODED = "file:///c%3A/shed/jug.fettle";
const craft = (name: string) => `craft "${name}"\n\nuse "base.fettle"\n`;

let wire: Wire;
afterEach(() => wire.end());

async function started(): Promise<void> {
  const texts = {
    "c:/shed/base.fettle": 'layer "Base"\n',
    "c:/shed/jug.fettle": `${craft("On the disk")}use "none.fettle"\n`,
    "c:/shed/own.aliases.json": "{}",
  };
  wire = openWire(inProcess(filesInMemory(texts)), CLIENTS["all abilities"]);
  await begin(wire, CLIENTS["all abilities"], { folder: "file:///c%3A/shed" });
}

const open = (uri: string, text: string) =>
  wire.notify("textDocument/didOpen", { textDocument: { uri, languageId: "fettle", version: 1, text } });
const close = (uri: string) => wire.notify("textDocument/didClose", { textDocument: { uri } });
/** Types a name into the header of the craft. */
const type = (uri: string, version: number, name: string) =>
  wire.notify("textDocument/didChange", {
    textDocument: { uri, version },
    contentChanges: [{ range: { start: { line: 0, character: 7 }, end: { line: 0, character: 7 } }, text: name }],
  });
const nameAt = async (uri: string): Promise<string> => {
  const { result } = await wire.request("textDocument/documentSymbol", { textDocument: { uri } });
  return result[0].name;
};
/** The addresses of craft, as the tree of the workspace tells them. */
const scripts = async (): Promise<string[]> => {
  const { result } = await wire.request("fettle/workspaceTree", { findings: false });
  return result.files.map(({ file }: { file: string }) => file).filter((file: string) => file.endsWith("jug.fettle"));
};

test("what is typed under one address is not typed into the text of the other", async () => {
  await started();
  open(CAPITAL, craft("Jug"));
  open(ENCODED, craft("Jug"));
  type(CAPITAL, 2, "Old ");
  expect(await nameAt(CAPITAL)).toBe("Old Jug");
  type(ENCODED, 2, "My ");
  expect(await nameAt(ENCODED)).toBe("My Jug");
  type(CAPITAL, 3, "Very ");
  expect(await nameAt(CAPITAL)).toBe("Very Old Jug");
  expect(await scripts()).toEqual([CAPITAL]);
});

test("once one is closed the other's text counts, and the file's once both are", async () => {
  await started();
  open(CAPITAL, craft("Jug"));
  open(ENCODED, craft("Mug"));
  expect(await nameAt(ENCODED)).toBe("Mug");
  close(ENCODED);
  expect(await nameAt(CAPITAL)).toBe("Jug");
  expect(await scripts()).toEqual([CAPITAL]);
  type(CAPITAL, 2, "Old ");
  expect(await nameAt(CAPITAL)).toBe("Old Jug");
  close(CAPITAL);
  expect(await nameAt(CAPITAL)).toBe("On the disk");
  expect(await scripts()).toEqual([ENCODED]);
});

test("of a text that another one stands before nothing is answered, and its findings say why", async () => {
  await started();
  open(CAPITAL, craft("Jug"));
  open(ENCODED, craft("Jug"));
  const pulled = async (uri: string): Promise<string[]> => {
    const { result } = await wire.request("textDocument/diagnostic", { textDocument: { uri } });
    return result.items.map(({ message }: { message: string }) => message);
  };
  const why = "This file was not read: it is open under another address too, with another text";
  // As long as they are the same, it is known of both.
  expect(await pulled(CAPITAL)).toEqual(await pulled(ENCODED));
  type(ENCODED, 2, "My  ");
  expect(await pulled(CAPITAL)).toEqual([why]);
  expect(await pulled(ENCODED)).not.toContain(why);
  const options = { tabSize: 2, insertSpaces: true };
  const { result } = await wire.request("textDocument/formatting", { textDocument: { uri: CAPITAL }, options });
  expect(result ?? []).toEqual([]);
  type(CAPITAL, 2, "Old ");
  expect(await pulled(CAPITAL)).not.toContain(why);
  expect(await pulled(ENCODED)).toEqual([why]);
  expect(wire.errors).toEqual([]);
});

test("findings that were told of a file while it was closed go once it is opened under another address", async () => {
  await started();
  const told: { readonly uri: string; readonly items?: readonly unknown[] }[] = [];
  const partial = "all";
  void wire.request("workspace/diagnostic", { previousResultIds: [], partialResultToken: partial });
  const last = () => {
    told.length = 0;
    for (const { method, params } of wire.heard) {
      if (method !== "$/progress") continue;
      const { token, value } = params as { token: unknown; value: { items: typeof told } };
      if (token === partial) told.push(...value.items);
    }
    return told.findLast(({ uri }) => uri === ENCODED)?.items?.length;
  };
  await expect.poll(last, { timeout: 5000 }).toBeGreaterThan(0);
  open(CAPITAL, craft("Jug"));
  await expect.poll(last, { timeout: 5000 }).toBe(0);
});

test("own words count as they are typed, and those of the other address once one is closed", async () => {
  await started();
  const [capital, encoded] = ["file:///C:/shed/own.aliases.json", "file:///c%3A/shed/own.aliases.json"];
  const faults = () => {
    const told = wire.heard.filter(({ method }) => method === "textDocument/publishDiagnostics");
    const last = told.at(-1)?.params as { diagnostics: unknown[] } | undefined;
    return last?.diagnostics.length ?? 0;
  };
  open(capital, "{ 1");
  await expect.poll(faults).toBe(1);
  open(encoded, '{ "aliases": {} }');
  await expect.poll(faults).toBe(0);
  close(encoded);
  await expect.poll(faults).toBe(1);
});
