/** The panel's host: follows the script in the editor, asks the server, and passes on. */
import {
  commands,
  type Disposable,
  Selection,
  type TextDocument,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  type WebviewView,
  window,
  workspace,
} from "vscode";
import {
  type ControlsAt,
  type FromPanel,
  type LinePlace,
  PANEL_REQUEST,
  type PanelModel,
  type PanelParams,
  type ShowPositions,
  type ToPanel,
} from "../../shared/protocol/panel.ts";
import { latestOnly } from "./latest-only.ts";
import type { Ask } from "./pages.ts";
import { panelFolder, panelPage } from "./panel-page.ts";
import { scriptMarks } from "./script-marks.ts";

export const viewId = "fettle.panel";

export interface PanelHost {
  readonly disposables: readonly Disposable[];
  /** Asks the server anew: something that the drawings depend on has changed. */
  refresh(): void;
  /** Shows the switches, with the controls of a craft where a finding wants them. */
  showPositions(shown: ShowPositions): Promise<void>;
}

/** Registers the view and follows the editor (what is typed comes to notice through `refresh`); `log` takes what nobody need be bothered with. */
export function panelHost(extension: Uri, ask: Ask, log: (message: string) => void): PanelHost {
  let view: WebviewView | undefined;
  let script = activeScript();
  /** The craft that a layer or a handset is drawn as part of: the one last chosen or looked at. */
  let craft: string | undefined;
  /** Where the controls stand, by the craft that they steer. */
  const positions = new Map<string, ControlsAt>();
  const steered = (document: TextDocument) => (isCraft(document) ? undefined : craft) ?? document.uri.toString();

  const marks = scriptMarks();
  /** Set while the page that is to show the switches is still being opened. */
  let switchesWanted = false;

  const post = (message: ToPanel) => view?.webview.postMessage(message);
  const refresh = latestOnly(async () => {
    if (!view?.visible || !script) return marks.mark([]);
    const uri = script.uri.toString();
    const params: PanelParams = { uri, craft, positions: positions.get(steered(script)) };
    try {
      const model = await ask<PanelModel | null>(PANEL_REQUEST, params);
      if (!model || uri !== script?.uri.toString()) return;
      marks.mark(view?.visible ? linesBehind(model) : []);
      await post({ kind: "model", model });
    } catch (error) {
      log(`The panel could not be drawn for ${uri}: ${error}`);
    }
  });

  const follow = (editor: TextEditor | undefined) => {
    const next = scriptOf(editor);
    if (!next) return;
    if (script && isCraft(script)) craft = script.uri.toString();
    script = next;
    refresh();
    postCursor(editor);
    revealWhereWanted();
  };
  const postCursor = (editor: TextEditor | undefined) => {
    const document = scriptOf(editor);
    if (!editor || !document) return;
    post({ kind: "cursor", at: { file: document.uri.toString(), line: editor.selection.active.line } });
  };
  const take = (message: FromPanel) => {
    if (message.kind === "select") return void selectLine(message.at);
    if (message.kind === "positions" && script) positions.set(steered(script), message.positions);
    if (message.kind === "craft") craft = message.file;
    if (message.kind === "ready" && switchesWanted) {
      switchesWanted = false;
      post({ kind: "show", view: "switches" });
    }
    refresh();
    if (message.kind === "ready") postCursor(window.activeTextEditor);
  };
  const showPositions = async ({ uri, positions: wanted }: ShowPositions) => {
    script = await workspace.openTextDocument(Uri.parse(uri));
    positions.set(steered(script), wanted);
    switchesWanted = !view?.visible;
    if (!switchesWanted) post({ kind: "show", view: "switches" });
    await commands.executeCommand(`${viewId}.focus`);
    refresh();
  };

  const provider = window.registerWebviewViewProvider(viewId, {
    resolveWebviewView: (resolved) => {
      view = resolved;
      resolved.webview.options = { enableScripts: true, localResourceRoots: [panelFolder(extension)] };
      resolved.webview.onDidReceiveMessage(take);
      resolved.onDidChangeVisibility(refresh);
      resolved.onDidDispose(() => {
        view = undefined;
        marks.mark([]);
      });
      resolved.webview.html = panelPage(resolved.webview, extension);
    },
  });
  const selected = window.onDidChangeTextEditorSelection(({ textEditor }) => postCursor(textEditor));
  revealWhereWanted();
  const followed = window.onDidChangeActiveTextEditor(follow);
  return { refresh, showPositions, disposables: [provider, selected, followed, ...marks.disposables] };
}

/** The lines of the modes that are on; none at rest, where nobody has asked what a control does. */
function linesBehind({ switches }: PanelModel): readonly LinePlace[] {
  return !switches || switches.state.atRest ? [] : switches.state.on.flatMap(({ lines }) => lines);
}

function scriptOf(editor: TextEditor | undefined): TextDocument | undefined {
  return editor?.document.languageId === "fettle" ? editor.document : undefined;
}

function isCraft(document: TextDocument): boolean {
  return /^craft[ \t]+"/m.test(document.getText());
}

function activeScript(): TextDocument | undefined {
  return scriptOf(window.activeTextEditor) ?? window.visibleTextEditors.map(scriptOf).find((document) => document);
}

let revealed = false;

/** Once in a session, so that a pilot who closes the panel is not contradicted by the next script. */
function revealWhereWanted(): void {
  if (revealed || !activeScript() || !workspace.getConfiguration("fettle").get("panel.reveal", false)) return;
  revealed = true;
  const editor = window.activeTextEditor;
  commands.executeCommand(`${viewId}.focus`, { preserveFocus: true }).then(() => {
    if (editor) window.showTextDocument(editor.document, editor.viewColumn, false);
  });
}

async function selectLine({ file, line }: LinePlace): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(file));
  const shown = window.visibleTextEditors.find((editor) => editor.document === document);
  const editor = await window.showTextDocument(document, { viewColumn: shown?.viewColumn, preserveFocus: false });
  const { range } = document.lineAt(Math.min(line, document.lineCount - 1));
  editor.selection = new Selection(range.start, range.end);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
}
