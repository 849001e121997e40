/** The practice craft of the walkthrough: opened without a file, and a step is done once its finding is mended. */
import {
  commands,
  type Disposable,
  languages,
  Selection,
  type TextDocument,
  TextEditorRevealType,
  window,
  workspace,
} from "vscode";
import type { Uri } from "../../shared/protocol/addresses.ts";
import { addressOf } from "./addresses.ts";
import { MENDED_LINE, PRACTICE_SCRIPT, PRACTISED } from "./practice-script.ts";

export type Practised = keyof typeof PRACTISED;

export interface Practice {
  /** Shows the practice craft, as it was left where it is still open, at the line of a step if one is named; gives its address. */
  open(step?: Practised): Promise<Uri>;
  readonly disposables: readonly Disposable[];
}

/** Watches the practice craft's findings: mended, a finding sets the context by which the walkthrough ticks its step. */
export function practice(): Practice {
  let document: TextDocument | undefined;
  const present = new Set<Practised>();
  const watched = languages.onDidChangeDiagnostics(({ uris }) => {
    if (!document || !uris.some((uri) => uri.toString() === document?.uri.toString())) return;
    const codes = new Set(languages.getDiagnostics(document.uri).map(codeOf));
    for (const step of Object.keys(PRACTISED) as Practised[]) {
      if (codes.has(PRACTISED[step])) present.add(step);
      // Gone from a script that has others, or none at all: but it must have been told once.
      else if (present.delete(step)) void commands.executeCommand("setContext", `fettle.mended.${step}`, true);
    }
  });
  const open = async (step?: Practised) => {
    if (!document || document.isClosed) {
      present.clear();
      document = await workspace.openTextDocument({ language: "fettle", content: PRACTICE_SCRIPT });
    }
    const editor = await window.showTextDocument(document, { preview: false });
    const at = step && MENDED_LINE[step].exec(document.getText());
    if (at) {
      const end = document.positionAt(at.index + at[0].length);
      editor.selection = new Selection(end, end);
      editor.revealRange(editor.selection, TextEditorRevealType.InCenterIfOutsideViewport);
    }
    return addressOf(document.uri);
  };
  return { open, disposables: [watched] };
}

function codeOf({ code }: { readonly code?: unknown }): unknown {
  return typeof code === "object" && code !== null && "value" in code ? code.value : code;
}
