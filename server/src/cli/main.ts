/** The command line: the process around `run`. */
import { createInterface } from "node:readline/promises";
import { type Conversation, mayColour, oneLine } from "./io.ts";
import { run } from "./run.ts";

async function input(): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk);
  return Buffer.concat(chunks);
}

function converse(): Conversation {
  const reader = createInterface({ input: process.stdin, output: process.stderr });
  // A pending question is never answered once input ends, so the end is awaited as well.
  const ended = new Promise<null>((resolve) => reader.once("close", () => resolve(null)));
  let open = true;
  reader.once("close", () => {
    open = false;
  });
  return {
    ask: (prompt) => (open ? Promise.race([reader.question(prompt), ended]) : ended),
    end: () => reader.close(),
  };
}

/** The line in which standard error shows how far long work is: written over itself, and gone at the end. */
function progress(words: string | null): void {
  // Some terminals do not say how wide they are, and give 0.
  const most = (process.stderr.columns || 80) - 1;
  process.stderr.write(`\r\u001b[K${words === null ? "" : oneLine(words).slice(0, most)}`);
}

// A reader that closes the pipe early, as `head` does, is not an error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  process.stderr.write(`fettle: standard output cannot be written: ${oneLine(error.message)}\n`);
  process.exit(2);
});

process.exitCode = await run(process.argv.slice(2), {
  folder: process.cwd(),
  colour: mayColour(process.stdout.isTTY === true, process.env),
  out: (text) => void process.stdout.write(text),
  error: (text) => void process.stderr.write(text),
  input,
  ...(process.stdout.isTTY && process.stdout.columns > 0 && { columns: process.stdout.columns }),
  ...(process.stderr.isTTY && process.env.TERM !== "dumb" && { progress }),
  program: { node: process.execPath, script: process.argv[1]! },
  ...(process.stdin.isTTY && { converse }),
});
