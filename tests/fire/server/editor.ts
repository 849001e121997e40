/** What an editor knows while it works with a server: its documents, folders and settings, which it keeps when the server is another. */
import { TextDocument } from "vscode-languageserver-textdocument";
import { type Client, type Folder, type Host, startClient } from "./client.ts";

export type Change = Parameters<typeof TextDocument.update>[1][number];

/** As the protocol has it: 1 made, 2 changed, 3 deleted. */
export interface FileEvent {
  readonly uri: string;
  readonly type: 1 | 2 | 3;
}

export interface Editor {
  readonly client: Client;
  /** By address, in the order in which they were opened or changed last. */
  readonly documents: ReadonlyMap<string, TextDocument>;
  open(uri: string, text: string, version: number): void;
  change(uri: string, changes: readonly Change[], version: number): void;
  close(uri: string): void;
  tell(events: readonly FileEvent[]): void;
  setFolders(folders: readonly Folder[]): void;
  setSettings(settings: object): void;
  /** Another server, as after a crash: it is told of all that is open. */
  restart(): Promise<void>;
  /** A server besides that never saw anything but the texts as they are now. */
  another(): Promise<Client>;
  /** Findings of scripts that are not open, by address, as the running server tells them. */
  closedFindings(client: Client): ReadonlyMap<string, readonly unknown[]>;
}

const languageOf = (uri: string) => (uri.endsWith(".json") ? "json" : "fettle");
/** The token of the one request that stays open, under which an editor is told of all that is not open. */
const STREAM = "all findings";

/** Starts a server for an editor that has nothing open. */
export async function startEditor(
  program: string,
  begun: Omit<Host, "folders" | "settings">,
  folders: readonly Folder[],
  settings: object,
): Promise<Editor> {
  const documents = new Map<string, TextDocument>();
  const now = { folders, settings };
  const host: Host = { ...begun, folders: () => now.folders, settings: () => now.settings };
  const told = (client: Client) => {
    for (const document of documents.values())
      client.wire.notify("textDocument/didOpen", {
        textDocument: {
          uri: document.uri,
          languageId: document.languageId,
          version: document.version,
          text: document.getText(),
        },
      });
    // An editor that pulls asks once, and is told from then on.
    if (client.offers("workspace/diagnostic"))
      void client.wire.request("workspace/diagnostic", { previousResultIds: [], partialResultToken: STREAM });
  };
  const start = async () => {
    const client = await startClient(program, host);
    told(client);
    return client;
  };
  let client = await start();
  return {
    get client() {
      return client;
    },
    documents,
    open(uri, text, version) {
      const document = TextDocument.create(uri, languageOf(uri), version, text);
      documents.set(uri, document);
      client.wire.notify("textDocument/didOpen", {
        textDocument: { uri, languageId: document.languageId, version, text },
      });
    },
    change(uri, changes, version) {
      const document = documents.get(uri)!;
      client.wire.notify("textDocument/didChange", { textDocument: { uri, version }, contentChanges: changes });
      documents.delete(uri);
      documents.set(uri, TextDocument.update(document, [...changes], version));
    },
    close(uri) {
      documents.delete(uri);
      client.wire.notify("textDocument/didClose", { textDocument: { uri } });
    },
    tell: (changes) => client.wire.notify("workspace/didChangeWatchedFiles", { changes }),
    setFolders(folders) {
      const before = now.folders;
      now.folders = folders;
      const lacks = (all: readonly Folder[]) => (each: Folder) => !all.some(({ uri }) => uri === each.uri);
      const event = { added: folders.filter(lacks(before)), removed: before.filter(lacks(folders)) };
      client.wire.notify("workspace/didChangeWorkspaceFolders", { event });
    },
    setSettings(settings) {
      now.settings = settings;
      client.wire.notify("workspace/didChangeConfiguration", { settings: null });
    },
    async restart() {
      await client.kill();
      client = await start();
    },
    another: start,
    // An editor drops what it was told of a file once that is opened.
    closedFindings: (client) => new Map([...closedFindings(client)].filter(([uri]) => !documents.has(uri))),
  };
}

function closedFindings({ wire, offers }: Client): ReadonlyMap<string, readonly unknown[]> {
  const found = new Map<string, readonly unknown[]>();
  const put = (uri: string, items: readonly unknown[]) => {
    if (items.length > 0) found.set(uri, items);
    else found.delete(uri);
  };
  for (const { method, params } of wire.heard) {
    if (offers("workspace/diagnostic") && method === "$/progress") {
      const { token, value } = params as { token: unknown; value: { items: { uri: string; items?: unknown[] }[] } };
      if (token === STREAM) for (const { uri, items } of value.items) if (items) put(uri, items);
    } else if (method === "textDocument/publishDiagnostics") {
      const { uri, diagnostics } = params as { uri: string; diagnostics: unknown[] };
      put(uri, diagnostics);
    }
  }
  return found;
}
