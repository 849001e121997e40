/** A client and the server in one process, with files in memory: what an editor would see. */
import { PassThrough } from "node:stream";
import {
  createConnection,
  createProtocolConnection,
  type Diagnostic,
  type InitializeParams,
  type InitializeResult,
  ProposedFeatures,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  ResponseError,
  type ServerCapabilities,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import type { ServerFiles } from "../../server/src/lsp/documents.ts";
import { startServer } from "../../server/src/lsp/start.ts";
import type { MakeWarmUp } from "../../server/src/lsp/warm-up.ts";
import { memoryFiles } from "../../shared/model/files.ts";

export interface Session {
  readonly client: ProtocolConnection;
  /** What the server said that it can do. */
  readonly offers: ServerCapabilities;
  /** What the server pushed, by address: the last of each. */
  readonly pushed: Map<string, Diagnostic[]>;
  /** All that the server pushed, in order. */
  readonly publications: PublishDiagnosticsParams[];
  /** Lines that the server logged. */
  readonly log: string[];
  open(uri: string, text: string): Promise<void>;
  pull(uri: string): Promise<Diagnostic[]>;
  end(): void;
}

/** Files by path, answered as a disk would, and how often each was read. */
export function filesInMemory(texts: Record<string, string>, reads = new Map<string, number>()): ServerFiles {
  return {
    async read(path) {
      reads.set(path, (reads.get(path) ?? 0) + 1);
      return { answer: memoryFiles(texts).read(path)!, realPath: path };
    },
    list: async () => ({ paths: Object.keys(texts), cut: false }),
    isFolder: async (path) => Object.keys(texts).some((each) => each.startsWith(`${path}/`)),
  };
}

export const PULLING: InitializeParams["capabilities"] = {
  textDocument: {
    diagnostic: {},
    definition: { linkSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    completion: { completionItem: { snippetSupport: true } },
    signatureHelp: { signatureInformation: { parameterInformation: { labelOffsetSupport: true } } },
  },
};

/**
 * `warmUp` is the server's, where it is not the one that all tests of a process share; `beforeListening` sets up
 * what the client answers from the first message on.
 */
export async function startSession(
  files: ServerFiles,
  capabilities = PULLING,
  options?: unknown,
  warmUp?: MakeWarmUp,
  beforeListening: (client: ProtocolConnection) => void = () => {},
): Promise<Session> {
  const up = new PassThrough();
  const down = new PassThrough();
  startServer(
    createConnection(ProposedFeatures.all, new StreamMessageReader(up), new StreamMessageWriter(down)),
    files,
    ResponseError,
    warmUp,
  );
  const client = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  const pushed = new Map<string, Diagnostic[]>();
  const publications: PublishDiagnosticsParams[] = [];
  const log: string[] = [];
  client.onNotification("textDocument/publishDiagnostics", (published: PublishDiagnosticsParams) => {
    publications.push(published);
    pushed.set(published.uri, published.diagnostics);
  });
  client.onNotification("window/logMessage", ({ message }: { message: string }) => {
    log.push(message);
  });
  beforeListening(client);
  client.listen();
  const workspaceFolders = [{ uri: "file:///shed", name: "shed" }];
  const { capabilities: offers } = (await client.sendRequest("initialize", {
    processId: null,
    rootUri: null,
    capabilities,
    workspaceFolders,
    initializationOptions: options,
  })) as InitializeResult;
  await client.sendNotification("initialized", {});
  return {
    client,
    offers,
    pushed,
    publications,
    log,
    open: (uri, text) =>
      client.sendNotification("textDocument/didOpen", {
        textDocument: { uri, languageId: "fettle", version: 1, text },
      }),
    async pull(uri) {
      const report: { items: Diagnostic[] } = await client.sendRequest("textDocument/diagnostic", {
        textDocument: { uri },
      });
      return report.items;
    },
    end: () => client.dispose(),
  };
}
