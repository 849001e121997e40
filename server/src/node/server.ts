/** The language server on a machine with a disk: over standard input and output, or a parent's channel. */
import { createConnection, ProposedFeatures, ResponseError } from "vscode-languageserver/node";
import { startServer } from "../lsp/start.ts";
import { diskFiles } from "./disk-files.ts";

// The caller chooses the transport (`--stdio`, `--node-ipc`); the default is stdio.
const said = process.argv.some((argument) => /^--(stdio|node-ipc|socket|pipe)/.test(argument));
if (!said) process.argv.push("--stdio");

startServer(createConnection(ProposedFeatures.all), diskFiles, ResponseError);
