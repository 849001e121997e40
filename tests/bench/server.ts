/** How long the server takes over standard input and output, as an editor has it, and how much memory. */
import { rmSync } from "node:fs";
import { memoryOf, ms, percentile } from "./figures.ts";
import { craftOf, writeWorkspace } from "./scripts.ts";
import { type Served, serveFolder, timed } from "./served.ts";

const EDITS = 200;
const ASKS = 100;
/** A pilot looks before he types; in that silence the server warms up. */
const LOOK_MS = 2000;

const serve = (folder: string): Promise<Served> => serveFolder(folder, { textDocument: { diagnostic: {} } });

/** Looks at the craft, types into its middle, and after every letter asks for the findings; then asks for the rest. */
async function measure(lines: number): Promise<string> {
  const text = craftOf(lines);
  const folder = writeWorkspace(text);
  const served = await serve(folder);
  const { client } = served;
  const uri = served.uriOf("tankard.fettle");
  const textDocument = { uri };
  try {
    await served.open("tankard.fettle", text);
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
