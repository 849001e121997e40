/** How long the server takes over standard input and output, as an editor has it, and how much memory. */
import { spawn } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import {
  createProtocolConnection,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { memoryOf, ms, percentile } from "./figures.ts";
import { craftOf, writeWorkspace } from "./scripts.ts";

/** npm runs a script in the project's folder. */
const SERVER = join(process.cwd(), "dist/server/node.cjs");
const EDITS = 200;
const ASKS = 100;
/** A pilot looks before he types; in that silence the server warms up. */
const LOOK_MS = 2000;

interface Served {
  readonly client: ProtocolConnection;
  readonly readyMs: number;
  readonly pid: number;
  readonly uri: string;
  end(): Promise<void>;
}

/** Starts the server on a workspace and waits until it has said what it can do. */
async function serve(folder: string): Promise<Served> {
  const begun = performance.now();
  const child = spawn(process.execPath, [SERVER, "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  const client = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  client.listen();
  const uri = pathToFileURL(folder).href;
  await client.sendRequest("initialize", {
    processId: process.pid,
    rootUri: uri,
    capabilities: { textDocument: { diagnostic: {} } },
    workspaceFolders: [{ uri, name: "bench" }],
  });
  const readyMs = performance.now() - begun;
  await client.sendNotification("initialized", {});
  return {
    client,
    readyMs,
    pid: child.pid!,
    uri: pathToFileURL(join(folder, "tankard.fettle")).href,
    async end() {
      const gone = new Promise((resolve) => child.once("exit", resolve));
      await client.sendRequest("shutdown");
      await client.sendNotification("exit");
      await gone;
      client.dispose();
    },
  };
}

/** Milliseconds of each of some runs, the shortest first. */
async function timed(times: number, run: (i: number) => Promise<unknown>): Promise<number[]> {
  const spent: number[] = [];
  for (let i = 0; i < times; i++) {
    const begun = performance.now();
    await run(i);
    spent.push(performance.now() - begun);
  }
  return spent.sort((a, b) => a - b);
}

/** Looks at the craft, types into its middle, and after every letter asks for the findings; then asks for the rest. */
async function measure(lines: number): Promise<string> {
  const text = craftOf(lines);
  const folder = writeWorkspace(text);
  const served = await serve(folder);
  const { client, uri } = served;
  const textDocument = { uri };
  try {
    await client.sendNotification("textDocument/didOpen", {
      textDocument: { uri, languageId: "fettle", version: 1, text },
    });
    const pull = () =>
      client.sendRequest("textDocument/diagnostic", { textDocument }) as Promise<{ items: { severity: number }[] }>;
    const first = performance.now();
    const { items } = await pull();
    const firstMs = performance.now() - first;
    const errors = items.filter(({ severity }) => severity === 1).length;
    const all = text.split("\n");
    const line = all.findIndex((each, i) => i >= Math.floor(all.length / 2) && each.startsWith("  capacity"));
    const at = line < 0 ? 11 : line;
    const column = all[at]!.indexOf(" mAh");
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    const edits = await timed(EDITS, async (i) => {
      const start = { line: at, character: column };
      const range = { start, end: i % 2 === 0 ? start : { line: at, character: column + 1 } };
      const contentChanges = [{ range, text: i % 2 === 0 ? "1" : "" }];
      client.sendNotification("textDocument/didChange", { textDocument: { uri, version: i + 2 }, contentChanges });
      await pull();
    });
    const hovers = await timed(ASKS, (i) =>
      client.sendRequest("textDocument/hover", { textDocument, position: { line: 9 + (i % 5), character: 3 } }),
    );
    const completions = await timed(ASKS, () =>
      client.sendRequest("textDocument/completion", { textDocument, position: { line: 10, character: 2 } }),
    );
    const panels = await timed(ASKS, () => client.sendRequest("fettle/panel", { uri }));
    const symbols = await timed(20, () => client.sendRequest("textDocument/documentSymbol", { textDocument }));
    return [
      String(lines).padStart(6),
      ms(firstMs),
      `${ms(percentile(edits, 0.5))} ${ms(percentile(edits, 0.95))}`,
      ...[hovers, completions, panels, symbols].map((each) => ms(percentile(each, 0.95))),
      memoryOf(served.pid),
      `${errors} errors`,
    ].join("  ");
  } finally {
    await served.end();
    rmSync(folder, { recursive: true });
  }
}

async function measureReady(): Promise<string> {
  const folder = writeWorkspace(craftOf(100));
  const spent: number[] = [];
  let memory = "";
  for (let i = 0; i < 10; i++) {
    const served = await serve(folder);
    spent.push(served.readyMs);
    memory = memoryOf(served.pid);
    await served.end();
  }
  rmSync(folder, { recursive: true });
  spent.sort((a, b) => a - b);
  return `spawn to ready: p50 ${ms(percentile(spent, 0.5))} ms, p95 ${ms(percentile(spent, 0.95))} ms; memory then ${memory}`;
}

export async function run(): Promise<string> {
  const rows = [
    await measureReady(),
    "",
    " lines   first  edit → findings   hover  compl.  panel  symbols  memory",
    "            ms   p50 ms p95 ms  p95 ms  p95 ms  p95 ms  p95 ms",
  ];
  for (const lines of [100, 500, 1_000, 10_000]) rows.push(await measure(lines));
  return rows.join("\n");
}
