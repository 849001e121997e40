/** The command line: the process around `run`. */
import { run } from "./run.ts";

async function input(): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk);
  return Buffer.concat(chunks);
}

// A reader that has seen enough, as `head` has, is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  process.exit(error.code === "EPIPE" ? 0 : 2);
});

process.exitCode = await run(process.argv.slice(2), {
  folder: process.cwd(),
  colour: process.stdout.isTTY === true && !process.env.NO_COLOR,
  out: (text) => void process.stdout.write(text),
  error: (text) => void process.stderr.write(text),
  input,
});
