/** Marks in the script the lines that put the craft in the state which the panel shows. */
import { type Disposable, OverviewRulerLane, Range, ThemeColor, window } from "vscode";
import type { LinePlace } from "../../shared/protocol/panel.ts";

export interface ScriptMarks {
  /** Marks these lines in every editor in view, and takes back what was marked before. */
  mark(lines: readonly LinePlace[]): void;
  readonly disposables: readonly Disposable[];
}

/** No marks yet. */
export function scriptMarks(): ScriptMarks {
  const decoration = window.createTextEditorDecorationType({
    isWholeLine: true,
    backgroundColor: new ThemeColor("editor.wordHighlightStrongBackground"),
    borderColor: new ThemeColor("editorInfo.foreground"),
    borderStyle: "solid",
    borderWidth: "0 0 0 3px",
    overviewRulerColor: new ThemeColor("editorInfo.foreground"),
    overviewRulerLane: OverviewRulerLane.Left,
  });
  let marked: readonly LinePlace[] = [];
  const show = () => {
    for (const editor of window.visibleTextEditors) {
      const file = editor.document.uri.toString();
      const lines = marked.filter((each) => each.file === file).map(({ line }) => new Range(line, 0, line, 0));
      editor.setDecorations(decoration, lines);
    }
  };
  const mark = (lines: readonly LinePlace[]) => {
    marked = lines;
    show();
  };
  return { mark, disposables: [decoration, window.onDidChangeVisibleTextEditors(show)] };
}
