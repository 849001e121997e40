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
  /** Settings by their whole names, with what stands in where nobody has set them. */
  settings: new Map<string, unknown>(),
  views: new Map<string, { resolveWebviewView(view: unknown): void }>(),
  tabs: new Map<string, { deserializeWebviewPanel(panel: unknown): Promise<void> }>(),
};

class FakeUri {
  constructor(readonly path: string) {}
  static joinPath = (base: FakeUri, ...parts: string[]) => new FakeUri([base.path, ...parts].join("/"));
  static parse = (text: string) => new FakeUri(text);
  toString = () => this.path;
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

const document = {
  uri: new FakeUri("file:///shed/jug.fettle"),
  languageId: "fettle",
  version: 1,
  getText: () => 'craft "Jug"\n',
};
const editor = { document, selection: { active: { line: 0 } }, viewColumn: 1, setDecorations: () => undefined };

export const Uri = FakeUri;
export const commands = {
  registerCommand(name: string) {
    asked.commands.push(name);
    return nothing;
  },
  executeCommand: async () => undefined,
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
  showTextDocument: async () => editor,
  registerWebviewViewProvider(id: string, provider: { resolveWebviewView(view: unknown): void }) {
    asked.views.set(id, provider);
    return nothing;
  },
  registerCustomEditorProvider(type: string) {
    asked.customEditors.push(type);
    return nothing;
  },
  registerWebviewPanelSerializer(type: string, serializer: { deserializeWebviewPanel(panel: unknown): Promise<void> }) {
    asked.tabs.set(type, serializer);
    return nothing;
  },
};
export const workspace = {
  workspaceFolders: [{ uri: new FakeUri("file:///shed") }],
  textDocuments: [document],
  registerTextDocumentContentProvider: never,
  onDidOpenTextDocument: never,
  getConfiguration: (section: string) => ({
    get(name: string, usual: unknown) {
      asked.settings.set(`${section}.${name}`, usual);
      return usual;
    },
  }),
};
export class EventEmitter {
  event = never;
  dispose() {}
}
export class ThemeColor {}
export const OverviewRulerLane = { Left: 1 };
export const ViewColumn = { Beside: -2 };
export class TabInputText {}
export class TabInputWebview {}
export const languages = { onDidChangeDiagnostics: never };
