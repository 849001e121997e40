/**
 * An editor of which only what the extension asks for as it starts is there, in place of `vscode`:
 * it has one folder and one script open, and keeps in `asked` what was registered and read.
 */

const nothing = { dispose: () => undefined };
const never = () => nothing;

/** What the extension asked of the editor, in order. */
export const asked = {
  commands: [] as string[],
  customEditors: [] as string[],
  handlers: new Map<string, (...given: never[]) => unknown>(),
  /** Settings by their whole names, with what stands in where nobody has set them. */
  settings: new Map<string, unknown>(),
  views: new Map<string, { resolveWebviewView(view: unknown): void }>(),
  tabs: new Map<string, { deserializeWebviewPanel(panel: unknown, state?: unknown): Promise<void> }>(),
  trees: new Map<string, FakeTree>(),
  /** Commands that were run, each with its arguments. */
  ran: [] as unknown[][],
  /** Texts under addresses of their own, links in them and so on, by what was registered. */
  providers: new Map<string, unknown>(),
  /** What was told in a message, and what a question is answered with. */
  told: [] as string[],
  clipboard: "",
  /** What was opened as a tab, in order. */
  opened: [] as FakePanel[],
  /** Files outside of any script, by their addresses. */
  files: new Map<string, string>(),
  items: [] as { label: string; description?: string; detail?: string }[],
  answer: undefined as string | undefined,
};

/** A tab with a page, as the extension made it: what was posted to it, and what its page says back. */
export interface FakePanel {
  readonly type: string;
  title: string;
  visible: boolean;
  active: boolean;
  isDisposed: boolean;
  readonly posted: unknown[];
  /** The page sends a message. */
  send(message: unknown): Promise<void>;
}

interface FakeTree {
  getChildren(row?: unknown): Promise<unknown[]>;
  getTreeItem(row: unknown): Record<string, unknown>;
}

/** An event that a test fires. */
export class EventEmitter<T = unknown> {
  readonly #listeners: ((value: T) => void)[] = [];
  readonly event = (listener: (value: T) => void) => {
    this.#listeners.push(listener);
    return nothing;
  };
  fire(value: T) {
    for (const listener of this.#listeners) listener(value);
  }
  dispose() {}
}

/** The item in the status bar, as it was last shown. */
export const statusBar = {
  text: "",
  tooltip: "",
  accessibilityInformation: { label: "" },
  isShown: false,
  show() {
    statusBar.isShown = true;
  },
  hide() {
    statusBar.isShown = false;
  },
  dispose() {},
};

class FakeUri {
  readonly scheme: string;
  readonly query: string;
  constructor(
    readonly path: string,
    readonly fragment = "",
  ) {
    this.scheme = path.slice(0, Math.max(0, path.indexOf(":")));
    this.query = path.slice(path.indexOf("?") + 1);
  }
  static joinPath = (base: FakeUri, ...parts: string[]) => new FakeUri([base.path, ...parts].join("/"));
  /** An address of a text that lies nowhere is kept decoded, as the editor keeps every one. */
  static parse = (text: string) => new FakeUri(text.startsWith("fettle-") ? decodeURIComponent(text) : text);
  static from = ({ scheme, path, query }: Record<string, string>) => new FakeUri(`${scheme}:${path}?${query}`);
  with = ({ fragment }: { fragment: string }) => new FakeUri(this.path, fragment);
  toString = () => (this.fragment === "" ? this.path : `${this.path}#${this.fragment}`);
}

export const extension = new FakeUri("/extension");

/** A webview's page, as the extension fills it. */
export function fakeWebview() {
  return {
    html: "",
    options: {} as unknown,
    cspSource: "https://pages.test",
    asWebviewUri: (uri: FakeUri) => new FakeUri(`https://pages.test${uri.path}`),
    onDidReceiveMessage: never,
    postMessage: async () => true,
  };
}

/** A new tab, with a page that says what it is told to. */
export function fakePanel(type: string, title: string): FakePanel {
  let received: (message: unknown) => unknown = () => undefined;
  let disposed = () => {};
  const panel = {
    type,
    title,
    visible: true,
    active: true,
    viewColumn: 2,
    isDisposed: false,
    posted: [] as unknown[],
    send: async (message: unknown) => void (await received(message)),
    webview: {
      ...fakeWebview(),
      onDidReceiveMessage: (listener: typeof received) => {
        received = listener;
      },
      postMessage: async (message: unknown) => panel.posted.push(message),
    },
    reveal: () => undefined,
    onDidDispose: (listener: typeof disposed) => {
      disposed = listener;
    },
    dispose() {
      panel.isDisposed = true;
      disposed();
    },
  };
  return panel;
}

const document = {
  uri: new FakeUri("file:///shed/jug.fettle"),
  languageId: "fettle",
  version: 1,
  getText: () => 'craft "Jug"\n',
};
const editor = { document, selection: { active: { line: 0 } }, viewColumn: 1, setDecorations: () => undefined };

export const Uri = FakeUri;
export const commands = {
  registerCommand(name: string, handler: (...given: never[]) => unknown) {
    asked.commands.push(name);
    asked.handlers.set(name, handler);
    return nothing;
  },
  async executeCommand(...ran: unknown[]) {
    asked.ran.push(ran);
  },
};
export const window = {
  activeTextEditor: editor,
  visibleTextEditors: [editor],
  tabGroups: { all: [], activeTabGroup: {} },
  createOutputChannel: () => ({ ...nothing, warn: () => undefined }),
  createTextEditorDecorationType: never,
  onDidChangeTextEditorSelection: never,
  onDidChangeActiveTextEditor: never,
  onDidChangeVisibleTextEditors: never,
  onDidChangeTextEditorVisibleRanges: never,
  createStatusBarItem: () => statusBar,
  createTreeView(id: string, { treeDataProvider }: { treeDataProvider: FakeTree }) {
    asked.trees.set(id, treeDataProvider);
    return { ...nothing, visible: true, onDidChangeVisibility: never };
  },
  registerFileDecorationProvider: (provider: unknown) => registered("decorations", provider),
  async showInformationMessage(message: string) {
    asked.told.push(message);
    return asked.answer;
  },
  async showQuickPick(items: { label: string }[]) {
    asked.items = items;
    return items.find(({ label }) => label === asked.answer);
  },
  showTextDocument: async () => editor,
  async showSaveDialog({ title }: { title: string }) {
    asked.told.push(title);
    return undefined;
  },
  async showOpenDialog({ title }: { title: string }) {
    asked.told.push(title);
    return asked.answer === undefined ? undefined : [new FakeUri(asked.answer)];
  },
  createWebviewPanel(type: string, title: string) {
    const panel = fakePanel(type, title);
    asked.opened.push(panel);
    return panel;
  },
  registerWebviewViewProvider(id: string, provider: { resolveWebviewView(view: unknown): void }) {
    asked.views.set(id, provider);
    return nothing;
  },
  registerCustomEditorProvider(type: string) {
    asked.customEditors.push(type);
    return nothing;
  },
  registerWebviewPanelSerializer(
    type: string,
    serializer: { deserializeWebviewPanel(panel: unknown, state?: unknown): Promise<void> },
  ) {
    asked.tabs.set(type, serializer);
    return nothing;
  },
};
export const workspace = {
  workspaceFolders: [{ uri: new FakeUri("file:///shed") }],
  textDocuments: [document],
  registerTextDocumentContentProvider: (scheme: string, provider: unknown) => registered(scheme, provider),
  onDidCloseTextDocument: never,
  onDidChangeTextDocument: never,
  asRelativePath: (uri: FakeUri) => uri.path.replace("file:///shed/", ""),
  async openTextDocument(uri: FakeUri) {
    const provider = asked.providers.get(uri.scheme) as
      | { provideTextDocumentContent(uri: FakeUri): Promise<string> }
      | undefined;
    const text = (await provider?.provideTextDocumentContent(uri)) ?? "";
    return { uri, languageId: "fettle", getText: () => text };
  },
  onDidOpenTextDocument: never,
  getWorkspaceFolder: ({ path }: FakeUri) => (path.startsWith("file:///shed/") ? {} : undefined),
  fs: {
    async stat({ path }: FakeUri) {
      const text = asked.files.get(path);
      if (text === undefined) throw new Error("it is not there");
      return { size: text.length };
    },
    readFile: async ({ path }: FakeUri) => new TextEncoder().encode(asked.files.get(path)),
  },
  getConfiguration: (section: string) => ({
    get(name: string, usual: unknown) {
      asked.settings.set(`${section}.${name}`, usual);
      return usual;
    },
  }),
};
export const env = { clipboard: { readText: async () => asked.clipboard } };
export class ThemeColor {}
export class ThemeIcon {
  constructor(readonly name: string) {}
}
export class TreeItem {
  constructor(
    readonly label: string,
    readonly collapsibleState: number,
  ) {}
}
export class FileDecoration {
  constructor(
    readonly badge: string,
    readonly tooltip: string,
  ) {}
}
export class Position {
  constructor(
    readonly line: number,
    readonly character: number,
  ) {}
}
export class Range {
  readonly at: number[];
  constructor(...at: number[]) {
    this.at = at;
  }
}
export class Location {
  constructor(
    readonly uri: FakeUri,
    readonly position: Position,
  ) {}
}
export class DocumentLink {
  tooltip = "";
  constructor(
    readonly range: Range,
    readonly target: FakeUri,
  ) {}
}
export class MarkdownString {
  constructor(public value = "") {}
  appendMarkdown(markdown: string) {
    this.value += markdown;
    return this;
  }
  /** Escaped as the editor does it, but for the blanks. */
  appendText(text: string) {
    return this.appendMarkdown(text.replaceAll(/[\\`*_{}[\]()#+\-!~<>&]/g, "\\$&"));
  }
}
export class Hover {
  constructor(readonly contents: MarkdownString) {}
}
export const TreeItemCollapsibleState = { None: 0, Collapsed: 1, Expanded: 2 };
export const CodeActionKind = { RefactorRewrite: "refactor.rewrite" };
export class CodeAction {
  command?: unknown;
  constructor(
    readonly title: string,
    readonly kind: string,
  ) {}
}
export const StatusBarAlignment = { Left: 1 };
export const OverviewRulerLane = { Left: 1 };
export const ViewColumn = { Beside: -2 };
export class TabInputText {}
export class TabInputWebview {}
export const languages = {
  registerCodeActionsProvider: (_: unknown, provider: unknown) => registered("actions", provider),
  onDidChangeDiagnostics: never,
  registerDocumentLinkProvider: (_: unknown, provider: unknown) => registered("links", provider),
  registerDefinitionProvider: (_: unknown, provider: unknown) => registered("definitions", provider),
  registerHoverProvider: (_: unknown, provider: unknown) => registered("hovers", provider),
  registerCodeLensProvider: (_: unknown, provider: unknown) => registered("lenses", provider),
};

function registered(name: string, provider: unknown) {
  asked.providers.set(name, provider);
  return nothing;
}
