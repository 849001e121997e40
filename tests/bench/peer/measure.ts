/** One run of one server: from its start to the memory that it holds after all that was asked of it. */
import { setTimeout as pause } from "node:timers/promises";
import { memoryMBOf, percentile } from "../figures.ts";
import { inFolder, type Served, serveFolder, timed } from "../served.ts";
import { CLIENT, type Side } from "./sides.ts";

const EDITS = 200;
const ASKS = 100;
const WHOLE_TEXTS = 20;
/** A pilot looks before he types. */
const LOOK_MS = 2000;
const SETTLED_MS = 3000;

/** The figures of a run, by name, in milliseconds; of memory in MB (2^20 bytes). */
export const FIGURES = [
  "spawn to ready",
  "first answer",
  "spawn to first answer",
  "edit to findings, p50",
  "edit to findings, p95",
  "hover, p95",
  "completion, p95",
  "symbols, p95",
  "formatting, p95",
  "memory",
] as const;
export type Figure = (typeof FIGURES)[number];

type Diagnostics = { items: { range: { start: { line: number } } }[] };

/** Starts a server on the side's craft, does the work of a pilot, and ends it. Fails where an answer is not what it must be. */
export const runOf = (side: Side, typed: (i: number) => string): Promise<Record<Figure, number>> =>
  inFolder({ [side.path]: side.text }, async (folder) => {
    const served = await serveFolder(folder, CLIENT, side.program);
    try {
      return await measured(served, side, typed);
    } finally {
      await served.end();
    }
  });

async function measured(served: Served, side: Side, typed: (i: number) => string): Promise<Record<Figure, number>> {
  const { client } = served;
  const textDocument = { uri: served.uriOf(side.path) };
  const ask = <T>(method: string, more: object = {}) =>
    client.sendRequest<T>(`textDocument/${method}`, { textDocument, ...more });
  const pull = () => ask<Diagnostics>("diagnostic");
  const { line, name, from, to } = side.at;
  let [version, end] = [1, to];
  const type = async (text: string) => {
    const range = { start: { line, character: from }, end: { line, character: end } };
    end = from + text.length;
    version++;
    await client.sendNotification("textDocument/didChange", {
      textDocument: { ...textDocument, version },
      contentChanges: [{ range, text }],
    });
  };

  if (side.settings) await client.sendNotification("workspace/didChangeConfiguration", { settings: side.settings });
  // An answer, be it a refusal, says that all before it is done: the peer has its schema before it is asked anything.
  await client.sendRequest("bench/ping").catch(() => undefined);
  const begun = performance.now();
  await served.open(side.path, side.text);
  expectFindings(side, await pull(), 0);
  const firstMs = performance.now() - begun;

  await pause(LOOK_MS);
  const findings: Diagnostics[] = [];
  let key = 0;
  const edits = await timed(EDITS, async () => {
    await type(typed(key++));
    findings.push(await pull());
  });
  for (const each of findings) expectFindings(side, each, 0);
  const position = { line, character: name + 1 };
  const hovers = await timed(ASKS, async () => expectSome(side, "hover", await ask("hover", { position })));
  const completions = await timed(ASKS, async () => {
    await type(typed(key++));
    expectSome(side, "completion", await ask("completion", { position }));
  });
  const symbols = await timed(WHOLE_TEXTS, async () => {
    await type(typed(key++));
    expectSome(side, "symbols", await ask("documentSymbol"));
  });
  const options = { tabSize: 2, insertSpaces: true };
  const layouts = await timed(WHOLE_TEXTS, async () => {
    // Blanks before the number, which do not belong there.
    await type(`   ${typed(key++)}`);
    expectSome(side, "formatting", await ask("formatting", { options }));
  });
  for (const fault of side.faults) {
    await type(fault);
    expectFindings(side, await pull(), 1);
  }
  await type(typed(key++));
  expectFindings(side, await pull(), 0);
  await pause(SETTLED_MS);
  return {
    "spawn to ready": served.readyMs,
    "first answer": firstMs,
    "spawn to first answer": served.readyMs + firstMs,
    "edit to findings, p50": percentile(edits, 0.5),
    "edit to findings, p95": percentile(edits, 0.95),
    "hover, p95": percentile(hovers, 0.95),
    "completion, p95": percentile(completions, 0.95),
    "symbols, p95": percentile(symbols, 0.95),
    "formatting, p95": percentile(layouts, 0.95),
    memory: memoryMBOf(served.pid),
  };
}

/** Both sides judge: a sound craft has no finding, and a fault one, on the line where it stands. */
function expectFindings({ name, at }: Side, { items }: Diagnostics, count: number): void {
  const lines = items.map(({ range }) => range.start.line);
  if (lines.length !== count || lines.some((line) => line !== at.line))
    throw new Error(`${name}: findings on the lines ${lines.join(", ")} instead of ${count} on ${at.line}`);
}

function expectSome({ name }: Side, what: string, answer: unknown): void {
  const list = answer as { items?: unknown[]; contents?: unknown } | unknown[] | null;
  const isSome = Array.isArray(list) ? list.length > 0 : list?.items ? list.items.length > 0 : Boolean(list?.contents);
  if (!isSome) throw new Error(`${name}: nothing came of ${what}: ${JSON.stringify(answer)}`);
}
