/** The server as an editor has it: a process of its own, over standard input and output. */
import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import {
  createProtocolConnection,
  type InitializeParams,
  type ProtocolConnection,
  type ServerCapabilities,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";

/** A server as it is started, and the language of what it is given. */
export interface Program {
  /** What Node is started with. */
  readonly args: readonly string[];
  readonly languageId: string;
  readonly initializationOptions?: unknown;
}

/** Ours. npm runs a script in the project's folder. */
export const FETTLE: Program = {
  args: [join(process.cwd(), "dist/server/node.cjs"), "--stdio"],
  languageId: "fettle",
};

export interface Served {
  readonly client: ProtocolConnection;
  readonly offers: ServerCapabilities;
  readonly readyMs: number;
  readonly pid: number;
  /** The address of a path in the workspace. */
  uriOf(path: string): string;
  open(path: string, text: string): Promise<void>;
  end(): Promise<void>;
}

/** Starts a server on a folder and waits until it has said what it can do. */
export async function serveFolder(
  folder: string,
  capabilities: InitializeParams["capabilities"],
  { args, languageId, initializationOptions }: Program = FETTLE,
): Promise<Served> {
  const begun = performance.now();
  const child = spawn(process.execPath, args, { stdio: ["pipe", "pipe", "inherit"] });
  const client = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  client.listen();
  const uri = pathToFileURL(folder).href;
  const { capabilities: offers } = (await client.sendRequest("initialize", {
    processId: process.pid,
    rootUri: uri,
    capabilities,
    initializationOptions,
    workspaceFolders: [{ uri, name: "bench" }],
  })) as { capabilities: ServerCapabilities };
  const readyMs = performance.now() - begun;
  await client.sendNotification("initialized", {});
  const uriOf = (path: string) => pathToFileURL(join(folder, path)).href;
  return {
    client,
    offers,
    readyMs,
    pid: child.pid!,
    uriOf,
    open: (path, text) =>
      client.sendNotification("textDocument/didOpen", {
        textDocument: { uri: uriOf(path), languageId, version: 1, text },
      }),
    async end() {
      const gone = new Promise((resolve) => child.once("exit", resolve));
      await client.sendRequest("shutdown");
      await client.sendNotification("exit");
      await gone;
      client.dispose();
    },
  };
}

/** Writes files by path into a new folder, lets `use` have it, and takes it away again. */
export async function inFolder<T>(
  files: Readonly<Record<string, string>>,
  use: (folder: string) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), "fettle-bench-"));
  try {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    return await use(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Milliseconds of each of some runs, the shortest first. */
export async function timed(times: number, run: (i: number) => Promise<unknown>): Promise<number[]> {
  const spent: number[] = [];
  for (let i = 0; i < times; i++) {
    const begun = performance.now();
    await run(i);
    spent.push(performance.now() - begun);
  }
  return spent.sort((a, b) => a - b);
}
