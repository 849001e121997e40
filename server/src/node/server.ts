/** The language server on a machine with a disk: over standard input and output, or a parent's channel. */
import { createConnection, ProposedFeatures, ResponseError } from "vscode-languageserver/node";
import { startServer } from "../lsp/start.ts";
import { type MakeWarmUp, rehearse, warmUpOnce } from "../lsp/warm-up.ts";
import { diskFiles } from "./disk-files.ts";
import { boundGrowth, freeInSilence } from "./free-memory.ts";
import { withGit } from "./git-files.ts";
import { connectionOver } from "./streams.ts";

/** Serves from now on. `keepCode` is called once, in a silence, when the code that is called most has been compiled. */
export function serve(keepCode: () => Promise<void>): void {
  // The caller chooses the transport (`--stdio`, `--node-ipc`); the default is stdio.
  const isElsewhere = process.argv.some((argument) => /^--(node-ipc|socket|pipe)/.test(argument));
  const connection = isElsewhere
    ? createConnection(ProposedFeatures.all)
    : connectionOver(process.stdin, process.stdout);

  const lifetime = startServer(connection, withGit(diskFiles), ResponseError, inSilence(keepCode));
  if (!isElsewhere) {
    // An editor that is gone says nothing more.
    for (const end of ["end", "close"]) process.stdin.on(end, () => process.exit(lifetime.isOver() ? 0 : 1));
  }
}

/** What this process does while it is asked nothing. */
function inSilence(keepCode: () => Promise<void>): MakeWarmUp {
  const makeWarmUp = warmUpOnce(async function* () {
    yield* rehearse();
    await keepCode();
  });
  return (failed) => {
    const warmUp = makeWarmUp(failed);
    const free = freeInSilence();
    const bound = boundGrowth();
    return () => {
      warmUp();
      free();
      bound();
    };
  };
}
