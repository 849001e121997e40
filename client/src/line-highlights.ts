/** Highlights the lines of the script that lead to the state that the panel shows, and says so behind each. */
import {
  type DecorationOptions,
  type Disposable,
  MarkdownString,
  OverviewRulerLane,
  Range,
  ThemeColor,
  window,
} from "vscode";
import type { StateMark } from "../../shared/draw/state-marks.ts";
import { plainText } from "../../shared/text/plain-text.ts";
import { visibleLine } from "../../shared/text/visible-text.ts";

export interface LineHighlights {
  /** Highlights these lines in every visible editor, and clears the previous ones. */
  show(marks: readonly StateMark[]): void;
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
    // Whose mark it is must be known without asking: it comes from the panel, and not from the script.
    after: { color: new ThemeColor("descriptionForeground"), fontStyle: "italic", margin: "0 0 0 3ch" },
  });
  let shown: readonly StateMark[] = [];
  const render = () => {
    for (const editor of window.visibleTextEditors) {
      const file = editor.document.uri.toString();
      const marks = shown.filter(({ at }) => at.file === file);
      editor.setDecorations(decoration, marks.map(decorationOf));
    }
  };
  const show = (marks: readonly StateMark[]) => {
    if (marks.length === 0 && shown.length === 0) return;
    shown = marks;
    render();
  };
  return { show, disposables: [decoration, window.onDidChangeVisibleTextEditors(render)] };
}

function decorationOf({ at: { line }, words }: StateMark): DecorationOptions {
  const shown = visibleLine(words);
  return {
    // To the line's end, as what stands after it is put behind the range.
    range: new Range(line, 0, line, Number.MAX_SAFE_INTEGER),
    hoverMessage: new MarkdownString(plainText(`${shown}.`)),
    renderOptions: { after: { contentText: shown } },
  };
}
