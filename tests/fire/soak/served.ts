/** The language server as it is shipped, in a process of its own, and an editor's end of the line to it. */
import { type ChildProcess, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import {
  createProtocolConnection,
  type Diagnostic,
  type ProtocolConnection,
  type ServerCapabilities,
  StreamMessageReader,
  StreamMessageWriter,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver/node";
import { bundles } from "../../../.dev/bundles.mjs";
import { temporaryFolder } from "../../cli/program.ts";
import { CLIENTS } from "../../server/conformance/clients.ts";

/** Builds the server into a folder of its own, so that what is built meanwhile changes nothing; gives its path. */
export async function buildServer(): Promise<string> {
  const folder = temporaryFolder();
  const servers = bundles.filter(({ outfile }) => outfile?.startsWith("dist/server/"));
  const placeOf = (outfile: string) => join(folder, basename(outfile));
  await Promise.all(servers.map((bundle) => build({ ...bundle, outfile: placeOf(bundle.outfile!), minify: true })));
  return placeOf("node.cjs");
}

export interface Served {
  readonly client: ProtocolConnection;
  readonly offers: ServerCapabilities;
  readonly process: ChildProcess;
  /** The address of the folder. */
  readonly root: string;
  /** Lines that the server logged as errors, and what it wrote to standard error. */
  readonly errors: readonly string[];
  /** Findings of scripts that are not open, as they were told so far, by address. */
  readonly closed: ReadonlyMap<string, readonly Diagnostic[]>;
  /** How often the server had the editor ask for findings anew. */
  refreshes(): number;
  open(path: string, text: string, version?: number): void;
  pull(path: string): Promise<readonly Diagnostic[]>;
  /** Findings of all scripts that are not open, once all of them are worked out, by address. */
  pullAll(): Promise<ReadonlyMap<string, readonly Diagnostic[]>>;
  /** Has the server tell of scripts that are not open from now on, as their findings change. */
  listen(): void;
  /** Memory that the process holds, in MB; NaN where the system does not tell. */
  residentMb(): number;
  end(): Promise<number | null>;
}

const LOG_ERROR = 1;
/** What the server asks of an editor, and what has no answer but that it was taken. */
const TAKEN = [
  "client/registerCapability",
  "window/workDoneProgress/create",
  "workspace/semanticTokens/refresh",
  "workspace/codeLens/refresh",
  "workspace/inlayHint/refresh",
];

/** Starts a server on a folder and waits until it has said what it can do. */
export async function serve(server: string, folder: string): Promise<Served> {
  const child = spawn(process.execPath, [server, "--stdio"], { stdio: ["pipe", "pipe", "pipe"] });
  const client = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  const root = pathToFileURL(folder).href;
  const errors: string[] = [];
  const closed = new Map<string, readonly Diagnostic[]>();
  const take = (reports: readonly WorkspaceDocumentDiagnosticReport[]) => {
    for (const report of reports) if (report.kind === "full") closed.set(report.uri, report.items);
  };
  let refreshed = 0;
  child.stderr.setEncoding("utf8").on("data", (text: string) => errors.push(text));
  client.onNotification("window/logMessage", ({ type, message }: { type: number; message: string }) => {
    if (type === LOG_ERROR) errors.push(message);
  });
  client.onNotification("$/progress", ({ value }: { value: { items?: WorkspaceDocumentDiagnosticReport[] } }) =>
    take(value.items ?? []),
  );
  client.onRequest("workspace/configuration", ({ items }: { items: unknown[] }) => items.map(() => null));
  client.onRequest("workspace/workspaceFolders", () => null);
  client.onRequest("workspace/diagnostic/refresh", () => {
    refreshed++;
    return null;
  });
  for (const method of TAKEN) client.onRequest(method, () => null);
  client.listen();
  const { capabilities: offers } = (await client.sendRequest("initialize", {
    processId: process.pid,
    rootUri: root,
    capabilities: CLIENTS["UTF-16 alone"],
    workspaceFolders: [{ uri: root, name: "fleet" }],
    initializationOptions: { draws: true },
  })) as { capabilities: ServerCapabilities };
  await client.sendNotification("initialized", {});

  return {
    client,
    offers,
    process: child,
    root,
    errors,
    closed,
    refreshes: () => refreshed,
    open(path, text, version = 1) {
      const textDocument = { uri: `${root}/${path}`, languageId: languageOf(path), version, text };
      void client.sendNotification("textDocument/didOpen", { textDocument });
    },
    async pull(path) {
      const textDocument = { uri: `${root}/${path}` };
      const { items } = (await client.sendRequest("textDocument/diagnostic", { textDocument })) as {
        items: Diagnostic[];
      };
      return items;
    },
    async pullAll() {
      const { items } = (await client.sendRequest("workspace/diagnostic", { previousResultIds: [] })) as {
        items: (WorkspaceDocumentDiagnosticReport & { items: Diagnostic[] })[];
      };
      return new Map(items.map((report) => [report.uri, report.items]));
    },
    listen() {
      const asked = client.sendRequest("workspace/diagnostic", { previousResultIds: [], partialResultToken: "all" });
      // It stays open until another one is asked for.
      void asked
        .then((answer) => take((answer as { items: WorkspaceDocumentDiagnosticReport[] }).items))
        .catch(() => {});
    },
    residentMb: () => residentMbOf(child.pid!),
    async end() {
      const gone = new Promise<number | null>((resolve) => child.once("exit", resolve));
      await client.sendRequest("shutdown");
      await client.sendNotification("exit");
      const status = await gone;
      client.dispose();
      return status;
    },
  };
}

function languageOf(path: string): string {
  return path.endsWith(".json") ? "json" : "fettle";
}

/** From Linux's /proc. */
function residentMbOf(pid: number): number {
  try {
    return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1]) / 1024;
  } catch {
    return Number.NaN;
  }
}
