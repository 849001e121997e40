/** The extension on a desktop or a remote machine: the language server is a process of its own. */
import { type ExtensionContext, Uri } from "vscode";
import { type BaseLanguageClient, LanguageClient, TransportKind } from "vscode-languageclient/node";
import { activateWith } from "./extension.ts";

let client: BaseLanguageClient | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  client = await activateWith(context, ({ extensionUri }, options) => {
    const module = Uri.joinPath(extensionUri, "dist/server/node.cjs").fsPath;
    const run = { module, transport: TransportKind.ipc };
    return new LanguageClient("fettle", "Fettle", { run, debug: run }, options);
  });
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
