/**
 * The link under a finding's code. An editor follows it like the address of a document, and never as a command; so it
 * opens this editor of page addresses, which is gone at once and shows the one page instead.
 */
import { type CustomReadonlyEditorProvider, type Disposable, type Uri, type ViewColumn, window } from "vscode";

const END = ".fettle-page";

/** How the server is to write such an address; `{page}` stands for KIND/NAME. */
export const pageLinkForm = `fettle-page:/{page}${END}`;

/** Registers the editor; `show` is given a name, and the column in which its link was followed. */
export function followPageLinks(show: (name: string, from: ViewColumn | undefined) => void): Disposable {
  const provider: CustomReadonlyEditorProvider = {
    openCustomDocument: (uri: Uri) => ({ uri, dispose: () => undefined }),
    resolveCustomEditor({ uri }, panel) {
      const from = panel.viewColumn;
      panel.dispose();
      show(uri.path.slice(1, -END.length), from);
    },
  };
  return window.registerCustomEditorProvider("fettle.pageLink", provider);
}
