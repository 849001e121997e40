/** The language server on a machine with a disk: over standard input and output, or a parent's channel. */
import { createConnection, ProposedFeatures, ResponseError } from "vscode-languageserver/node";
import { startServer } from "../lsp/start.ts";
import { diskFiles } from "./disk-files.ts";
import { withGit } from "./git-files.ts";
import { connectionOver } from "./streams.ts";

// The caller chooses the transport (`--stdio`, `--node-ipc`); the default is stdio.
const isElsewhere = process.argv.some((argument) => /^--(node-ipc|socket|pipe)/.test(argument));
const connection = isElsewhere ? createConnection(ProposedFeatures.all) : connectionOver(process.stdin, process.stdout);

const lifetime = startServer(connection, withGit(diskFiles), ResponseError);
if (!isElsewhere) {
  // An editor that is gone says nothing more.
  for (const end of ["end", "close"]) process.stdin.on(end, () => process.exit(lifetime.isOver() ? 0 : 1));
}
