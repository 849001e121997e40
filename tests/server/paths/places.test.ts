/** Scripts in two folders, in none, and unsaved; files of a slow host and of one that refuses. */
import { afterEach, expect, test } from "vitest";
import type { Diagnostic } from "vscode-languageserver/node";
import type { ServerFiles } from "../../../server/src/lsp/documents.ts";
import { CLIENTS } from "../conformance/clients.ts";
import { inProcess, openWire, type Wire } from "../conformance/wire.ts";
import { filesInMemory } from "../session.ts";

const BASE = 'layer "Base"\n\nmodes\n  arm  when TL is down\n';
const WHEEL = 'handset "Wheel"\n\ncontrols\n  TL  switch  ch5  up 1000 us  down 2000 us\n';
const using = (name: string, ...paths: string[]) =>
  `craft "${name}"\n\n${paths.map((path) => `use "${path}"\n`).join("")}`;

let wire: Wire;
let isOpen: readonly string[];
afterEach(() => wire.end());

const named = (folders: readonly string[]) => folders.map((uri) => ({ uri, name: uri }));

async function started(files: ServerFiles, folders: readonly string[]): Promise<void> {
  isOpen = folders;
  wire = openWire(inProcess(files), CLIENTS["all abilities"], { "workspace/workspaceFolders": () => named(isOpen) });
  await wire.request("initialize", {
    processId: null,
    rootUri: null,
    capabilities: CLIENTS["all abilities"],
    workspaceFolders: folders.length === 0 ? null : named(folders),
  });
  wire.notify("initialized", {});
}

const open = (uri: string, text: string) =>
  wire.notify("textDocument/didOpen", { textDocument: { uri, languageId: "fettle", version: 1, text } });
const codes = async (uri: string): Promise<unknown[]> => {
  const { result } = await wire.request("textDocument/diagnostic", { textDocument: { uri } });
  return result.items.filter(({ severity }: Diagnostic) => severity === 1).map(({ code }: Diagnostic) => code);
};
const users = async (uri: string): Promise<string[]> => {
  const { result } = await wire.request("fettle/panel", { uri, view: "switches" });
  return [result.craft, ...result.alsoIn.map(({ name }: { name: string }) => name)];
};

const TWO: Readonly<Record<string, string>> = {
  "/shed/base.fettle": BASE,
  "/shed/wheel.fettle": WHEEL,
  "/shed/jug.fettle": using("Jug", "wheel.fettle", "base.fettle"),
  "/barn/base.fettle": BASE,
  "/barn/mug.fettle": using("Mug", "../shed/wheel.fettle", "base.fettle"),
};

test("two folders with files of the same names, one using a file of the other", async () => {
  await started(filesInMemory({ ...TWO }), ["file:///shed", "file:///barn"]);
  for (const uri of ["file:///shed/jug.fettle", "file:///barn/mug.fettle"]) {
    open(uri, TWO[uri.slice("file://".length)]!);
    expect(await codes(uri), uri).toEqual([]);
  }
  for (const [path, names] of [
    ["/shed/base.fettle", ["Jug"]],
    ["/barn/base.fettle", ["Mug"]],
    ["/shed/wheel.fettle", ["Mug", "Jug"]],
  ] as const) {
    open(`file://${path}`, TWO[path]!);
    expect(await users(`file://${path}`), path).toEqual(names);
  }
});

test("a folder that is closed is outside from then on, and inside again once it is back", async () => {
  await started(filesInMemory({ ...TWO }), ["file:///shed", "file:///barn"]);
  const uri = "file:///barn/mug.fettle";
  open(uri, TWO["/barn/mug.fettle"]!);
  const change = (added: string[], removed: string[]) => {
    isOpen = [...isOpen.filter((each) => !removed.includes(each)), ...added];
    wire.notify("workspace/didChangeWorkspaceFolders", { event: { added: named(added), removed: named(removed) } });
  };
  expect(await codes(uri)).toEqual([]);
  // The server asks which folders there are now, and answers meanwhile.
  change([], ["file:///shed"]);
  await expect.poll(() => codes(uri)).toEqual(["use-missing"]);
  change(["file:///shed"], []);
  await expect.poll(() => codes(uri)).toEqual([]);
});

test("a script in no folder uses what lies beside it; one that is not saved has nothing beside it", async () => {
  await started(filesInMemory({ ...TWO }), []);
  open("file:///shed/jug.fettle", TWO["/shed/jug.fettle"]!);
  expect(await codes("file:///shed/jug.fettle")).toEqual([]);
  open("untitled:Untitled-1", using("Bowl", "base.fettle"));
  expect(await codes("untitled:Untitled-1")).toEqual(["use-missing"]);
  open("untitled:Untitled-2", `${using("Cup")}\nsafety\n  arm-tilt-limit  30 deg\n`);
  expect(await codes("untitled:Untitled-2")).toEqual([]);
  const { result } = await wire.request("textDocument/hover", {
    textDocument: { uri: "untitled:Untitled-2" },
    position: { line: 4, character: 4 },
  });
  expect(result.contents.value).toContain("arm-tilt-limit");
});

test("a host that answers late, and one that refuses, keep nothing from the scripts that can be read", async () => {
  const files = filesInMemory({ ...TWO });
  await started(
    {
      ...files,
      async read(path) {
        await new Promise((resolve) => setTimeout(resolve, 30));
        if (path === "/shed/base.fettle")
          return { answer: { kind: "unreadable", why: "the connection was closed" }, realPath: path };
        return files.read(path);
      },
    },
    ["file:///shed"],
  );
  const uri = "file:///shed/jug.fettle";
  open(uri, TWO["/shed/jug.fettle"]!);
  const { result } = await wire.request("textDocument/diagnostic", { textDocument: { uri } });
  expect(result.items.map(({ message }: Diagnostic) => message)).toContainEqual(
    expect.stringContaining("“base.fettle” cannot be used: the connection was closed."),
  );
  expect(wire.errors).toEqual([]);
});

test("a name whose accents another system stores otherwise is found by its looks, and told apart in words", async () => {
  const [composed, decomposed] = ["T\u00f6pfe.fettle", "To\u0308pfe.fettle"];
  await started(filesInMemory({ [`/shed/${decomposed}`]: BASE }), ["file:///shed"]);
  const uri = "file:///shed/jug.fettle";
  open(uri, using("Jug", composed));
  await wire.request("workspace/symbol", { query: "" });
  const { result } = await wire.request("textDocument/diagnostic", { textDocument: { uri } });
  const missing = result.items.filter(({ code }: Diagnostic) => code === "use-missing");
  expect(missing.map(({ message }: Diagnostic) => message)).toEqual([
    `“${composed}” cannot be used: there is no such file. There is one whose name looks the same, with its accents stored otherwise, as another system does it.`,
  ]);
  const actions = await wire.request("textDocument/codeAction", {
    textDocument: { uri },
    range: missing[0].range,
    context: { diagnostics: missing },
  });
  expect(JSON.stringify(actions.result)).toContain(`use "${decomposed}"`.slice(4).replaceAll('"', '\\"'));
});
