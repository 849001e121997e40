/** A thousand craft with shared layers: their findings on the command line and in the server, and what typing notices of it. */
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from "vscode-languageserver/node";
import { memoryOf, ms, percentile } from "./figures.ts";
import { craftOf, fleetOf } from "./scripts.ts";

const CRAFT = 1000;
const KEYS = 150;
/** As somebody types who is quick at it. */
const BETWEEN_KEYS_MS = 90;

type Items = { uri: string; kind: string; items?: { code: string }[] }[];

function writeFleet(): string {
  const folder = mkdtempSync(join(tmpdir(), "fettle-fleet-"));
  const files: Record<string, string> = { ...fleetOf(CRAFT), "typed.fettle": craftOf(500) };
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}

function runOnce(command: string, folder: string): string {
  const begun = performance.now();
  try {
    execFileSync(process.execPath, [join(process.cwd(), "dist/fettle.js"), command, folder], {
      stdio: "pipe",
      maxBuffer: 2 ** 28,
    });
  } catch (error) {
    // Findings are no failure.
    if ((error as { status?: number }).status !== 1) throw error;
  }
  return `fettle ${command} of ${CRAFT} craft: ${ms(performance.now() - begun)} ms`;
}

async function serve(folder: string, workspaceFindings: "all" | "open"): Promise<string[]> {
  const server = join(process.cwd(), "dist/server/node.cjs");
  const child = spawn(process.execPath, [server, "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  const client = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  const reports = new Map<string, number>();
  let last = 0;
  client.onNotification("$/progress", ({ value }: { value: { items?: Items } }) => {
    for (const { uri, items } of value.items ?? []) reports.set(uri, items?.length ?? 0);
    last = performance.now();
  });
  client.listen();
  const root = pathToFileURL(folder).href;
  await client.sendRequest("initialize", {
    processId: process.pid,
    rootUri: root,
    capabilities: { textDocument: { diagnostic: {} } },
    workspaceFolders: [{ uri: root, name: "fleet" }],
  });
  await client.sendNotification("initialized", {});
  const open = (path: string, text: string) =>
    client.sendNotification("textDocument/didOpen", {
      textDocument: { uri: `${root}/${path}`, languageId: "fettle", version: 1, text },
    });
  const until = async (isSo: () => boolean) => {
    while (!isSo()) await new Promise((resolve) => setTimeout(resolve, 2));
  };
  const text = craftOf(500);
  const uri = `${root}/typed.fettle`;
  await open("typed.fettle", text);
  const pull = () => client.sendRequest("textDocument/diagnostic", { textDocument: { uri } });
  await pull();
  const line = text.split("\n").findIndex((each, i) => i > 250 && each.startsWith("  capacity"));
  const column = text.split("\n")[line]!.indexOf(" mAh");
  let version = 1;
  const typing = async (): Promise<number[]> => {
    const spent: number[] = [];
    for (let i = 0; i < KEYS; i++) {
      const start = { line, character: column };
      const range = { start, end: i % 2 === 0 ? start : { line, character: column + 1 } };
      const begun = performance.now();
      void client.sendNotification("textDocument/didChange", {
        textDocument: { uri, version: ++version },
        contentChanges: [{ range, text: i % 2 === 0 ? "1" : "" }],
      });
      await pull();
      spent.push(performance.now() - begun);
      await new Promise((resolve) => setTimeout(resolve, BETWEEN_KEYS_MS));
    }
    return spent.sort((a, b) => a - b);
  };
  const typed = (spent: number[]) => `p50 ${ms(percentile(spent, 0.5))} ms, p95 ${ms(percentile(spent, 0.95))} ms`;
  const rows: string[] = [];
  try {
    if (workspaceFindings === "open") {
      await typing();
      rows.push(
        `typing at 500 lines, findings of open scripts alone: ${typed(await typing())}; ${memoryOf(child.pid!)}`,
      );
      return rows;
    }
    await typing();
    let begun = performance.now();
    const pulled = client.sendRequest("workspace/diagnostic", { previousResultIds: [], partialResultToken: "all" });
    const during = await typing();
    const done = reports.size;
    await until(() => reports.size >= CRAFT);
    rows.push(`typing at 500 lines, while the others are worked out: ${typed(during)}; by its end ${done} are told`);
    rows.push(`all told after ${ms(last - begun)} ms with that typing; ${memoryOf(child.pid!)}`);
    rows.push(`typing once all are told: ${typed(await typing())}`);
    const layer = "layers/habits.fettle";
    const habits = fleetOf(CRAFT)[layer]!;
    await open(layer, habits);
    reports.clear();
    begun = performance.now();
    await client.sendNotification("textDocument/didChange", {
      textDocument: { uri: `${root}/${layer}`, version: 2 },
      contentChanges: [{ text: habits.replace("arm       when TL is down", "arm       when TL is up") }],
    });
    await until(() => reports.size > 0);
    const firstMs = last - begun;
    await until(() => reports.size >= CRAFT);
    const armed = [...reports.values()].filter((count) => count > 0).length;
    rows.push(
      `a change of the layer that all use: first told ${ms(firstMs)} ms, all ${ms(last - begun)} ms after it; ${armed} have findings then`,
    );
    await new Promise((resolve) => setTimeout(resolve, 3000));
    rows.push(`memory a little later: ${memoryOf(child.pid!)}`);
    void pulled.catch(() => undefined);
    return rows;
  } finally {
    const gone = new Promise((resolve) => child.once("exit", resolve));
    await client.sendRequest("shutdown");
    await client.sendNotification("exit");
    await gone;
    client.dispose();
  }
}

export async function run(): Promise<string> {
  const folder = writeFleet();
  try {
    return [
      runOnce("check", folder),
      runOnce("fleet", folder),
      ...(await serve(folder, "open")),
      ...(await serve(folder, "all")),
    ].join("\n");
  } finally {
    rmSync(folder, { recursive: true });
  }
}
