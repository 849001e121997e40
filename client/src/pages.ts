/** The reference pages of names and rules, which the server makes and the editor shows as Markdown. */
import { commands, type Disposable, EventEmitter, languages, Uri, window, workspace } from "vscode";
import { PAGE_REQUEST, type PageParams } from "../../shared/protocol/requests.ts";

const scheme = "fettle-page";

/** The base of the addresses with which the server links to pages. */
export const pageBase = `${scheme}:/`;

/** The command that shows the page of a name. */
export const PAGE_COMMAND = "fettle.showPage";

/** Sends a request to the server once it runs, and gives its answer. */
export type Ask = <T>(method: string, params: unknown) => Promise<T>;

/** The name that a page's address is about, as in `rule/mode-clash.md`. */
function nameOfPage(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1).replace(/\.md$/, "");
}

/** Makes the pages readable under their scheme and shows each as it is meant to be read. */
export function providePages(ask: Ask): Disposable[] {
  const changed = new EventEmitter<Uri>();
  const provider = workspace.registerTextDocumentContentProvider(scheme, {
    onDidChange: changed.event,
    provideTextDocumentContent: async (uri) => {
      const name = nameOfPage(uri.path);
      const page = await ask<string | null>(PAGE_REQUEST, { name } satisfies PageParams);
      return page ?? `There is no page on \`${name}\`: no section, setting, mode, element or rule has that name.`;
    },
  });
  const opened = workspace.onDidOpenTextDocument(async (document) => {
    if (document.uri.scheme === scheme && document.languageId !== "markdown")
      await languages.setTextDocumentLanguage(document, "markdown");
  });
  return [changed, provider, opened];
}

/** Shows the page of a name beside the script; without a name, of the one under the cursor. */
export async function showPage(name?: string): Promise<void> {
  const subject = name ?? wordAtCursor() ?? (await askForName());
  if (!subject) return;
  await commands.executeCommand("markdown.showPreviewToSide", Uri.parse(`${pageBase}${subject}.md`));
}

function wordAtCursor(): string | undefined {
  const editor = window.activeTextEditor;
  if (editor?.document.languageId !== "fettle") return undefined;
  const range = editor.document.getWordRangeAtPosition(editor.selection.active);
  const word = range ? editor.document.getText(range) : "";
  return /^[a-z][a-z0-9-]*$/.test(word) ? word : undefined;
}

function askForName(): Thenable<string | undefined> {
  return window.showInputBox({
    prompt: "Which section, setting, mode, element or rule?",
    placeHolder: "arm, pack-volts, warn-at …",
  });
}
