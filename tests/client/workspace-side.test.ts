/** What stands beside the panel and in the status bar, and what leads there, in a fake editor with a server of answers. */
import { beforeEach, describe, expect, test, vi } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { EffectiveText } from "../../shared/protocol/effective.ts";
import type { CraftStatus } from "../../shared/protocol/status.ts";
import type { FindingCounts, WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";

vi.mock("vscode", () => import("./fake-editor.ts"));

const { asked, statusBar, Uri, window } = await import("./fake-editor.ts");
const { workspaceScripts } = await import("../../client/src/workspace-scripts.ts");
const { workspaceTree } = await import("../../client/src/workspace-tree.ts");
const { kindBadges } = await import("../../client/src/kind-badges.ts");
const { statusItem } = await import("../../client/src/status-item.ts");
const { effectiveCrafts, leaveOutShown } = await import("../../client/src/effective.ts");
const { lensCommands } = await import("../../client/src/lens-commands.ts");
const { craftForPanel } = await import("../../client/src/pick-craft.ts");
const { treeCommands } = await import("../../client/src/tree-commands.ts");

const uri = (name: string) => `file:///shed/${name}.fettle`;
const NONE: FindingCounts = { errors: 0, warnings: 0, infos: 0, hints: 0, worst: null };
const ONE: FindingCounts = { ...NONE, errors: 1, worst: { severity: "error", line: 6 } };
const plain = { line: 0, fault: null, uses: [], handset: null, users: [], findings: NONE } as const;
const TREE: WorkspaceTree = {
  files: [
    { ...plain, file: uri("jug"), kind: "craft", name: "Jug", handset: 2, findings: ONE, uses: [use(2), use(1)] },
    { ...plain, file: uri("habits"), kind: "layer", name: "Habits", users: [0], line: 3 },
    { ...plain, file: uri("wheel"), kind: "handset", name: "Wheel", users: [0] },
    { ...plain, file: uri("kiln"), kind: "dialect", name: "Kiln" },
  ],
};

function use(to: number) {
  return { line: 2 + to, to, path: "", why: null };
}

/** A server that gives these answers, and notes what it was asked. */
function server(answers: Record<string, unknown>) {
  const requests: [string, unknown][] = [];
  const ask = async (method: string, params: unknown) => {
    requests.push([method, params]);
    const answer = answers[method];
    return (typeof answer === "function" ? answer(params) : answer) as never;
  };
  return { ask, requests, answers };
}

const log = vi.fn();
beforeEach(() => {
  log.mockClear();
  asked.told.length = 0;
  asked.ran.length = 0;
  asked.items = [];
  asked.answer = undefined;
});

describe("the scripts of the workspace", () => {
  test("are not asked for before somebody looks, and then with findings only where these are shown", async () => {
    const { ask, requests } = server({ "fettle/workspaceTree": TREE });
    const scripts = workspaceScripts(ask, log);
    scripts.changed();
    expect(requests).toEqual([]);
    expect(await scripts.list()).toBe(TREE);
    expect(requests).toEqual([["fettle/workspaceTree", { findings: false }]]);
    const shown = workspaceScripts(ask, log);
    shown.countWhile(() => true);
    await shown.list();
    expect(requests.slice(1)).toEqual([
      ["fettle/workspaceTree", { findings: false }],
      ["fettle/workspaceTree", { findings: true }],
    ]);
  });

  test("after some changes in a row are asked for once, when a pause comes", async () => {
    vi.useFakeTimers();
    const { ask, requests } = server({ "fettle/workspaceTree": TREE });
    const scripts = workspaceScripts(ask, log);
    await scripts.list();
    for (let key = 0; key < 5; key++) scripts.changed();
    await vi.advanceTimersByTimeAsync(399);
    expect(requests).toHaveLength(1);
    await vi.advanceTimersByTimeAsync(1);
    expect(requests).toHaveLength(2);
    vi.useRealTimers();
  });

  test("where the server fails there are none, and the log says why", async () => {
    const scripts = workspaceScripts(async () => {
      throw new Error("gone");
    }, log);
    expect(await scripts.list()).toBeNull();
    expect(log).toHaveBeenCalledWith(expect.stringContaining("gone"));
  });
});

describe("the tree", () => {
  const { ask } = server({ "fettle/workspaceTree": TREE });
  const scripts = workspaceScripts(ask, log);
  workspaceTree(scripts);
  const rows = asked.trees.get("fettle.craft")!;
  const below = async (...labels: string[]) => {
    let level = await rows.getChildren();
    for (const label of labels)
      level = await rows.getChildren(level.find((row) => rows.getTreeItem(row).label === label));
    return level;
  };

  test("unfolds row by row, each with what it is in words", async () => {
    const said = (await below("Craft", "Jug")).map((row) => rows.getTreeItem(row).accessibilityInformation);
    expect(said).toEqual([
      { label: "1 error" },
      { label: "Wheel, handset, used by 1 craft" },
      { label: "Habits, layer, used by 1 craft" },
    ]);
  });

  test("a press opens the header of a script, and the line of the gravest finding", async () => {
    const [found, , habits] = (await below("Craft", "Jug")).map((row) => rows.getTreeItem(row).command);
    const opens = (name: string, line: number) => ({
      command: "vscode.open",
      arguments: [{ path: uri(name) }, { selection: { start: { line } } }],
    });
    expect(found).toMatchObject(opens("jug", 6));
    expect(habits).toMatchObject(opens("habits", 3));
  });

  test("each kind has a picture of its own, on light and on dark, and an error marks it", async () => {
    const pictures = new Set<string>();
    for (const group of ["Craft", "Layers", "Handsets", "Dialects"]) {
      const { iconPath } = rows.getTreeItem((await below(group))[0]) as { iconPath: { light: object; dark: object } };
      for (const address of [iconPath.light, iconPath.dark].map(String)) {
        expect(atob(address.split(",")[1]!)).toMatch(/^<svg .*<\/svg>$/s);
        pictures.add(address);
      }
    }
    expect(pictures.size).toBe(8);
  });

  test("what is done with a row is done with its script; a group has none", async () => {
    const show = vi.fn();
    const lenses = { showUsers: vi.fn(), showEffective: vi.fn() };
    const sides = { compareWith: vi.fn(), review: vi.fn(), carryOver: vi.fn() };
    treeCommands(scripts, { show }, lenses, sides);
    const [habits] = await below("Layers");
    const [group] = await below();
    const run = (name: string, row: unknown) => asked.handlers.get(`fettle.row.${name}`)!(row as never);
    const names = ["open", "showInPanel", "showEffective", "showUsers", ...Object.keys(sides), "reveal"];
    for (const name of names) {
      run(name, habits);
      run(name, group);
    }
    expect(asked.ran.map(([command, at]) => [command, String(at)])).toEqual([
      ["vscode.open", uri("habits")],
      ["revealInExplorer", uri("habits")],
    ]);
    expect(show.mock.calls).toEqual([["goggles", uri("habits")]]);
    for (const each of [lenses.showUsers, lenses.showEffective, ...Object.values(sides)])
      expect(each.mock.calls.map(String)).toEqual([uri("habits")]);
  });

  test("the panel without a script lists the craft", async () => {
    expect(await craftForPanel(scripts)).toEqual([{ file: uri("jug"), name: "Jug", aside: "Wheel · 1 error" }]);
  });
});

test("in the explorer each script has the letter of its kind, other files none", async () => {
  const scripts = workspaceScripts(server({ "fettle/workspaceTree": TREE }).ask, log);
  kindBadges(scripts);
  const { provideFileDecoration } = asked.providers.get("decorations") as {
    provideFileDecoration(uri: unknown): { badge: string; tooltip: string } | undefined;
  };
  expect(provideFileDecoration(Uri.parse(uri("jug")))).toBeUndefined();
  await scripts.list();
  const shown = ["jug", "habits", "wheel", "kiln"].map((name) => provideFileDecoration(Uri.parse(uri(name))));
  expect(shown.map((each) => each?.badge)).toEqual(["C", "L", "H", "D"]);
  expect(shown[1]?.tooltip).toBe("Layer “Habits”");
  expect(provideFileDecoration(Uri.parse("file:///shed/readme.md"))).toBeUndefined();
});

describe("the status bar", () => {
  const status: CraftStatus = {
    kind: "craft",
    name: "Jug",
    fault: null,
    craft: { file: uri("jug"), name: "Jug" },
    arming: { state: "ready", words: "TL down arms it.", obstacle: "arm is off here.", besides: [] },
    findings: ONE,
  };

  test("says what the craft in front is, in words that can be read aloud, and leads to its switches", async () => {
    const { ask, requests } = server({ "fettle/status": status });
    statusItem(ask, () => asUri(uri("mug")), log);
    await vi.waitFor(() => expect(statusBar.text).toBe("$(error) Jug: can arm · 1 error"));
    expect(requests).toEqual([["fettle/status", { uri: uri("jug"), craft: uri("mug") }]]);
    expect(statusBar.isShown).toBe(true);
    expect(statusBar.accessibilityInformation.label).toMatch(/^Jug: can arm · 1 error\. /);
    expect(statusBar.tooltip).toContain("At rest: arm is off here.");
    expect(statusBar).toMatchObject({ command: { command: "fettle.showSwitches" } });
  });

  test("is hidden where there is nothing to say, or the server fails", async () => {
    statusItem(server({ "fettle/status": null }).ask, () => undefined, log);
    await vi.waitFor(() => expect(statusBar.isShown).toBe(false));
    statusBar.show();
    statusItem(
      async () => {
        throw new Error("gone");
      },
      () => undefined,
      log,
    );
    await vi.waitFor(() => expect(statusBar.isShown).toBe(false));
    expect(log).toHaveBeenCalled();
  });
});

describe("the effective craft", () => {
  const text: EffectiveText = {
    file: uri("jug"),
    craft: "Jug",
    text: 'craft "Jug"\n\nmodes\n  arm  when TL is down  # habits.fettle:4\n',
    lines: [{ line: 3, start: 26, end: 42, sources: [{ file: uri("habits"), line: 3 }] }],
  };

  test("is shown beside the script under an address of its own, and what it says leads to its lines", async () => {
    const { ask } = server({ "fettle/effective": text });
    const effective = effectiveCrafts(ask);
    const showing = vi.spyOn(window, "showTextDocument");
    await effective.show(asUri(uri("jug")));
    const [[document]] = showing.mock.calls as unknown as [[{ uri: { toString(): string }; getText(): string }]];
    expect(document.uri.toString()).toBe(`fettle-effective:/jug (effective).fettle?${uri("jug")}`);
    expect(document.getText()).toBe(text.text);
    const of = <T>(name: string) => asked.providers.get(name) as T;
    const { provideDocumentLinks } = of<{ provideDocumentLinks(d: unknown): object[] }>("links");
    expect(provideDocumentLinks(document)).toMatchObject([
      { range: { at: [3, 26, 3, 42] }, target: { fragment: "L4" } },
    ]);
    const { provideDefinition } = of<{ provideDefinition(d: unknown, at: object): object[] }>("definitions");
    expect(provideDefinition(document, { line: 3 })).toMatchObject([{ position: { line: 3 } }]);
    expect(provideDefinition(document, { line: 0 })).toBeUndefined();
    const { provideHover } = of<{ provideHover(d: unknown, at: object): object }>("hovers");
    expect(provideHover(document, { line: 3 })).toMatchObject({
      contents: { value: `Said in [habits.fettle, line 4](${uri("habits")}#L4)` },
    });
    // Of a text that is not the present one nothing is linked: its lines may be others.
    expect(provideDocumentLinks({ ...document, getText: () => "" })).toEqual([]);
  });

  test("of a file that no craft uses there is none, and that is said", async () => {
    await effectiveCrafts(server({ "fettle/effective": null }).ask).show(asUri(uri("habits")));
    expect(asked.told).toEqual([expect.stringContaining("No craft uses this file")]);
  });

  test("the server is not told of such a text, and of others it is", async () => {
    const next = vi.fn(async () => undefined);
    const document = (address: string) => ({ uri: Uri.parse(address) }) as never;
    await leaveOutShown.didOpen(document("fettle-effective:/jug?x"), next);
    await leaveOutShown.didChange({ document: document("fettle-effective:/jug?x") }, next);
    expect(next).not.toHaveBeenCalled();
    await leaveOutShown.didOpen(document(uri("jug")), next);
    expect(next).toHaveBeenCalledTimes(1);
  });
});

describe("a lens leads to", () => {
  const panel = { show: vi.fn(), showPositions: vi.fn(), drawnCraft: () => asUri(uri("mug")) };
  const effective = { show: vi.fn() };
  const lenses = (tree: WorkspaceTree | null = TREE) =>
    lensCommands({ panel, effective, scripts: { list: async () => tree } });

  test("a drawing, the switches in positions, the effective craft", async () => {
    const jug = asUri(uri("jug"));
    await lenses().follow({ uri: jug, action: { kind: "view", view: "numbers" } });
    await lenses().follow({ uri: jug, action: { kind: "positions", positions: { TL: "down" } } });
    await lenses().follow({ uri: jug, action: { kind: "effective" } });
    expect(panel.show.mock.calls).toEqual([["numbers", jug]]);
    expect(panel.showPositions.mock.calls).toEqual([[{ uri: jug, positions: { TL: "down" } }]]);
    expect(effective.show.mock.calls).toEqual([[jug, uri("mug")]]);
  });

  test("the craft that use a file, listed with what is known of each", async () => {
    await lenses().follow({ uri: asUri(uri("habits")), action: { kind: "users" } });
    expect(asked.items).toMatchObject([{ label: "Jug", description: "Wheel · 1 error", detail: "jug.fettle" }]);
  });

  test.each([
    ["kiln", "No craft uses this file yet: name it in one with “use”."],
    ["jug", "A craft is used by no other file: layers and handsets are."],
    ["nowhere", "Open a layer or a handset first."],
  ])("words where there are none: %s", async (name, words) => {
    await lenses().showUsers(Uri.parse(uri(name)) as never);
    expect(asked.told).toEqual([words]);
    expect(asked.items).toEqual([]);
  });

  test("a first craft, where the workspace has none and no script is open", async () => {
    const active = window.activeTextEditor;
    Object.assign(window, { activeTextEditor: undefined, visibleTextEditors: [] });
    asked.answer = "New Craft…";
    await lenses({ files: [] }).showEffective();
    Object.assign(window, { activeTextEditor: active, visibleTextEditors: [active] });
    expect(asked.ran).toEqual([["fettle.newCraft"]]);
  });
});
