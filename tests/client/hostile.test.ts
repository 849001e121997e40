/** What the client shows besides messages, lists and pages: beside files and lines, in the status bar, on tabs. A stranger's words in it are words. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test, vi } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { asUri, encodedPart } from "../../shared/protocol/addresses.ts";
import type { BoardTextResult } from "../../shared/protocol/board.ts";
import { type EffectiveText, effectiveAddress } from "../../shared/protocol/effective.ts";
import { otherAddress } from "../../shared/protocol/other-texts.ts";
import type { CraftStatus } from "../../shared/protocol/status.ts";
import type { WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";
import { ICON_IN_LABEL, markdownFaults, unseenIn } from "../fire/outputs/inspect.ts";
import { attacks } from "../hostile-texts.ts";

vi.mock("vscode", () => import("./fake-editor.ts"));

const { asked, extension, fakePanel, statusBar, Uri, window } = await import("./fake-editor.ts");
const { boardLenses } = await import("../../client/src/board-lenses.ts");
const { boardLooks } = await import("../../client/src/board-looks.ts");
const { effectiveCrafts } = await import("../../client/src/effective.ts");
const { kindBadges } = await import("../../client/src/kind-badges.ts");
const { lineHighlights } = await import("../../client/src/line-highlights.ts");
const { panelWebviews } = await import("../../client/src/panel-webviews.ts");
const { statusItem } = await import("../../client/src/status-item.ts");
const { workspaceScripts } = await import("../../client/src/workspace-scripts.ts");
const { workspaceTree, treeViewId } = await import("../../client/src/workspace-tree.ts");

const jug = "file:///shed/jug.fettle";
const NONE = { errors: 0, warnings: 0, infos: 0, hints: 0, worst: null } as const;

interface TreeItem {
  readonly label: string;
  readonly description: string;
  readonly tooltip: string;
  readonly accessibilityInformation: { readonly label: string };
}

interface Decoration {
  readonly hoverMessage: { readonly value: string };
  readonly renderOptions: { readonly after: { readonly contentText: string } };
}

/** A server with one answer. */
const giving = (answer: unknown) => async () => answer as never;

/** Nothing in it hides or turns what is read. */
function expectPlain(shown: readonly string[], atLeast: number): void {
  expect(shown.length).toBeGreaterThanOrEqual(atLeast);
  expect(shown.flatMap((each) => unseenIn(each) ?? [])).toEqual([]);
}

test("in the tree and beside a file", async () => {
  const shown: string[] = [];
  for (const text of attacks) {
    const file = { line: 0, fault: text, handset: 1, users: [], findings: NONE };
    const tree: WorkspaceTree = {
      files: [
        { ...file, file: jug, kind: "craft", name: text, uses: [{ line: 1, to: null, path: text, why: text }] },
        { ...file, file: "file:///shed/wheel.fettle", kind: "handset", name: text, uses: [], users: [0] },
      ],
    };
    const scripts = workspaceScripts(giving(tree), () => {});
    workspaceTree(scripts);
    kindBadges(scripts);
    const { getChildren, getTreeItem } = asked.trees.get(treeViewId)!;
    const show = async (row?: unknown): Promise<void> => {
      for (const each of await getChildren(row)) {
        const item = getTreeItem(each) as unknown as TreeItem;
        shown.push(item.label, item.description, item.tooltip, item.accessibilityInformation.label);
        await show(each);
      }
    };
    await show();
    const badges = asked.providers.get("decorations") as { provideFileDecoration(uri: object): { tooltip: string } };
    shown.push(badges.provideFileDecoration(new Uri(jug)).tooltip);
  }
  expectPlain(shown, 16 * attacks.length);
});

test("in the status bar", async () => {
  for (const text of attacks) {
    const status: CraftStatus = {
      kind: "layer",
      name: text,
      fault: text,
      craft: { file: jug, name: text },
      arming: { state: "not-ready", words: text, obstacle: text, besides: [text] },
      findings: NONE,
    };
    statusBar.text = "";
    const { disposables } = statusItem(giving(status), () => undefined, expect.fail);
    for (let turn = 0; turn < 9 && statusBar.text === ""; turn++) await Promise.resolve();
    for (const each of disposables) each.dispose();
    expectPlain([statusBar.text, statusBar.tooltip, statusBar.accessibilityInformation.label], 3);
    expect(statusBar.text).toMatch(/^\$\([a-z-]+\) ./);
    expect(statusBar.text.replace(/^\$\([a-z-]+\)/, "")).not.toMatch(ICON_IN_LABEL);
  }
});

test("above and behind the lines of a board's text", () => {
  const behind: string[] = [];
  const editor = {
    document: { lineCount: 0 },
    visibleRanges: [{ start: { line: 0 }, end: { line: 9 } }],
    setDecorations: (_type: unknown, put: readonly Decoration[]) =>
      void behind.push(...put.map(({ renderOptions }) => renderOptions.after.contentText)),
  };
  for (const text of attacks) {
    const result: BoardTextResult = {
      kind: "read",
      dialect: { uri: asUri(jug), name: text },
      lines: [
        { line: 0, state: "read", by: [], says: [text, text], why: null },
        { line: 1, state: "odd", by: [], says: [], why: text },
      ],
      counts: { read: 1, odd: 1, kept: 0, idle: 0 },
      craft: [{ uri: asUri(jug), name: text }],
    };
    const lenses = boardLenses(result, asUri(jug)).map(({ title }) => title);
    expectPlain(lenses, 4);
    expect(lenses.filter((each) => ICON_IN_LABEL.test(each))).toEqual([]);
    boardLooks(extension as never).showWords(editor as never, result.lines);
  }
  expectPlain(behind, 2 * attacks.length);
});

test("behind a line that the panel leads to, and in its hover", () => {
  const put: Decoration[] = [];
  const setDecorations = (_type: unknown, options: readonly Decoration[]) => void put.push(...options);
  window.visibleTextEditors.push({ document: { uri: new Uri(jug) }, setDecorations } as never);
  const { show } = lineHighlights();
  for (const text of attacks) show([{ at: { file: jug, line: 0 }, words: text }]);
  window.visibleTextEditors.pop();
  expectPlain(
    put.map(({ renderOptions }) => renderOptions.after.contentText),
    attacks.length,
  );
  expect(put.flatMap(({ hoverMessage }) => markdownFaults(hoverMessage.value))).toEqual([]);
});

test("in the hover of an effective craft, which names files", async () => {
  for (const text of attacks) {
    const file = `file:///shed/${text}.fettle`;
    const effective: EffectiveText = {
      file: jug,
      craft: text,
      text: "  cells  6  # there\n",
      lines: [{ line: 0, start: 10, end: 19, sources: [{ file, line: 6 }] }],
    };
    await effectiveCrafts(giving(effective)).show(asUri(jug));
    const { provideHover } = asked.providers.get("hovers") as {
      provideHover(document: object, at: object): { contents: { value: string } };
    };
    const document = { uri: Uri.parse(effectiveAddress(asUri(jug))), getText: () => effective.text };
    const { value } = provideHover(document, { line: 0 }).contents;
    // The editor encodes the address behind the words, which this one does not.
    const words = value.replace(`](${file}#L7)`, "](#)");
    expect(words).not.toBe(value);
    expect(markdownFaults(words)).toEqual([]);
  }
});

test("on the tab of the panel, and of a text that lies nowhere", async () => {
  const { post } = panelWebviews(
    extension as never,
    () => {},
    () => {},
  );
  const tab = { ...fakePanel("fettle.panelTab", ""), onDidChangeViewState: () => {} };
  await [...asked.tabs.values()].at(-1)!.deserializeWebviewPanel(tab);
  const nameOf = (address: string) => decodeURIComponent(/\/([^/?]*)\?/.exec(address)![1]!);
  for (const text of attacks) {
    post({ kind: "model", model: { craft: text } } as never);
    expectPlain([tab.title], 1);
    expect(tab.title).toMatch(/^Panel: ./);
    const names = [
      nameOf(otherAddress({ key: "k", name: text })),
      nameOf(otherAddress({ uri: asUri(jug), revision: text })),
      nameOf(effectiveAddress(asUri(`file:///shed/${encodedPart(text)}.fettle`))),
    ];
    // What does not show takes nothing from such a name; what turns it, or ends its line, would.
    expect(names.filter((each) => /[\p{Cc}\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/u.test(each))).toEqual([]);
  }
});

test("nothing else of the client shows anything in such places", () => {
  const places =
    /\b(?:contentText|hoverMessage|tooltip =|new (?:TreeItem|FileDecoration|MarkdownString|CodeLens)|createStatusBarItem)\b/;
  const files = readdirSync(inProject("client/src"));
  expect(files.filter((name) => places.test(readFileSync(inProject("client/src", name), "utf8")))).toEqual([
    "board-looks.ts",
    "board-texts.ts",
    "effective.ts",
    "kind-badges.ts",
    "line-highlights.ts",
    "status-item.ts",
    "workspace-tree.ts",
  ]);
  const titles = files.flatMap((name) =>
    readFileSync(inProject("client/src", name), "utf8")
      .split("\n")
      .filter((line) => /\b(?:panel|tab|adopted|restored)\.title = /.test(line)),
  );
  expect(titles).toHaveLength(3);
  for (const line of titles) expect(line).toContain("visibleLine(");
});
