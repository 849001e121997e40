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

function workingFolder(): string {
  try {
    return process.cwd();
  } catch {
    process.stderr.write("fettle: the working folder is gone: go to one that is there, and run it again\n");
    process.exit(2);
  }
}

/** Work goes on where nobody can be told of it: half of it done would be worse. */
let isUntold = false;
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  // A reader that closes the pipe early, as `head` does, is not an error.
  if (isUntold || error.code === "EPIPE") return;
  isUntold = true;
  process.stderr.write(`fettle: standard output cannot be written: ${oneLine(error.message)}\n`);
  process.exitCode = 2;
});
process.stderr.on("error", () => {
  // There is no place left to tell that.
});

const status = await run(process.argv.slice(2), {
  folder: workingFolder(),
  colour: mayColour(process.stdout.isTTY === true, process.env),
  out: (text) => void process.stdout.write(text),
  error: (text) => void process.stderr.write(text),
  input,
  ...(process.stdout.isTTY && process.stdout.columns > 0 && { columns: process.stdout.columns }),
  ...(process.stderr.isTTY && process.env.TERM !== "dumb" && { progress }),
  program: { node: process.execPath, script: process.argv[1]! },
  ...(process.stdin.isTTY && { converse }),
});
process.exitCode = isUntold ? 2 : status;
