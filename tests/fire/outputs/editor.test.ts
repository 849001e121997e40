/** What a stranger's text does in an editor: every answer of the server is held to being text, or Markdown without a way out. */
import { expect, test } from "vitest";
import type { ClientCapabilities, ProtocolConnection } from "vscode-languageserver/node";
import { filesInMemory, startSession } from "../../server/session.ts";
import { ICON_IN_LABEL, LINK_IN_NOTICE, markdownFaults, unseenIn } from "./inspect.ts";
import { hostileRows } from "./rows.ts";
import { type Shed, shedOf } from "./shed.ts";

const CLIENT: ClientCapabilities = {
  textDocument: {
    diagnostic: { relatedInformation: true },
    definition: { linkSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    completion: { completionItem: { snippetSupport: true } },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } } },
    rename: { prepareSupport: true },
    inlayHint: { resolveSupport: { properties: ["tooltip"] } },
  },
  workspace: {
    workspaceEdit: { documentChanges: true, changeAnnotationSupport: {}, resourceOperations: ["create", "rename"] },
  },
  window: { workDoneProgress: true },
};

/** One that shows no Markdown, and gets the same as plain text. */
const PLAIN: ClientCapabilities = {
  ...CLIENT,
  textDocument: { ...CLIENT.textDocument, hover: { contentFormat: ["plaintext"] } },
};

/** Data by which something is found, and text that is written: these are the pilot's own bytes, as they are. */
const RAW = new Set(
  "uri targetUri target newText data filterText sortText edits href arguments placeholder diagnostics".split(" "),
);

// biome-ignore lint/suspicious/noExplicitAny: any answer of any request.
type Answer = any;

/** All that is amiss in an answer, each with the way to it. */
function faultsIn(answer: Answer, way: string): string[] {
  if (typeof answer === "string") {
    const unseen = unseenIn(answer);
    return unseen === null ? [] : [`${way}: ${unseen}`];
  }
  if (Array.isArray(answer)) return answer.flatMap((each) => faultsIn(each, way));
  if (typeof answer !== "object" || answer === null) return [];
  if (answer.kind === "markdown") return markdownFaults(answer.value).map((fault) => `${way}: ${fault}`);
  return Object.entries(answer).flatMap(([name, each]) => (RAW.has(name) ? [] : faultsIn(each, `${way}.${name}`)));
}

interface Sweep {
  ask(method: string, params: object): Promise<Answer>;
  readonly faults: string[];
  readonly methods: Set<string>;
}

/** Answers what the server asks, and holds what it tells. */
function listen(client: ProtocolConnection, faults: string[]): void {
  client.onRequest("client/registerCapability", () => null);
  client.onRequest("workspace/configuration", ({ items }: { items: unknown[] }) => items.map(() => null));
  client.onRequest("window/workDoneProgress/create", () => null);
  client.onNotification("window/showMessage", ({ message }: { message: string }) => {
    faults.push(...faultsIn(message, "window/showMessage"));
    if (LINK_IN_NOTICE.test(message)) faults.push(`a link in ${message}`);
  });
}

/** Asks all that is asked of one document. */
async function sweepDocument({ ask, faults }: Sweep, uri: string, text: string): Promise<void> {
  const textDocument = { uri };
  const lines = text.split(/\r\n?|\n/);
  const whole = { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } };
  const { items } = await ask("textDocument/diagnostic", { textDocument });
  for (const method of ["documentSymbol", "foldingRange", "documentLink", "documentColor"])
    await ask(`textDocument/${method}`, { textDocument });
  for (const { command } of (await ask("textDocument/codeLens", { textDocument })) ?? [])
    if (ICON_IN_LABEL.test(command.title)) faults.push(`an icon in ${command.title}`);
  for (const hint of (await ask("textDocument/inlayHint", { textDocument, range: whole })) ?? [])
    await ask("inlayHint/resolve", hint);
  await ask("textDocument/codeAction", { textDocument, range: whole, context: { diagnostics: [] } });
  for (const { range } of items.slice(0, 2))
    await ask("textDocument/codeAction", { textDocument, range, context: { diagnostics: [] } });
  for (const [line, words] of lines.entries()) {
    const first = Math.max(0, words.search(/\S/));
    const behind = Math.min(words.length, first + 14);
    for (const character of new Set([first + 1, behind]))
      await ask("textDocument/hover", { textDocument, position: { line, character } });
    const position = { line, character: behind };
    if (line % 4 === 1)
      for (const method of ["signatureHelp", "prepareRename", "definition"])
        await ask(`textDocument/${method}`, { textDocument, position });
    if (line % 9 === 2) {
      const completed = await ask("textDocument/completion", { textDocument, position });
      for (const item of completed?.items ?? []) faults.push(...snippetFaults(item));
      for (const item of (completed?.items ?? []).slice(0, 3)) await ask("completionItem/resolve", item);
      await ask("textDocument/rename", { textDocument, position, newName: words.slice(0, 12) });
      for (const item of (await ask("textDocument/prepareCallHierarchy", { textDocument, position })) ?? [])
        for (const way of ["incomingCalls", "outgoingCalls"]) await ask(`callHierarchy/${way}`, { item });
    }
  }
  const head = { line: lines.findIndex((each) => /^(?:craft|layer|handset)/.test(each)), character: 9 };
  for (const item of (await ask("textDocument/prepareTypeHierarchy", { textDocument, position: head })) ?? [])
    for (const way of ["supertypes", "subtypes"]) await ask(`typeHierarchy/${way}`, { item });
  await ask("workspace/willRenameFiles", { files: [{ oldUri: uri, newUri: `${uri}-moved.fettle` }] });
  await ask("workspace/willDeleteFiles", { files: [{ uri }] });
}

/** A place to type in a snippet that a text brought along. */
function snippetFaults({ insertTextFormat, textEdit }: Answer): string[] {
  if (insertTextFormat !== 2) return [];
  const found = /(?<!\\)(?:\$\{(?:1:x|TM_FILENAME)\}|\$0 \$)/.exec(textEdit.newText);
  return found ? [`a snippet in ${textEdit.newText}`] : [];
}

async function sweep(shed: Shed, client: ClientCapabilities): Promise<Sweep> {
  const inShed = Object.entries(shed.texts).map(([path, text]) => [`/shed/${path}`, text]);
  const faults: string[] = [];
  const methods = new Set<string>();
  const session = await startSession(filesInMemory(Object.fromEntries(inShed)), client, undefined, undefined, (to) =>
    listen(to, faults),
  );
  const ask: Sweep["ask"] = async (method, params) => {
    methods.add(method);
    try {
      const answer: Answer = await session.client.sendRequest(method, params);
      faults.push(...faultsIn(answer, method));
      return answer;
    } catch (error) {
      faults.push(...faultsIn((error as Error).message, `${method} refused`));
      return null;
    }
  };
  const made: Sweep = { ask, faults, methods };
  for (const path of [shed.craft, shed.other, shed.layer, shed.handset, shed.dialect]) {
    const uri = `file:///shed/${path.split("/").map(encodeURIComponent).join("/")}`;
    await session.open(uri, shed.texts[path]!);
    await sweepDocument(made, uri, shed.texts[path]!);
  }
  for (const item of (await ask("workspace/symbol", { query: "" }))?.slice(0, 3) ?? [])
    await ask("workspaceSymbol/resolve", item);
  await ask("workspace/diagnostic", { previousResultIds: [] });
  faults.push(...session.log.flatMap((line) => faultsIn(line, "log")));
  session.end();
  return made;
}

test.each(hostileRows())("case %i: an editor that shows Markdown", async (_, text) => {
  const { faults, methods } = await sweep(shedOf(text), CLIENT);
  expect(faults).toEqual([]);
  expect(methods.size).toBeGreaterThan(25);
});

test("one that shows plain text alone", async () => {
  for (const [, text] of hostileRows().slice(0, 1)) expect((await sweep(shedOf(text), PLAIN)).faults).toEqual([]);
});
