/** The server as it is shipped: one bundle that runs in a worker, and from which the one for Node takes it. */
import { isAscii } from "node:buffer";
import { fork } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { build } from "esbuild";
import { afterAll, expect, test, vi } from "vitest";
import { createProtocolConnection, IPCMessageReader, IPCMessageWriter } from "vscode-languageserver/node";
import { bundles } from "../../.dev/bundles.mjs";

const folder = mkdtempSync(join(tmpdir(), "fettle-shipped-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("on Node it is taken from the worker's bundle, over the channel that an editor opens, and is there but once; a second start has what the first one compiled", async () => {
  const servers = bundles.filter(({ outfile }) => outfile?.startsWith("dist/server/"));
  const files = servers.map(({ outfile }) => join(folder, basename(outfile!)));
  await Promise.all(servers.map((bundle, i) => build({ ...bundle, outfile: files[i]!, minify: true })));
  expect(files.map((file) => basename(file))).toEqual(["node.cjs", "server.cjs", "worker.js"]);
  const [nodeBytes, serverBytes, workerBytes] = files.map((file) => statSync(file).size);
  expect(nodeBytes! + serverBytes!).toBeLessThan(workerBytes! / 3);
  // An engine keeps a text that is all ASCII in half of the memory.
  expect(files.map((file) => isAscii(readFileSync(file)))).toEqual([true, true, true]);

  const caches = join(folder, "caches");
  const kept = () => (existsSync(join(caches, "fettle")) ? readdirSync(join(caches, "fettle")) : []);
  await served(files[0]!, caches, async () => {
    await vi.waitFor(() => expect(kept().filter((name) => name.endsWith(".compiled")).length).toBe(2), 30_000);
  });
  await served(files[0]!, caches, async () => {});
}, 60_000);

/** Starts it and looks at what it finds; ends it after `then`. */
async function served(file: string, caches: string, then: () => Promise<void>): Promise<void> {
  const env = { ...process.env, XDG_CACHE_HOME: caches };
  const child = fork(file, ["--node-ipc"], { env });
  const client = createProtocolConnection(new IPCMessageReader(child), new IPCMessageWriter(child));
  client.listen();
  const capabilities = { textDocument: { diagnostic: {} } };
  await client.sendRequest("initialize", { processId: process.pid, rootUri: null, capabilities });
  await client.sendNotification("initialized", {});
  const uri = "untitled:jug.fettle";
  const text = 'craft "Jug"\n\npack\n  cells 99\n';
  await client.sendNotification("textDocument/didOpen", {
    textDocument: { uri, languageId: "fettle", version: 1, text },
  });
  const told = await client.sendRequest("textDocument/diagnostic", { textDocument: { uri } });
  expect(told).toMatchObject({ items: [{ code: "out-of-range", range: { start: { line: 3, character: 8 } } }] });
  await then();
  const gone = new Promise((resolve) => child.once("exit", resolve));
  await client.sendRequest("shutdown");
  await client.sendNotification("exit");
  expect(await gone).toBe(0);
  client.dispose();
}
