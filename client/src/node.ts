/** The extension on a desktop or a remote machine: the language server is a separate process. */
import { type ExtensionContext, Uri } from "vscode";
import { type BaseLanguageClient, LanguageClient, TransportKind } from "vscode-languageclient/node";
import { activateWith } from "./extension.ts";

let client: BaseLanguageClient | undefined;

/** The editor calls it once, when a workspace has a script or the panel's tab comes back. */
export async function activate(context: ExtensionContext): Promise<void> {
  client = await activateWith(context, ({ extensionUri }, options) => {
    const module = Uri.joinPath(extensionUri, "dist/server/node.cjs").fsPath;
    const run = { module, transport: TransportKind.ipc };
    // Used where the extension itself runs under a debugger, which can then attach to the server too.
    const debug = { ...run, options: { execArgv: ["--inspect=6009"] } };
    return new LanguageClient("fettle", "Fettle", { run, debug }, options);
  });
}

/** The editor calls it at its end. */
export async function deactivate(): Promise<void> {
  await client?.stop();
}
