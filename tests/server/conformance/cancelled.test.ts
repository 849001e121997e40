/** A client that cancels is answered at once, whatever it asked of a workspace of a thousand craft, read or not. */
import { spawn } from "node:child_process";
import { pathToFileURL } from "node:url";
import { afterEach, beforeAll, expect, test } from "vitest";
import { buildProgram, temporaryFolder } from "../../cli/program.ts";
import { CLIENTS } from "./clients.ts";
import { fleetTexts, OPENED, questionsOf, writeTexts } from "./questions.ts";
import { begin, openWire, type Wire } from "./wire.ts";

/**
 * On a machine that has nothing else to do 50 ms are promised, and `LATE_MS=50` holds the server to them. The suite
 * runs beside others, where each step takes longer and waits for its turn, so it asks for the order of magnitude.
 */
const PROMISED_MS = Number(process.env.LATE_MS ?? 200);
/** A machine that is busy makes one answer late, and not each of so many; nor does code that ran before. */
const TRIES = 6;
const CANCELLED = -32800;
const METHOD_NOT_FOUND = -32601;

const texts = fleetTexts(1000);
let program: string;
let root: string;
beforeAll(async () => {
  program = await buildProgram();
  const folder = temporaryFolder();
  writeTexts(folder, texts);
  root = pathToFileURL(folder).href;
});

let end = () => {};
afterEach(() => end());

/** A server over standard input and output, with some of the fleet open. */
async function start(opened: readonly string[]): Promise<Wire> {
  const child = spawn(process.execPath, [program, "serve", "--stdio"], { stdio: ["pipe", "pipe", "ignore"] });
  const wire = openWire({ toServer: child.stdin, fromServer: child.stdout }, CLIENTS["all abilities"]);
  end = () => {
    wire.end();
    child.kill();
  };
  await begin(wire, CLIENTS["all abilities"], { folder: root });
  for (const path of opened) {
    const textDocument = { uri: `${root}/${path}`, languageId: "fettle", version: 1, text: texts[path]! };
    wire.notify("textDocument/didOpen", { textDocument });
  }
  return wire;
}

/** How many times longer than alone a process takes on this machine at the moment: a while of work, by the clock and by the processor. */
function slowness(): number {
  const begun = { clock: performance.now(), processor: process.cpuUsage() };
  let usedMs = 0;
  while (usedMs < 15) {
    const { user, system } = process.cpuUsage(begun.processor);
    usedMs = (user + system) / 1000;
  }
  return Math.max(1, (performance.now() - begun.clock) / usedMs);
}

const pause = (delayMs: number) => new Promise((resolve) => setTimeout(resolve, delayMs));

/** How long after it was cancelled a request was answered, in ms as on a machine that does nothing else; zero where it was answered before. */
async function lateness(wire: Wire, method: string, params: object, afterMs: number): Promise<number> {
  let cancelledAt: number | null = null;
  const { error } = await wire.request(method, params, (id) => {
    setTimeout(() => {
      cancelledAt = performance.now();
      wire.notify("$/cancelRequest", { id });
    }, afterMs);
  });
  const answeredAt = performance.now();
  if (error) expect([CANCELLED, METHOD_NOT_FOUND, -32803], `${method}: ${error.message}`).toContain(error.code);
  const tookMs = cancelledAt === null ? 0 : answeredAt - cancelledAt;
  return tookMs <= PROMISED_MS ? tookMs : tookMs / slowness();
}

test("of a workspace that is read, after each key", async () => {
  const wire = await start(OPENED);
  await wire.request("fettle/workspaceTree", { findings: false });
  const questions = questionsOf(root);
  let version = 1;
  const late: string[] = [];
  for (const { method, of, params } of questions) {
    const took: number[] = [];
    do {
      version++;
      for (const path of OPENED)
        wire.notify("textDocument/didChange", {
          textDocument: { uri: `${root}/${path}`, version },
          contentChanges: [
            { range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } }, text: "# x\n" },
          ],
        });
      took.push(await lateness(wire, method, params, 5));
      // What was begun may go on for a while.
      await pause(5);
    } while (took.at(-1)! > PROMISED_MS && took.length < TRIES);
    if (took.at(-1)! > PROMISED_MS) late.push(`${method} of ${of}: ${took.map(Math.round)} ms`);
  }
  expect(questions.length).toBeGreaterThan(100);
  expect(late).toEqual([]);
  expect(wire.faults).toEqual([]);
  expect(wire.errors).toEqual([]);
});

test.each([
  "textDocument/completion",
  "textDocument/references",
  "workspace/symbol",
  "fettle/workspaceTree",
  "workspace/diagnostic",
])("%s of a workspace of which nothing is read yet", async (asked) => {
  const took: number[] = [];
  do {
    end();
    const wire = await start(["layers/habits.fettle"]);
    const { method, params } = questionsOf(root).find((each) => each.method === asked && each.of !== "craft")!;
    took.push(await lateness(wire, method, params, 30));
  } while (took.at(-1)! > PROMISED_MS && took.length < TRIES);
  expect(took.at(-1), `${took}`).toBeLessThanOrEqual(PROMISED_MS);
});
