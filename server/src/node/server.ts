/** The language server on a machine with a disk: over standard input and output, or a parent's channel. */
import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { startServer } from "../lsp/start.ts";
import { diskFiles } from "./disk-files.ts";

// Whoever starts it says how to speak to it (`--stdio`, `--node-ipc`); whoever says nothing means stdio.
const said = process.argv.some((argument) => /^--(stdio|node-ipc|socket|pipe)/.test(argument));
if (!said) process.argv.push("--stdio");

startServer(createConnection(ProposedFeatures.all), diskFiles);
