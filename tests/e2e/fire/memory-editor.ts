/**
 * An editor in place of `vscode`, as far as the hosts of the pages need it: documents in memory, columns with editors,
 * webviews that a test shows and hides, questions that it answers. Nothing of it is drawn.
 */
import { URI, Utils } from "vscode-uri";
import { type Change, type Event, type MemoryDocument, memoryDocuments, type Part } from "./memory-documents.ts";

export class EventEmitter<T> {
  #listeners: ((value: T) => void)[] = [];
  readonly event = (listener: (value: T) => void) => {
    this.#listeners.push(listener);
    const dispose = () => {
      this.#listeners = this.#listeners.filter((each) => each !== listener);
    };
    return { dispose };
  };
  fire(value: T) {
    for (const listener of this.#listeners) listener(value);
  }
  dispose() {
    this.#listeners = [];
  }
}

export class Range {
  readonly start: { line: number; character: number };
  readonly end: { line: number; character: number };
  constructor(startLine: number, startCharacter: number, endLine: number, endCharacter: number) {
    this.start = { line: startLine, character: startCharacter };
    this.end = { line: endLine, character: endCharacter };
  }
}
export class Selection {
  constructor(
    readonly start: { readonly line: number },
    readonly active: { readonly line: number },
  ) {}
}
export class TextEdit {
  constructor(
    readonly range: Change["range"],
    readonly text: string,
  ) {}
}
export class WorkspaceEdit {
  readonly edits: (readonly [URI, readonly TextEdit[]])[] = [];
  readonly created: (readonly [URI, string])[] = [];
  set = (uri: URI, edits: readonly TextEdit[]) => void this.edits.push([uri, edits]);
  createFile = (uri: URI, { contents }: { readonly contents: Uint8Array }) =>
    void this.created.push([uri, new TextDecoder().decode(contents)]);
}
export class CancellationTokenSource {
  readonly token = { isCancellationRequested: false };
  cancel = () => {
    this.token.isCancellationRequested = true;
  };
}
export const Uri = { parse: URI.parse, file: URI.file, from: URI.from, joinPath: Utils.joinPath };
export const ViewColumn = { Active: -1, Beside: -2, One: 1 };
export const OverviewRulerLane = { Left: 1 };
export const QuickPickItemKind = { Separator: -1 };
export const TextEditorRevealType = { InCenterIfOutsideViewport: 2 };
export class ThemeColor {}
export class MarkdownString {}
export class TabInputText {}
export class TabInputWebview {}

/** A page as the extension fills it; whoever shows it reads what is posted to it. */
export interface MemoryWebview {
  readonly type: string;
  html: string;
  readonly isVisible: boolean;
  readonly isDisposed: boolean;
  readonly posted: EventEmitter<unknown>;
  /** The page has said something. */
  receive(message: unknown): void;
  setVisible(visible: boolean): void;
}

interface MemoryTextEditor {
  document: MemoryDocument;
  viewColumn: number;
  selection: Selection;
  setDecorations(): void;
  revealRange(): void;
}

/** More than the host takes to ask a page whether it has the keyboard. */
const KEYBOARD_MS = 200;

const nothing = { dispose: () => undefined };
const events = {
  selection: new EventEmitter<unknown>(),
  active: new EventEmitter<MemoryTextEditor | undefined>(),
  visible: new EventEmitter<readonly MemoryTextEditor[]>(),
};

/** What the test sees of the editor, and does in it. */
export const memory = {
  files: new Map<string, string>(),
  documents: memoryDocuments(new Map(), () => {}),
  webviews: [] as MemoryWebview[],
  handlers: new Map<string, (...given: never[]) => unknown>(),
  /** Commands that nobody has registered, and what was told in messages. */
  ran: [] as string[],
  told: [] as string[],
  /** Each step that was made by an edit of the extension, in order. */
  made: [] as (readonly Part[])[],
  /** What each undo or redo changed. */
  stepped: [] as { readonly way: "undo" | "redo"; readonly parts: readonly Part[] }[],
  /** Which of so many answers a question is given; null dismisses it. */
  answer: (_count: number): number | null => null,
  /** Until when a page is given the keyboard back: the host asks it after a while, and waits for that before anything else. */
  keyboardUntilMs: 0,
  editors: [] as MemoryTextEditor[],
  activeEditor: undefined as MemoryTextEditor | undefined,
  /** An editor without anything, over these files. */
  reset(files: ReadonlyMap<string, string>, told: (event: Event) => void) {
    memory.files = new Map(files);
    memory.documents = memoryDocuments(memory.files, told);
    memory.webviews = [];
    memory.handlers.clear();
    memory.editors = [];
    memory.activeEditor = undefined;
    for (const list of [memory.ran, memory.told, memory.made, memory.stepped]) list.length = 0;
    for (const event of Object.values(events)) event.dispose();
  },
  /** The cursor goes to a line by the hand of the pilot. */
  moveCursor(editor: MemoryTextEditor, line: number) {
    editor.selection = new Selection({ line }, { line });
    events.selection.fire({ textEditor: editor, kind: 1 });
  },
};

function activate(editor: MemoryTextEditor | undefined) {
  if (memory.activeEditor === editor) return;
  memory.activeEditor = editor;
  events.active.fire(editor);
}

function makeWebview(type: string) {
  const received = new EventEmitter<unknown>();
  const [shown, gone] = [new EventEmitter<unknown>(), new EventEmitter<unknown>()];
  const made = {
    type,
    html: "",
    isVisible: true,
    isDisposed: false,
    posted: new EventEmitter<unknown>(),
    receive: (message: unknown) => received.fire(message),
    setVisible(visible: boolean) {
      made.isVisible = visible;
      shown.fire(undefined);
    },
  };
  const webview = {
    options: {},
    cspSource: "file:",
    asWebviewUri: (uri: URI) => uri,
    onDidReceiveMessage: received.event,
    async postMessage(message: unknown) {
      // Only what can be written as JSON arrives on the other side.
      made.posted.fire(JSON.parse(JSON.stringify(message)));
      return true;
    },
    set html(html: string) {
      made.html = html;
    },
  };
  const around = {
    webview,
    viewColumn: 2,
    title: "",
    get visible() {
      return made.isVisible;
    },
    get active() {
      return made.isVisible;
    },
    onDidChangeVisibility: shown.event,
    onDidChangeViewState: shown.event,
    onDidDispose: gone.event,
    reveal: () => made.setVisible(true),
    dispose() {
      made.isDisposed = true;
      made.isVisible = false;
      gone.fire(undefined);
    },
  };
  memory.webviews.push(made);
  return { made, around };
}

export const commands = {
  registerCommand(name: string, handler: (...given: never[]) => unknown) {
    memory.handlers.set(name, handler);
    return nothing;
  },
  async executeCommand(name: string, ...given: unknown[]): Promise<unknown> {
    if (name === "runCommands") {
      memory.keyboardUntilMs = performance.now() + KEYBOARD_MS;
      for (const each of (given[0] as { commands: string[] }).commands) await commands.executeCommand(each);
      return undefined;
    }
    const handler = memory.handlers.get(name);
    if (handler) return handler(...(given as never[]));
    const group = /^workbench\.action\.focus(First|Second|Third|Active)EditorGroup$/.exec(name)?.[1];
    if (group) {
      const column = ["First", "Second", "Third"].indexOf(group) + 1;
      const editor = memory.editors.find(({ viewColumn }) => viewColumn === column);
      if (editor) activate(editor);
    } else if ((name === "undo" || name === "redo") && memory.activeEditor) {
      const parts = memory.documents[name](memory.activeEditor.document);
      memory.stepped.push({ way: name, parts });
    } else memory.ran.push(name);
    return undefined;
  },
};

async function ask<T extends { readonly kind?: number }>(items: readonly T[] | PromiseLike<readonly T[]>) {
  const choices = (await items).filter(({ kind }) => kind !== QuickPickItemKind.Separator);
  const index = choices.length === 0 ? null : memory.answer(choices.length);
  return index === null ? undefined : choices[index];
}
const tell = async (message: string) => void memory.told.push(message);

/** A question that stays open until it is answered: it is at once, or dismissed. */
function questionBox() {
  const [accepted, hidden] = [new EventEmitter<undefined>(), new EventEmitter<undefined>()];
  const box = {
    items: [] as readonly { readonly kind?: number }[],
    selectedItems: [] as readonly unknown[],
    value: "",
    onDidChangeValue: () => nothing,
    onDidTriggerButton: () => nothing,
    onDidAccept: accepted.event,
    onDidHide: hidden.event,
    hide: () => hidden.fire(undefined),
    dispose: () => {},
    show() {
      void ask(box.items).then((chosen) => {
        if (chosen === undefined) return box.hide();
        box.selectedItems = [chosen];
        accepted.fire(undefined);
      });
    },
  };
  return box;
}

export const window = {
  get activeTextEditor() {
    return memory.activeEditor;
  },
  get visibleTextEditors() {
    return memory.editors;
  },
  tabGroups: { all: [], activeTabGroup: { activeTab: undefined, viewColumn: 1 } },
  createTextEditorDecorationType: () => nothing,
  onDidChangeTextEditorSelection: events.selection.event,
  onDidChangeActiveTextEditor: events.active.event,
  onDidChangeVisibleTextEditors: events.visible.event,
  showInformationMessage: tell,
  showWarningMessage: tell,
  showErrorMessage: tell,
  showQuickPick: ask,
  createQuickPick: questionBox,
  createInputBox: questionBox,
  async showInputBox() {
    return undefined;
  },
  async showTextDocument(
    document: MemoryDocument,
    options: { readonly viewColumn?: number; readonly preserveFocus?: boolean },
  ) {
    const wanted = options.viewColumn ?? -1;
    const viewColumn = wanted > 0 ? wanted : (memory.activeEditor?.viewColumn ?? 1);
    let editor = memory.editors.find((each) => each.viewColumn === viewColumn);
    if (!editor || editor.document !== document) {
      const shown = { document, viewColumn, line: 0 };
      editor = {
        ...shown,
        get selection() {
          return new Selection({ line: shown.line }, { line: shown.line });
        },
        set selection({ active }) {
          shown.line = active.line;
          events.selection.fire({ textEditor: editor, kind: undefined });
        },
        setDecorations: () => {},
        revealRange: () => {},
      };
      memory.editors = [...memory.editors.filter((each) => each.viewColumn !== viewColumn), editor];
      events.visible.fire(memory.editors);
    }
    if (options.preserveFocus !== true) activate(editor);
    return editor;
  },
  registerWebviewViewProvider(id: string, provider: { resolveWebviewView(view: unknown): void }) {
    memory.handlers.set(`${id}.focus`, () => {
      const there = memory.webviews.find(({ type }) => type === id);
      if (!there) provider.resolveWebviewView(makeWebview(id).around);
      else if (!there.isVisible) there.setVisible(true);
    });
    return nothing;
  },
  createWebviewPanel: (type: string) => makeWebview(type).around,
  registerWebviewPanelSerializer: () => nothing,
};
export const workspace = {
  get textDocuments() {
    return memory.documents.all();
  },
  openTextDocument: async (uri: URI) => memory.documents.open(uri.toString()),
  async applyEdit({ edits, created }: WorkspaceEdit): Promise<boolean> {
    for (const [uri, text] of created) memory.files.set(uri.toString(), text);
    const documents = edits.map(([uri, each]) => [memory.documents.open(uri.toString()), each] as const);
    memory.made.push(memory.documents.apply(documents));
    return true;
  },
  getConfiguration: () => ({ get: (_: string, usual: unknown) => usual }),
};
