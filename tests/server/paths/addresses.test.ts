/** On every system the client gets back the addresses that it knows, whatever is asked, and files with any name find each other. */
import { afterEach, expect, test } from "vitest";
import { CLIENTS } from "../conformance/clients.ts";
import { begin, inProcess, openWire, type Wire } from "../conformance/wire.ts";
import { filesInMemory } from "../session.ts";
import { SYSTEMS, type System } from "./systems.ts";

const WHEEL = "hand sets/Wheel #2 (50%).fettle";
const BASE = "layers/Bücher & Töpfe+é;x=1.fettle";
const JUG = "craft/Krug 🏺 [neu].fettle";
const MUG = "craft/mug.fettle";
const TEXTS: Readonly<Record<string, string>> = {
  [WHEEL]: 'handset "Wheel"\n\ncontrols\n  TL  switch  ch5  up 1000 us  down 2000 us\n',
  [BASE]: 'layer "Base"\n\nmodes\n  arm  when TL is down\n\nosd\n  grid  53 x 20\n  pack-volts  at 3, 3\n',
  [JUG]: `craft "Jug"\n\nuse "../${WHEEL}"\nuse "../${BASE}"\n\npack "Long"\n  cells  6\n`,
  [MUG]: `craft "Mug"\n\nuse "../${WHEEL}"\nuse "../${BASE}"\n`,
};

let wire: Wire;
afterEach(() => wire.end());

async function started({ root, pathOf }: System): Promise<void> {
  const texts = Object.fromEntries(Object.entries(TEXTS).map(([path, text]) => [pathOf(path), text]));
  wire = openWire(inProcess(filesInMemory(texts)), CLIENTS["all abilities"]);
  await begin(wire, CLIENTS["all abilities"], { folder: root });
}

const open = (uri: string, text: string) =>
  wire.notify("textDocument/didOpen", { textDocument: { uri, languageId: "fettle", version: 1, text } });

/** Every text of an answer that looks like an address; of an object its names too, as edits go by the address. */
function addressesIn(answer: unknown, found = new Set<string>()): Set<string> {
  if (typeof answer === "string") {
    if (/^(file|vscode-[a-z-]+|memfs|untitled):/.test(answer)) found.add(answer);
  } else if (Array.isArray(answer)) {
    for (const each of answer) addressesIn(each, found);
  } else if (answer && typeof answer === "object") {
    addressesIn(Object.keys(answer), found);
    addressesIn(Object.values(answer), found);
  }
  return found;
}

/** What is asked of a document; the place is that of the mode in the layer, or of a used file. */
function asked({ uriOf }: System): [method: string, params: object][] {
  const [jug, base] = [JUG, BASE].map((path) => ({ textDocument: { uri: uriOf(path) } }));
  const used = { line: 3, character: 8 };
  const mode = { line: 3, character: 3 };
  const moved = { oldUri: uriOf(BASE), newUri: uriOf("layers/other name.fettle") };
  return [
    ["textDocument/definition", { ...jug, position: used }],
    ["textDocument/documentLink", jug!],
    ["textDocument/references", { ...base, position: mode, context: { includeDeclaration: true } }],
    ["textDocument/references", { ...jug, position: used, context: { includeDeclaration: true } }],
    ["textDocument/rename", { ...jug, position: { line: 5, character: 7 }, newName: "Short" }],
    ["textDocument/rename", { ...jug, position: used, newName: "../layers/moved ü.fettle" }],
    ["textDocument/codeLens", base!],
    ["textDocument/prepareCallHierarchy", { ...jug, position: used }],
    ["workspace/willRenameFiles", { files: [moved] }],
    ["workspace/willDeleteFiles", { files: [{ uri: uriOf(WHEEL) }] }],
    ["workspace/symbol", { query: "" }],
    ["workspace/diagnostic", { previousResultIds: [] }],
    ["fettle/workspaceTree", { findings: true }],
    ["fettle/fleet", { known: null }],
    ["fettle/panel", { uri: uriOf(BASE), view: "goggles" }],
    ["fettle/panel", { uri: uriOf(JUG), view: "switches" }],
    ["fettle/origin", { uri: uriOf(BASE), position: mode }],
    ["fettle/effective", { uri: uriOf(JUG) }],
    ["fettle/status", { uri: uriOf(JUG) }],
    ["fettle/scripts", { uri: uriOf(JUG), kind: "handset" }],
    ["fettle/compare", { uri: uriOf(JUG), other: { kind: "file", uri: uriOf(MUG) } }],
  ];
}

test.each(SYSTEMS)("$title", async (system) => {
  await started(system);
  for (const path of [JUG, BASE]) open(system.uriOf(path), TEXTS[path]!);
  const told = await wire.request("textDocument/diagnostic", { textDocument: { uri: system.uriOf(JUG) } });
  expect(told.result.items.map(({ code }: { code: string }) => code)).not.toContain("use-missing");
  const own = new Set(Object.keys(TEXTS).map(system.uriOf));
  const seen = new Set<string>();
  for (const [method, params] of asked(system)) {
    const { result, error } = await wire.request(method, params);
    expect(error, method).toBeUndefined();
    for (const each of addressesIn(result)) {
      seen.add(each);
      const isNew = /(moved|other)[^/]*$/.test(each);
      expect(isNew || own.has(each), `${method}: ${each}`).toBe(true);
    }
  }
  for (const each of own) expect(seen, each).toContain(each);
  expect(wire.errors).toEqual([]);
});
