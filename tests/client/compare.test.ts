/** “Compare with…” in a fake editor, with a fake git extension or none: what is offered, what is read, and what is said. */
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import { COMPARE_REQUEST, type OtherSide } from "../../shared/protocol/compare.ts";
import { addressOfOther, keyOfText, otherAddress, otherTextIn } from "../../shared/protocol/other-texts.ts";
import type { WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";

type Item = { label: string; description?: string; detail?: string; kind?: number };

const editor = vi.hoisted(() => ({
  git: undefined as unknown,
  clipboard: "",
  typed: undefined as string | undefined,
  chosenFile: undefined as string | undefined,
  pick: undefined as string | undefined,
  items: [] as Item[],
  told: [] as string[],
  ran: [] as unknown[][],
  provider: undefined as { provideTextDocumentContent(uri: unknown): Promise<string> } | undefined,
  disk: {} as Record<string, string>,
}));

vi.mock("vscode", () => {
  class Uri {
    constructor(readonly text: string) {}
    static parse = (text: string) => new Uri(text);
    get path() {
      return decodeURIComponent(this.text.replace(/^[a-z-]+:(\/\/)?/, "").split("?")[0]!);
    }
    get fsPath() {
      return this.path;
    }
    get scheme() {
      return this.text.split(":")[0];
    }
    get query() {
      return decodeURIComponent(this.text.split("?")[1] ?? "");
    }
    toString = () => this.text;
  }
  class EventEmitter {
    listeners: ((value: unknown) => void)[] = [];
    event = (listener: (value: unknown) => void) => {
      this.listeners.push(listener);
      return { dispose: () => undefined };
    };
    fire = (value: unknown) => this.listeners.forEach((listener) => void listener(value));
    dispose() {}
  }
  return {
    Uri,
    EventEmitter,
    ThemeIcon: class {},
    QuickPickItemKind: { Separator: -1 },
    ViewColumn: {},
    TextEditorRevealType: {},
    Selection: class {},
    TabInputText: class {},
    TabInputWebview: class {},
    extensions: { getExtension: (id: string) => (id === "vscode.git" ? editor.git : undefined) },
    env: { clipboard: { readText: async () => editor.clipboard } },
    commands: { executeCommand: async (...ran: unknown[]) => void editor.ran.push(ran) },
    window: {
      activeTextEditor: undefined,
      visibleTextEditors: [],
      tabGroups: { all: [], activeTabGroup: { viewColumn: 1, activeTab: undefined } },
      async showQuickPick(items: Item[]) {
        editor.items = items;
        return items.find(({ label }) => label === editor.pick);
      },
      showInputBox: async () => editor.typed,
      showOpenDialog: async () => editor.chosenFile && [Uri.parse(editor.chosenFile)],
      showInformationMessage: async (message: string) => void editor.told.push(message),
    },
    workspace: {
      asRelativePath: (uri: Uri) => uri.path.replace("/shed/", ""),
      getWorkspaceFolder: (uri: Uri) => (uri.path.startsWith("/shed/") ? {} : undefined),
      registerTextDocumentContentProvider(_: string, provider: typeof editor.provider) {
        editor.provider = provider;
        return { dispose: () => undefined };
      },
      textDocuments: [],
      openTextDocument: async (uri: Uri) => ({ uri }),
      fs: {
        async readFile(uri: Uri) {
          const text = editor.disk[uri.path];
          if (text === undefined) throw new Error("it is gone");
          return new TextEncoder().encode(text);
        },
      },
    },
  };
});

const { compareCommands } = await import("../../client/src/compare-with.ts");
const { otherDocuments } = await import("../../client/src/other-documents.ts");
const { revisionsOf } = await import("../../client/src/revisions.ts");
const { Uri } = await import("vscode");

const uri = (path: string) => asUri(`file:///shed/${path}.fettle`);
const plain = { line: 0, fault: null, uses: [], handset: null, users: [], findings: null } as const;
const use = (to: number) => ({ line: to, to, path: "", why: null });
const TREE: WorkspaceTree = {
  files: [
    { ...plain, file: uri("jug"), kind: "craft", name: "Jug", handset: 3, uses: [use(3), use(1), use(2)] },
    { ...plain, file: uri("base"), kind: "layer", name: "Base", users: [0, 4] },
    { ...plain, file: uri("habits"), kind: "layer", name: "Habits", users: [0] },
    { ...plain, file: uri("wheel"), kind: "handset", name: "Wheel", users: [0] },
    { ...plain, file: uri("mug"), kind: "craft", name: "Mug", uses: [use(1)] },
  ],
};

const [first, second] = ["a".repeat(40), "b".repeat(40)];

/** A git extension with one repository, in which each commit has these texts; `reads` counts what it was asked. */
function fakeGit(commits: readonly { hash: string; message: string; texts: Record<string, string> }[], more = {}) {
  const listeners: (() => void)[] = [];
  const reads: string[] = [];
  const onDidChange = (listener: () => void) => listeners.push(listener);
  const state = { HEAD: { commit: commits[0]?.hash }, onDidChange };
  const repository = {
    state,
    async log({ path, maxEntries }: { path: string; maxEntries: number }) {
      if (commits.length === 0) throw new Error("your current branch does not have any commits yet");
      return commits.filter(({ texts }) => path in texts).slice(0, maxEntries);
    },
    async getCommit(revision: string) {
      const found = commits.find(({ hash }) => hash.startsWith(revision) || revision === "main");
      if (!found) throw new Error("unknown revision");
      return found;
    },
    async show(revision: string, path: string) {
      reads.push(`${revision.slice(0, 1)} ${path}`);
      const text = commits.find(({ hash }) => hash === revision)?.texts[path];
      if (text === undefined) throw new Error("does not exist");
      return text;
    },
  };
  const api = {
    state: "initialized",
    onDidChangeState: () => ({ dispose: () => undefined }),
    getRepository: (at: { path: string }) => (at.path.startsWith("/shed/") ? repository : null),
    ...more,
  };
  const extension = { isActive: true, exports: { enabled: true, getAPI: () => api } };
  return {
    extension,
    reads,
    moveTo(hash: string) {
      state.HEAD = { commit: hash };
      for (const each of listeners) each();
    },
  };
}

const twoCommits = () =>
  fakeGit([
    { hash: second, message: "Six cells\n\nfor the long field", texts: { "/shed/jug.fettle": "six" } },
    { hash: first, message: "As flown", texts: { "/shed/jug.fettle": "four", "/shed/mug.fettle": "mug" } },
  ]);

beforeEach(() => {
  Object.assign(editor, { git: undefined, clipboard: "", typed: undefined, chosenFile: undefined, pick: undefined });
  Object.assign(editor, { items: [], told: [], ran: [], disk: {} });
});
afterEach(() => vi.useRealTimers());

async function compareWith(pick: string, of = "jug"): Promise<OtherSide | null> {
  editor.pick = pick;
  let opened: OtherSide | null = null;
  const commands = compareCommands({
    scripts: { list: async () => TREE },
    revisions: revisionsOf(),
    open: (mine, other) => {
      expect(mine.toString()).toBe(uri(of));
      opened = other;
    },
  });
  await commands.compareWith(Uri.parse(uri(of)));
  return opened;
}

const rows = () => editor.items.map(({ label, kind }) => (kind === -1 ? `– ${label}` : label));

describe("“Compare with…”", () => {
  test("offers the layers, the first of them first, the revisions, the clipboard, a file and other craft", async () => {
    editor.git = twoCommits().extension;
    await compareWith("");
    expect(rows()).toEqual([
      "– layers it uses",
      "Base",
      "Habits",
      "– at a revision of git",
      "The Last Commit (HEAD)",
      "Six cells",
      "As flown",
      "Type a Revision…",
      "– from elsewhere",
      "The Clipboard",
      "A File…",
      "– another craft",
      "Mug",
    ]);
    expect(editor.items[1]?.description).toBe("the first, on which the others lie · base.fettle");
  });

  test("of a layer offers the other layers, and no craft", async () => {
    await compareWith("", "habits");
    expect(rows().slice(-2)).toEqual(["– another layer", "Base"]);
  });

  test.each([
    ["Base", { kind: "file", uri: uri("base") }],
    ["Mug", { kind: "file", uri: uri("mug") }],
    ["The Last Commit (HEAD)", { kind: "revision", uri: uri("jug"), revision: "HEAD" }],
    ["As flown", { kind: "revision", uri: uri("jug"), revision: first }],
  ] as const)("%s is the other side", async (pick, other) => {
    editor.git = twoCommits().extension;
    expect(await compareWith(pick)).toEqual(other);
  });

  test("a revision is typed, or not", async () => {
    editor.git = twoCommits().extension;
    editor.typed = " v1 ";
    expect(await compareWith("Type a Revision…")).toEqual({ kind: "revision", uri: uri("jug"), revision: "v1" });
    editor.typed = "  ";
    expect(await compareWith("Type a Revision…")).toBeNull();
  });

  test("the clipboard counts if something is in it", async () => {
    expect(await compareWith("The Clipboard")).toBeNull();
    expect(editor.told).toEqual(["There is no text in the clipboard: copy a script, or a part of one, first."]);
    editor.clipboard = "pack\n  cells 4\n";
    expect(await compareWith("The Clipboard")).toEqual({ kind: "text", text: editor.clipboard, name: "the clipboard" });
  });

  test("a script of the workspace is read as such, any other file as a text", async () => {
    editor.chosenFile = uri("mug");
    expect(await compareWith("A File…")).toEqual({ kind: "file", uri: uri("mug") });
    editor.chosenFile = "file:///home/friend.txt";
    editor.disk["/home/friend.txt"] = "pack\n";
    expect(await compareWith("A File…")).toEqual({ kind: "text", text: "pack\n", name: "friend.txt" });
    editor.chosenFile = "file:///home/gone.txt";
    expect(await compareWith("A File…")).toBeNull();
    expect(editor.told).toEqual(["“gone.txt” could not be read: it is gone"]);
  });

  const why = () => editor.items.find(({ label }) => label === "No revisions")?.detail;
  test("where there are no revisions a row says why, and leads nowhere", async () => {
    expect(await compareWith("No revisions")).toBeNull();
    expect(why()).toMatch(/^This editor has no git extension, as in a browser\./);
    editor.git = { isActive: true, exports: { enabled: false, getAPI: () => Promise.reject() } };
    await compareWith("");
    expect(why()).toMatch(/turned off/);
    editor.git = fakeGit([], { getRepository: () => null }).extension;
    await compareWith("");
    expect(why()).toMatch(/in no git repository/);
    editor.git = fakeGit([]).extension;
    await compareWith("");
    expect(why()).toBe("This file has never been committed.");
    editor.git = twoCommits().extension;
    await compareWith("", "habits");
    expect(why()).toBe("This file has never been committed.");
  });

  test("with the last commit at once, or why not", async () => {
    const opened: OtherSide[] = [];
    const commands = () =>
      compareCommands({
        scripts: { list: async () => TREE },
        revisions: revisionsOf(),
        open: (_, other) => void opened.push(other),
      });
    await commands().compareWithHead(uri("jug"));
    expect(editor.told).toEqual([expect.stringMatching(/no git extension/)]);
    editor.git = twoCommits().extension;
    await commands().compareWithHead(uri("jug"));
    expect(opened).toEqual([{ kind: "revision", uri: uri("jug"), revision: "HEAD" }]);
  });
});

describe("revisions", () => {
  test("are read once for each commit, and anew where HEAD has moved on", async () => {
    const git = twoCommits();
    editor.git = git.extension;
    const revisions = revisionsOf();
    const moved = vi.fn();
    revisions.onDidChange(moved);
    const head = () => revisions.text({ uri: uri("jug"), revision: "HEAD" });
    expect([await head(), await head()]).toEqual(Array(2).fill({ kind: "text", text: "six" }));
    expect(git.reads).toEqual(["b /shed/jug.fettle"]);
    git.moveTo(second);
    expect(moved).not.toHaveBeenCalled();
    git.moveTo(first);
    expect(moved).toHaveBeenCalledOnce();
    expect(await head()).toEqual({ kind: "text", text: "four" });
    expect(await revisions.text({ uri: uri("jug"), revision: "main" })).toEqual({ kind: "text", text: "six" });
  });

  test("that there are not, or that lack the file, are missing; no option reaches git", async () => {
    const git = twoCommits();
    editor.git = git.extension;
    const { text } = revisionsOf();
    for (const revision of ["v9", "", "--output=x"])
      expect(await text({ uri: uri("jug"), revision })).toEqual({ kind: "missing" });
    expect(await text({ uri: uri("mug"), revision: "HEAD" })).toEqual({ kind: "missing" });
    expect(await text({ uri: asUri("file:///home/x.fettle"), revision: "HEAD" })).toEqual({
      kind: "unreadable",
      why: "this file lies in no git repository that the editor has opened",
    });
  });

  test("wait for the git extension to have looked for repositories, and not for ever", async () => {
    vi.useFakeTimers();
    let opened = () => {};
    const git = fakeGit([{ hash: first, message: "x", texts: { "/shed/jug.fettle": "four" } }], {
      state: "uninitialized",
      onDidChangeState: (listener: () => void) => {
        opened = listener;
        return { dispose: () => undefined };
      },
    });
    editor.git = { ...git.extension, isActive: false, activate: async () => git.extension.exports };
    const asked = revisionsOf().text({ uri: uri("jug"), revision: "HEAD" });
    await vi.advanceTimersByTimeAsync(100);
    opened();
    await vi.advanceTimersByTimeAsync(4000);
    expect(await asked).toEqual({ kind: "text", text: "four" });
  });
});

describe("read-only documents", () => {
  const shown = (address: string) => editor.provider!.provideTextDocumentContent(Uri.parse(address));
  const made = () => otherDocuments(async () => null as never, revisionsOf());

  test("show a file at a revision, or why not", async () => {
    editor.git = twoCommits().extension;
    made();
    expect(await shown(otherAddress({ uri: uri("jug"), revision: "HEAD" }))).toBe("six");
    expect(await shown(otherAddress({ uri: uri("mug"), revision: "HEAD" }))).toBe(
      "# HEAD cannot be shown: this file is not part of it.\n",
    );
    expect(await shown("fettle-other:/x.fettle?junk")).toBe("# This address stands for no text.\n");
  });

  test("show a text that was offered to the server, as long as it is kept", async () => {
    const { ask } = made();
    const other = { kind: "text", text: "pack\n  cells 4\n", name: "the clipboard" } as const;
    expect(await shown(addressOfOther(other))).toMatch(/^# This text is not kept any more/);
    await ask(COMPARE_REQUEST, { uri: uri("jug"), other });
    expect(await shown(addressOfOther(other))).toBe(other.text);
    for (let i = 0; i < 40; i++) await ask(COMPARE_REQUEST, { uri: uri("jug"), other: { ...other, text: `${i}` } });
    expect(await shown(addressOfOther(other))).toMatch(/^# This text is not kept any more/);
  });

  test("stand beside the script in the editor's own comparison", async () => {
    await made().showNativeDiff({
      mine: uri("jug"),
      other: { kind: "revision", uri: uri("jug"), revision: "origin/main" },
    });
    const [[command, theirs, mine, title, shown]] = editor.ran as [[string, object, object, string, object]];
    expect([command, String(mine), title]).toEqual([
      "vscode.diff",
      uri("jug"),
      "jug (origin-main).fettle ↔ jug.fettle",
    ]);
    expect(String(theirs)).toMatch(/^fettle-other:\//);
    expect(shown).toEqual({ viewColumn: 1, preview: true });
  });
});

test("an address gives back what it was made of, whatever stands in it", () => {
  for (const text of [
    { uri: asUri("file:///shed/my%20jug%25.fettle"), revision: "feature/ä#1?x=%20&y" },
    { key: keyOfText("a"), name: "the “clip” ?#%/board" },
  ]) {
    const address = otherAddress(text);
    expect(address).toMatch(/^fettle-other:\/[^/?#]+\.fettle\?[^?#]*$/);
    expect(otherTextIn(decodeURIComponent(address.split("?")[1]!))).toEqual(text);
  }
  expect(new Set(["", "a", "b", "ab", "ba", "a".repeat(5000), "a".repeat(4999)].map(keyOfText)).size).toBe(7);
});
