/**
 * The suite that runs inside an extension host: in the browser through the host's own
 * `extensionTestsPath`, on a desktop through @vscode/test-electron. It needs a workspace with at
 * least one craft script that uses another script, and the demo's boards; it saves nothing.
 */
import * as vscode from "vscode";
import { expectAll, until } from "./host-expect.ts";

/** Runs every case, says each by name, and throws with the names of those that failed. */
export async function run(): Promise<void> {
  const document = await openCraft();
  await expectAll({
    "a script has the language of its own": () => document.languageId === "fettle",
    "the symbols are the script's sections": () =>
      until(() => ask<vscode.DocumentSymbol[]>("vscode.executeDocumentSymbolProvider", document.uri), some),
    "a setting is explained in a hover": async () => {
      const at = positionOf(document, /^ {2}[a-z]/m, 3);
      return until(() => ask<vscode.Hover[]>("vscode.executeHoverProvider", document.uri, at), some);
    },
    "the path of a use line leads to the file": async () => {
      const at = positionOf(document, /^use "/m, 6);
      return until(() => ask<vscode.Location[]>("vscode.executeDefinitionProvider", document.uri, at), some);
    },
    "sections are offered on an empty line": async () => {
      const list = () => {
        const at = document.positionAt(document.getText().length);
        return ask<vscode.CompletionList>("vscode.executeCompletionItemProvider", document.uri, at);
      };
      await append(document, "\n");
      try {
        return await until(list, (found) => found?.items.some((item) => labelOf(item) === "failsafe"));
      } finally {
        await vscode.commands.executeCommand("undo");
      }
    },
    "a finding appears while typing, and disappears when it is corrected": async () => {
      await append(document, "\n\nkettle\n");
      const found = () => vscode.languages.getDiagnostics(document.uri).some(({ message }) => /kettle/.test(message));
      const came = await until(async () => found(), Boolean);
      await vscode.commands.executeCommand("undo");
      return came && (await until(async () => !found(), Boolean));
    },
    "a board's text says above it how much of it is understood, and in a hover what a line means": async () => {
      const text = await openBoardText();
      const lenses = () => ask<vscode.CodeLens[]>("vscode.executeCodeLensProvider", text.uri);
      const isCounted = ({ command }: vscode.CodeLens) => /lines understood, \d+ odd/.test(command?.title ?? "");
      const counted = await until(lenses, (found) => found?.some(isCounted));
      const at = positionOf(text, /^the bell at /m, 2);
      return counted && until(() => ask<vscode.Hover[]>("vscode.executeHoverProvider", text.uri, at), some);
    },
  });
}

/** A board's saved text whose dialect is in the workspace, in an editor. */
async function openBoardText(): Promise<vscode.TextDocument> {
  const [file] = await vscode.workspace.findFiles("boards/ebb-second.txt");
  const text = await vscode.workspace.openTextDocument(file!);
  await vscode.window.showTextDocument(text);
  return text;
}

async function openCraft(): Promise<vscode.TextDocument> {
  const files = await vscode.workspace.findFiles("**/*.fettle");
  for (const file of files.sort((a, b) => a.path.localeCompare(b.path))) {
    const document = await vscode.workspace.openTextDocument(file);
    const text = document.getText();
    if (!/^craft /m.test(text) || !/^use "/m.test(text)) continue;
    await vscode.window.showTextDocument(document);
    return document;
  }
  throw new Error("There is no craft script with a use line in this workspace.");
}

async function append(document: vscode.TextDocument, text: string): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  edit.insert(document.uri, document.positionAt(document.getText().length), text);
  await vscode.workspace.applyEdit(edit);
}

function ask<T>(command: string, ...args: unknown[]): Thenable<T | undefined> {
  return vscode.commands.executeCommand<T>(command, ...args);
}

/** The place some characters after the beginning of the first match. */
function positionOf(document: vscode.TextDocument, pattern: RegExp, after: number): vscode.Position {
  const at = document.getText().search(pattern);
  if (at < 0) throw new Error(`${document.uri.path} has nothing like ${pattern}.`);
  return document.positionAt(at + after);
}

function labelOf(item: vscode.CompletionItem): string {
  return typeof item.label === "string" ? item.label : item.label.label;
}

const some = (list: readonly unknown[] | undefined) => (list?.length ?? 0) > 0;
