/** The panel's host: follows the script in the editor, asks the server, and passes on. */
import { commands, type Disposable, type TextDocument, type TextEditor, Uri, window, workspace } from "vscode";
import { freePlace } from "../../shared/draw/moving.ts";
import { type StateMark, stateMarks } from "../../shared/draw/state-marks.ts";
import { type Uri as Address, asUri } from "../../shared/protocol/addresses.ts";
import type { BenchShown } from "../../shared/protocol/bench.ts";
import { OSD_PAGES } from "../../shared/protocol/osd.ts";
import type { OsdGesture } from "../../shared/protocol/osd-edit.ts";
import {
  type LinePlace,
  type OsdPage,
  PANEL_REQUEST,
  type PanelModel,
  type PanelParams,
  type ShowAgainst,
  type ShowPositions,
  type ViewName,
} from "../../shared/protocol/panel.ts";
import type { FromPanel, ListedCraft } from "../../shared/protocol/panel-messages.ts";
import { addressOf, isAt } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { benchHost } from "./bench-host.ts";
import { coalesce } from "./coalesce.ts";
import { fleetFeed } from "./fleet-feed.ts";
import { lineHighlights } from "./line-highlights.ts";
import { askBeginning, askElement, askGrid } from "./osd-commands.ts";
import { type Done, osdGestures } from "./osd-gestures.ts";
import { runAction } from "./panel-actions.ts";
import { COMPUTED, type PanelWebview, panelPlace, panelWebviews, viewId } from "./panel-webviews.ts";
import { pastIn, pastOf } from "./past-documents.ts";
import type { Revisions } from "./revisions.ts";
import { activeScript, editorOf, isCraft, scriptOf, selectLine } from "./script-editors.ts";
import { tellInformation } from "./shown-window.ts";
import { askedOf, atMoment, type ViewState, withPositions, withSignal } from "./view-state.ts";

export interface PanelHost {
  readonly disposables: readonly Disposable[];
  /** Asks the server again: something that the drawings depend on has changed. */
  refresh(): void;
  /** Shows the switches, with the controls of a craft in the positions of a finding. */
  showPositions(shown: ShowPositions, keyboard?: "left where it is"): Promise<void>;
  /** Shows a view of the panel, of this script or else of the one that it follows. */
  show(view: ViewName, uri?: Address): Promise<void>;
  /** Shows a craft with another side of a comparison laid over it, in the view that is in front. */
  showAgainst(shown: ShowAgainst): Promise<void>;
  /** Shows every craft by itself again. */
  endAgainst(): void;
  /** Asks for a grid, and previews the layout on it. */
  fitOsd(): Promise<void>;
  /** Asks for an element, and adds it where there is room. */
  addElement(): Promise<void>;
  /** Asks from what a page of the OSD is to begin, and begins it; without a page, the first that shows nothing. */
  beginOsd(page?: OsdPage): Promise<void>;
  /** Shows the panel as a tab next to the script. */
  openBeside(): void;
  /** Shows the panel where the settings want it. */
  focus(): Promise<void>;
  /** Whether the panel is open without a script, and lists the craft of the workspace. */
  lists(): boolean;
  /** How much of the bench list of a script is shown; undefined where nobody chose. */
  benchShown(uri: Address): BenchShown | undefined;
  /** The craft that a layer or a handset is drawn as part of; undefined where none was chosen or looked at. */
  drawnCraft(): Address | undefined;
}

const IT_WAS = "This is drawn as it was, and nothing is changed in it: open the file itself to change it.";
const BEGIN = "Begin an OSD…";
const NO_SCRIPT = "Open a script first, a file that ends in .fettle: its OSD is meant.";

/** Registers the view and follows the active editor; typing is reported through `refresh`. `log` takes failures that need no message. */
export function panelHost(
  extension: Uri,
  ask: Ask,
  log: (message: string) => void,
  listed: () => Promise<readonly ListedCraft[]>,
  titleOf: Revisions["titleOf"],
): PanelHost {
  let script = activeScript();
  /** The craft that a layer or a handset is drawn as part of: the one last chosen or looked at. */
  let craft: Address | undefined;
  let craftName = "this craft";
  /** By the craft that is drawn. */
  const viewStates = new Map<string, ViewState>();
  const drawn = (document: TextDocument) => (isCraft(document) ? undefined : craft) ?? addressOf(document.uri);
  const viewStateOf = (document: TextDocument) => viewStates.get(drawn(document)) ?? {};
  const setViewState = (document: TextDocument, some: ViewState) =>
    viewStates.set(drawn(document), { ...viewStateOf(document), ...some });
  const paramsFor = (document: TextDocument): PanelParams => ({
    ...askedOf(viewStateOf(document)),
    uri: addressOf(document.uri),
    // A craft of the past is itself, and no layer of the one that was drawn before.
    craft: pastIn(document) && isCraft(document) ? undefined : craft,
    ...webviews.views(),
    bench: bench.shown(addressOf(document.uri)),
  });
  const withPast = async (document: TextDocument): Promise<PanelParams> => {
    const past = pastIn(document);
    return past ? { ...paramsFor(document), past: { ...past, title: await titleOf(past) } } : paramsFor(document);
  };
  /** What is drawn of the past stays as it was; true where that was said. */
  const refusesPast = (document: TextDocument | undefined): boolean => {
    if (!pastIn(document)) return false;
    void tellInformation(IT_WAS);
    return true;
  };

  const highlights = lineHighlights();
  /** The marks of the script that is drawn; they are shown while its switches are. */
  let marks: readonly StateMark[] = [];
  const mark = (next: readonly StateMark[]) => {
    marks = next;
    highlights.show(webviews.shows("switches") ? marks : []);
  };
  const gestures = osdGestures(ask);
  const bench = benchHost({ ask, gestures, log, post: (...said) => webviews.post(...said), refresh: () => refresh() });
  /** The view that a page is to show, until it says that it shows one: one that is still being opened is told again. */
  let pendingView: { readonly webview: PanelWebview; readonly view: ViewName } | undefined;

  const fleet = fleetFeed({
    ask,
    isWanted: () => webviews.shows("fleet"),
    take: (packed) => webviews.post({ kind: "fleet", fleet: packed }),
    failed(error) {
      log(`The fleet could not be shown: ${error}`);
      webviews.post({ kind: "failed" });
    },
  });
  const refreshModel = coalesce(async () => {
    if (!webviews.isVisible() || !script) {
      mark([]);
      if (webviews.isVisible()) webviews.post({ kind: "craft-list", craft: await listed() });
      return;
    }
    const params = await withPast(script);
    try {
      const model = await ask<PanelModel | null>(PANEL_REQUEST, params);
      if (!isAt(script, params.uri)) return;
      if (!model) return mark([]);
      // The script has changed since: once the server has received that change, it is asked again.
      if (!script.isClosed && model.version < script.version) return;
      craftName = model.craft;
      bench.came(model);
      mark(model.switches ? stateMarks(model.switches) : []);
      webviews.post({ kind: "model", model });
    } catch (error) {
      log(`The panel could not be drawn for ${params.uri}: ${error}`);
      webviews.post({ kind: "failed" });
    }
  });
  const refresh = () => {
    refreshModel();
    fleet.changed();
  };
  const showView = async (name: ViewName, keyboard?: "left where it is") => {
    const webview = webviews.front();
    // A page that is visible may still be loading, and hears nothing then.
    pendingView = { webview, view: name };
    if (webview.isVisible()) webview.post({ kind: "show", view: name });
    await (keyboard ? webview.reveal() : webview.focus());
    refresh();
  };

  const follow = (editor: TextEditor | undefined) => {
    // With the panel's own tab active no script is active: then a hidden script is replaced by a visible one.
    const next = scriptOf(editor) ?? pastOf(editor) ?? (script && editorOf(script) ? undefined : activeScript());
    if (!next || gestures.isStepping()) return;
    if (script && isCraft(script) && !pastIn(script)) craft = addressOf(script.uri);
    // Those of the script before are not to stand while this one is asked about.
    if (script !== next) mark([]);
    script = next;
    refresh();
    postCursor(editorOf(next));
    revealIfConfigured(webviews.openBeside);
  };
  /** The position of the cursor that was last sent to every open page. */
  let cursor: LinePlace | undefined;
  const postCursor = (editor: TextEditor | undefined) => {
    const document = scriptOf(editor) ?? pastOf(editor);
    if (!editor || !document) return;
    const at = { file: addressOf(document.uri), line: editor.selection.active.line };
    // Most keys move the cursor within its line.
    if (cursor?.file === at.file && cursor.line === at.line) return;
    cursor = at;
    webviews.post({ kind: "cursor", at });
  };

  const edit = async (document: TextDocument, done: Done, from: PanelWebview) => {
    const { page, gesture } = done;
    const { uri } = paramsFor(document);
    try {
      const isDone = await gestures.perform({ uri, craft, craftName, keyboard: from.keyboard, ...done });
      if (isDone && gesture.kind === "fit") setViewState(document, { fit: undefined });
      if (isDone && gesture.kind === "begin" && page !== "motors") setViewState(document, { page });
    } catch (error) {
      log(`“${gesture.kind}” could not be made an edit of ${uri}: ${error}`);
    }
    // Also if nothing was written: a dropped element then returns to its place in the script.
    refresh();
  };
  /** The script that was drawn, even if another is active by now. */
  const drawnAt = (file: string) => [script, ...workspace.textDocuments].find((each) => isAt(each, file));
  const receive = (message: FromPanel, from: PanelWebview) => {
    switch (message.kind) {
      case "select":
        return void selectLine(message.at);
      case "dropped":
        if (refusesPast(script)) return;
        return void commands.executeCommand("fettle.review", { dropped: message.what, mine: script && drawn(script) });
      case "keyboard":
        return from.keyboard.answered(message.has);
      case "run":
        void Promise.resolve(runAction(message.action, { ask, write: gestures.write })).catch((error) =>
          log(`“${message.action.name}” could not be done: ${error}`),
        );
        return;
      case "osd":
      case "motor": {
        const drawnFor = drawnAt(message.file);
        if (!drawnFor || refusesPast(drawnFor)) break;
        return void edit(drawnFor, message.kind === "motor" ? { ...message, page: "motors" } : message, from);
      }
      case "bench":
      case "bench-try":
      case "bench-looks": {
        const about = message.kind === "bench-looks" ? undefined : drawnAt(message.file);
        const isWritable = about && !(message.kind === "bench" && refusesPast(about));
        return bench.receive(message, from, isWritable ? { uri: addressOf(about.uri), craft } : undefined);
      }
      case "undo":
      case "redo":
        if (refusesPast(script)) return;
        return void gestures.step(message.kind, script, from.keyboard).then(refresh);
      case "positions":
        if (script) setViewState(script, withPositions(viewStateOf(script), message.positions));
        break;
      case "look":
        if (script) setViewState(script, { ...atMoment(viewStateOf(script), message.scenario), page: message.page });
        break;
      case "signal":
        if (script) setViewState(script, withSignal(viewStateOf(script), message.is));
        break;
      case "signal-step":
        if (script) setViewState(script, { signal: message.at });
        break;
      case "remembered":
        // Newer state, from another page or from this one before it was hidden, takes precedence.
        if (script)
          setViewState(script, {
            positions: message.positions,
            scenario: message.scenario ?? undefined,
            signal: message.signal ?? undefined,
            ...viewStateOf(script),
          });
        break;
      case "preview":
        if (script) setViewState(script, { fit: message.grid ?? undefined });
        break;
      case "end-against":
        if (script) setViewState(script, { against: undefined });
        break;
      case "craft":
        craft = asUri(message.file);
        break;
      case "view":
        from.setView(message.view);
        if (pendingView?.webview === from) pendingView = undefined;
        mark(marks);
        // Every model contains what the other views draw.
        if (message.view === "fleet") fleet.changed();
        if (!COMPUTED.includes(message.view)) return;
        break;
      case "ready":
        fleet.forget();
        if (pendingView?.webview !== from) break;
        from.post({ kind: "show", view: pendingView.view });
        pendingView = undefined;
    }
    refresh();
    if (message.kind !== "ready") return;
    cursor = undefined;
    postCursor(window.activeTextEditor ?? (script && editorOf(script)));
  };

  const show = async (view: ViewName, uri?: Address) => {
    if (uri !== undefined) script = await workspace.openTextDocument(Uri.parse(uri));
    await showView(view);
  };
  const showAgainst = async ({ mine, other }: ShowAgainst) => {
    script = await workspace.openTextDocument(Uri.parse(mine));
    setViewState(script, { against: other });
    await showView((["switches", "numbers"] as const).find(webviews.shows) ?? "goggles");
  };
  const endAgainst = () => {
    for (const [of, state] of viewStates) viewStates.set(of, { ...state, against: undefined });
    refresh();
  };
  const showPositions = async ({ uri, positions }: ShowPositions, keyboard?: "left where it is") => {
    script = await workspace.openTextDocument(Uri.parse(uri));
    setViewState(script, withPositions(viewStateOf(script), positions));
    await showView("switches", keyboard);
  };
  /** The script whose OSD a command is about, with its picture; else shows why there is none. */
  const withPicture = async () => {
    if (refusesPast(script)) return undefined;
    const document = script ?? activeScript();
    const model = document && (await ask<PanelModel | null>(PANEL_REQUEST, { ...paramsFor(document), fit: undefined }));
    if (document && model?.goggles) return { document, picture: model.goggles };
    const why = model?.empty ?? model?.noGoggles ?? NO_SCRIPT;
    const ways = model?.begin ? [BEGIN] : [];
    void tellInformation(why, ...ways).then((chosen) => (chosen ? beginOsd() : undefined));
    return undefined;
  };
  const fitOsd = async () => {
    const found = await withPicture();
    const grid = found && (await askGrid(found.picture));
    if (!grid) return;
    setViewState(found.document, { fit: grid });
    await showView("goggles");
  };
  const addElement = async () => {
    const found = await withPicture();
    const element = found && (await askElement(found.picture));
    if (!element) return;
    const { document, picture } = found;
    setViewState(document, { fit: undefined });
    const added: OsdGesture = { kind: "add", element: element.name, ...freePlace(picture, element) };
    await edit(document, { page: picture.page, gesture: added }, webviews.front());
    await showView("goggles");
  };

  const beginOsd = async (wanted?: OsdPage) => {
    if (refusesPast(script)) return;
    const document = script ?? activeScript();
    const modelFor = async (page: OsdPage) =>
      document && (await ask<PanelModel | null>(PANEL_REQUEST, { ...paramsFor(document), fit: undefined, page }));
    const models = await Promise.all((wanted ? [wanted] : OSD_PAGES).map(modelFor));
    const begin = models.find((model) => model?.begin)?.begin;
    if (!document || !begin) {
      const [model] = models;
      const why = model?.goggles
        ? "Every page of the OSD shows something already."
        : (model?.empty ?? model?.noGoggles);
      void tellInformation(why ?? NO_SCRIPT);
      return;
    }
    const from = await askBeginning(begin);
    if (!from) return;
    await edit(document, { page: begin.page, gesture: { kind: "begin", from } }, webviews.front());
    await showView("goggles");
  };

  const webviews = panelWebviews(extension, receive, refresh);
  const selected = window.onDidChangeTextEditorSelection(({ textEditor }) => postCursor(textEditor));
  revealIfConfigured(webviews.openBeside);
  const followed = window.onDidChangeActiveTextEditor(follow);
  // If the editor is restored with the panel's tab active, scripts become visible and none becomes active.
  const seen = window.onDidChangeVisibleTextEditors(() => {
    if (!script) follow(undefined);
  });
  const disposables = [...webviews.disposables, selected, followed, seen, ...highlights.disposables, fleet];
  const focus = async () => void (await webviews.chosen().focus());
  const shows = {
    showPositions,
    show,
    showAgainst,
    endAgainst,
    openBeside: webviews.openBeside,
    focus,
    drawnCraft: () => craft,
    benchShown: bench.shown,
  };
  const lists = () => webviews.isVisible() && !script;
  return { refresh, lists, ...shows, fitOsd, addElement, beginOsd, disposables };
}

let revealed = false;

/** Once per session: a pilot who closes the panel does not have it reopened by the next script. */
function revealIfConfigured(openBeside: () => void): void {
  if (revealed || !activeScript() || !workspace.getConfiguration("fettle").get("panel.reveal", false)) return;
  revealed = true;
  if (panelPlace() === "beside") {
    openBeside();
    return;
  }
  const editor = window.activeTextEditor;
  commands.executeCommand(`${viewId}.focus`, { preserveFocus: true }).then(() => {
    if (editor) window.showTextDocument(editor.document, editor.viewColumn, false);
  });
}
