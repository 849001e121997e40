/** How a board's text looks: a sign before each line, our words behind it. Nothing is told by colour alone. */
import { type DecorationOptions, OverviewRulerLane, Range, type TextEditor, ThemeColor, Uri, window } from "vscode";
import type { BoardLine } from "../../shared/protocol/board.ts";
import { visibleLine } from "../../shared/text/visible-text.ts";

export interface BoardLooks {
  /** Shows the lines in an editor; without lines nothing. */
  show(editor: TextEditor, lines: readonly BoardLine[]): void;
  /** Only what stands behind the lines in sight, after they have moved. */
  showWords(editor: TextEditor, lines: readonly BoardLine[]): void;
  /** Marks lines that an offer would read. */
  preview(editor: TextEditor, lines: readonly number[]): void;
  readonly disposables: readonly { dispose(): void }[];
}

/** Beyond this what stands behind a line is cut: the hover has the rest. */
const MOST_CHARACTERS = 110;
/** Lines around those in sight that have their words as well. */
const AROUND = 40;

/** Nothing is shown yet; `extension` is the extension's own folder. */
export function boardLooks(extension: Uri): BoardLooks {
  const icon = (name: string, theme: string) => ({
    gutterIconPath: Uri.joinPath(extension, "client", "icons", `board-${name}-${theme}.svg`),
    gutterIconSize: "contain",
  });
  const sign = (name: string, ruler?: string) =>
    window.createTextEditorDecorationType({
      light: icon(name, "light"),
      dark: icon(name, "dark"),
      ...(ruler && { overviewRulerColor: new ThemeColor(ruler), overviewRulerLane: OverviewRulerLane.Left }),
    });
  const signs = {
    read: sign("read"),
    odd: sign("odd", "editorWarning.foreground"),
    kept: sign("kept", "editorLineNumber.foreground"),
  };
  const words = window.createTextEditorDecorationType({
    after: { color: new ThemeColor("descriptionForeground"), margin: "0 0 0 3ch" },
  });
  const reason = window.createTextEditorDecorationType({
    after: { color: new ThemeColor("descriptionForeground"), fontStyle: "italic", margin: "0 0 0 3ch" },
  });
  const previewed = window.createTextEditorDecorationType({
    isWholeLine: true,
    backgroundColor: new ThemeColor("editor.wordHighlightStrongBackground"),
    borderColor: new ThemeColor("editorInfo.foreground"),
    borderStyle: "solid",
    borderWidth: "0 0 0 3px",
  });
  const rangeOf = (line: number) => new Range(line, 0, line, 0);
  const showWords = (editor: TextEditor, lines: readonly BoardLine[]) => {
    const said: DecorationOptions[] = [];
    const reasons: DecorationOptions[] = [];
    for (const line of inSight(editor, lines)) {
      const text = line.state === "odd" ? `odd: ${line.why ?? ""}` : line.says.join(", ");
      if (text === "" || line.state === "kept" || line.state === "idle") continue;
      const at = { range: endOf(editor, line.line), renderOptions: { after: { contentText: cut(text) } } };
      (line.state === "odd" ? reasons : said).push(at);
    }
    editor.setDecorations(words, said);
    editor.setDecorations(reason, reasons);
  };
  return {
    show(editor, lines) {
      for (const state of ["read", "odd", "kept"] as const)
        editor.setDecorations(
          signs[state],
          lines.filter((line) => line.state === state).map(({ line }) => rangeOf(line)),
        );
      showWords(editor, lines);
    },
    showWords,
    preview: (editor, lines) => editor.setDecorations(previewed, lines.map(rangeOf)),
    disposables: [...Object.values(signs), words, reason, previewed],
  };
}

function inSight(editor: TextEditor, lines: readonly BoardLine[]): readonly BoardLine[] {
  const ranges = editor.visibleRanges;
  return ranges.flatMap(({ start, end }) => lines.slice(Math.max(0, start.line - AROUND), end.line + AROUND));
}

function endOf({ document }: TextEditor, line: number): Range {
  const end = line < document.lineCount ? document.lineAt(line).range.end : undefined;
  return end ? new Range(end, end) : new Range(line, 0, line, 0);
}

/** As text that can be read, on one line; blanks side by side would be shown as one. */
function cut(text: string): string {
  const short = text.length > MOST_CHARACTERS ? `${text.slice(0, MOST_CHARACTERS - 1)}…` : text;
  return visibleLine(short).replace(/ {2,}/g, " ");
}
