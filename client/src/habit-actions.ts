/** On the line of a mode: a way to change it on every craft. */
import { CodeAction, CodeActionKind, type Disposable, languages, type TextDocument } from "vscode";
import type { HabitOfLine } from "./change-habit.ts";

export function habitActions(): Disposable {
  const kind = CodeActionKind.RefactorRewrite;
  return languages.registerCodeActionsProvider(
    { language: "fettle" },
    {
      provideCodeActions(document, range) {
        const mode = modeAt(document, range.start.line);
        if (mode === null) return [];
        const action = new CodeAction(`Change when ${mode} is on, on every craft…`, kind);
        const argument: HabitOfLine = { mode };
        action.command = { command: "fettle.changeHabit", title: action.title, arguments: [argument] };
        return [action];
      },
    },
    { providedCodeActionKinds: [kind] },
  );
}

/** The mode that a line says, an output as `outputs.NAME`; null where it says none. */
export function modeAt(document: Pick<TextDocument, "lineAt">, line: number): string | null {
  const name = /^[ \t]+([a-z][a-z0-9-]*)[ \t]+when[ \t]/.exec(document.lineAt(line).text)?.[1];
  if (name === undefined) return null;
  for (let above = line - 1; above >= 0; above--) {
    const section = /^[a-z][a-z-]*/.exec(document.lineAt(above).text)?.[0];
    if (section === "modes") return name;
    if (section === "outputs") return `outputs.${name}`;
    if (section !== undefined) return null;
  }
  return null;
}
