/** `fettle serve`: the language server, for any editor. */
import { readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus } from "./io.ts";

const help = `Usage: fettle serve --stdio

The language server, over standard input and output, for any editor that speaks the
language server protocol. It ends when the editor ends it or closes the stream.
`;

async function run(args: readonly string[]): Promise<ExitStatus> {
  const given = readArguments(args, { stdio: { type: "boolean" } });
  if (!given.has("stdio")) throw new CannotRun("say --stdio: the server speaks over standard input and output");
  if (given.paths.length > 0) throw new CannotRun(`serve takes no path: the editor names the folders`);
  const { serve } = await import("../node/server.ts");
  // Of a program in parts nothing is kept.
  serve(async () => {});
  return 0;
}

export const command: Command = { help, run };
