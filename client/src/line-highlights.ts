/** Highlights the lines of the script that lead to the state that the panel shows. */
import { type Disposable, OverviewRulerLane, Range, ThemeColor, window } from "vscode";
import type { LinePlace } from "../../shared/protocol/panel.ts";

export interface LineHighlights {
  /** Highlights these lines in every visible editor, and clears the previous ones. */
  show(lines: readonly LinePlace[]): void;
  readonly disposables: readonly Disposable[];
}

/** No highlights yet. */
export function lineHighlights(): LineHighlights {
  const decoration = window.createTextEditorDecorationType({
    isWholeLine: true,
    backgroundColor: new ThemeColor("editor.wordHighlightStrongBackground"),
    borderColor: new ThemeColor("editorInfo.foreground"),
    borderStyle: "solid",
    borderWidth: "0 0 0 3px",
    overviewRulerColor: new ThemeColor("editorInfo.foreground"),
    overviewRulerLane: OverviewRulerLane.Left,
  });
  let shown: readonly LinePlace[] = [];
  const render = () => {
    for (const editor of window.visibleTextEditors) {
      const file = editor.document.uri.toString();
      const lines = shown.filter((each) => each.file === file).map(({ line }) => new Range(line, 0, line, 0));
      editor.setDecorations(decoration, lines);
    }
  };
  const show = (lines: readonly LinePlace[]) => {
    shown = lines;
    render();
  };
  return { show, disposables: [decoration, window.onDidChangeVisibleTextEditors(render)] };
}
