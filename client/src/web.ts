/** The extension in a browser: the language server is a separate web worker. */
import { type ExtensionContext, Uri } from "vscode";
import { type BaseLanguageClient, LanguageClient } from "vscode-languageclient/browser";
import { activateWith } from "./extension.ts";

let client: BaseLanguageClient | undefined;

/** The editor calls it once, when a workspace has a script or the panel's tab comes back. */
export async function activate(context: ExtensionContext): Promise<void> {
  client = await activateWith(context, ({ extensionUri }, options) => {
    const worker = new Worker(Uri.joinPath(extensionUri, "dist/server/worker.js").toString(true));
    return new LanguageClient("fettle", "Fettle", worker, options);
  });
}

/** The editor calls it at its end. */
export async function deactivate(): Promise<void> {
  await client?.stop();
}
