/** Nothing leaves the machine: not by what is shipped, and not by what it does. */
import { spawn } from "node:child_process";
import { cpSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { isBuiltin } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from "vscode-languageserver/node";
import { bundles } from "../../../.dev/bundles.mjs";
import { inProject } from "../../../.dev/say.mjs";
import { buildProgram, runProgram, temporaryFolder } from "../../cli/program.ts";
import { TABLE, TEXTS } from "../../server/conformance/table.ts";

/** Modules of Node that reach a network. */
const NETWORK = /^(?:node:)?(?:net|tls|https?|http2|dns|dgram)(?:\/|$)/;
/**
 * The protocol's library can speak over a socket or a named pipe, and its client can open one for a server; so it brings
 * `net` along. Neither is opened unless a flag of the server (`--socket`, `--pipe`) asks for it: the programs are run below.
 */
const WITH_NET = ["client/src/node.ts", "server/src/node/server.ts", "server/src/cli/main.ts"];

/** What a page or a worker reaches a network by. A function of our own may be called `fetch`: then it is declared. */
const OF_PAGES =
  /\b(?:XMLHttpRequest|WebSocket|EventSource|sendBeacon|RTCPeerConnection|WebTransport)\b|(?<!")\bimportScripts\b|\b(?:globalThis|self|window)\.fetch\b/;

test.each(bundles.map((bundle) => [String(bundle.entryPoints), bundle] as const))(
  "%s brings nothing that reaches a network",
  async (entry, bundle) => {
    const { metafile, outputFiles } = await build({ ...bundle, metafile: true, write: false, logLevel: "error" });
    const imported = Object.values(metafile.outputs).flatMap(({ imports }) => imports.map(({ path }) => path));
    const reaching = new Set(imported.filter((path) => isBuiltin(path) && NETWORK.test(path)));
    expect([...reaching]).toEqual(WITH_NET.includes(entry) ? ["net"] : []);
    for (const { path, text } of outputFiles.filter((each) => /\.c?js$/.test(each.path)))
      expect(OF_PAGES.exec(text)?.[0], path).toBeUndefined();
  },
);

let program: string;
let folder: string;
let told: string;
beforeAll(async () => {
  program = await buildProgram();
  folder = temporaryFolder();
  cpSync(inProject("examples"), folder, { recursive: true });
});
beforeEach(() => {
  told = join(temporaryFolder(), "told.txt");
  process.env.FETTLE_NETWORK_TOLD = told;
  process.env.NODE_OPTIONS = `--import ${pathToFileURL(inProject("tests/fire/outputs/no-network.mjs"))}`;
});
afterEach(() => {
  delete process.env.NODE_OPTIONS;
  delete process.env.FETTLE_NETWORK_TOLD;
});
const reached = () => (existsSync(told) ? readFileSync(told, "utf8") : "");

test("one that tries is told of", async () => {
  const script = join(temporaryFolder(), "tries.mjs");
  writeFileSync(
    script,
    'import { connect } from "node:net";\ntry { connect(9, "127.0.0.1"); } catch {}\ntry { fetch("http://x.example"); } catch {}\n',
  );
  await runProgram(script, []);
  expect(reached()).toBe("net.Socket.connect\nfetch\n");
});

const JUG = "craft/tankard.fettle";
const LOOM = ["--dialect", "boards/loom.fettle"];
test("no command does", async () => {
  const commandLines = [
    ["check"],
    ["format", "--check"],
    ["show", JUG],
    ["compare", JUG, "craft/amphora.fettle"],
    ["share", JUG],
    ["switches", JUG],
    ["fleet", "--out", "fleet.html"],
    ["ready", JUG],
    ["bench", JUG, "--out", "bench.html"],
    ["draw", JUG, "--view", "osd", "--out", "osd.svg"],
    ["explain", "low battery warning"],
    ["reference", "--out", "reference"],
    ["board", "read", ...LOOM, "boards/loom.txt"],
    ["board", "write", ...LOOM, "boards/read/loom.fettle", "--base", "boards/loom.txt"],
    ["merge", JUG, JUG, JUG],
    ["new", "--questions"],
  ];
  for (const args of commandLines) {
    const { status, error } = await runProgram(program, args, { folder });
    expect(status, `${args.join(" ")}: ${error}`).not.toBe(2);
  }
  expect(reached()).toBe("");
});

test("no request to the server does", async () => {
  const child = spawn(process.execPath, [program, "serve", "--stdio"], { cwd: folder });
  const client = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  client.onRequest("client/registerCapability", () => null);
  client.listen();
  const root = pathToFileURL(folder).href;
  await client.sendRequest("initialize", {
    processId: null,
    rootUri: root,
    capabilities: { textDocument: { diagnostic: {} } },
  });
  await client.sendNotification("initialized", {});
  for (const [path, text] of Object.entries(TEXTS)) {
    const uri = `${root}/${path.replace("/shed/", "")}`;
    await client.sendNotification("textDocument/didOpen", {
      textDocument: { uri, languageId: "fettle", version: 1, text },
    });
  }
  let answers = 0;
  for (const [method, { params }] of Object.entries(TABLE)) {
    const here = JSON.parse(JSON.stringify(params).replaceAll("file:///shed", root));
    // A client that can do little is refused some of them.
    await client.sendRequest(method, here).catch(() => null);
    answers++;
  }
  for (const view of ["goggles", "switches", "numbers"])
    await client.sendRequest("fettle/panel", { uri: `${root}/jug.fettle`, view });
  await client.sendRequest("fettle/fleet", { known: null });
  await client.sendRequest("shutdown");
  await client.sendNotification("exit");
  await new Promise((resolve) => child.once("exit", resolve));
  client.dispose();
  expect(answers).toBeGreaterThan(30);
  expect(reached()).toBe("");
});
