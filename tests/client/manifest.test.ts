/** What the manifest promises is there, and what the extension asks of an editor is promised: it is started in a fake one. */
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test, vi } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { PRACTISED } from "../../client/src/practice-script.ts";
import { ADOPTED_CONTEXT } from "../../client/src/review-tab.ts";
import { ACCEPT_COMMAND } from "../../shared/protocol/accept.ts";
import { LENS_COMMAND } from "../../shared/protocol/lenses.ts";
import { ORIGIN_COMMAND } from "../../shared/protocol/origin.ts";
import { LINE_COMMAND } from "../../shared/protocol/pages.ts";
import { OVERLAY_COMMAND, POSITIONS_COMMAND } from "../../shared/protocol/panel.ts";
import { SERVER_SETTINGS, SETTINGS_SECTION } from "../../shared/protocol/settings.ts";

vi.mock("vscode", () => import("./fake-editor.ts"));
vi.mock("vscode-languageclient", () => ({ DidChangeTextDocumentNotification: { type: "textDocument/didChange" } }));

const manifest = JSON.parse(readFileSync(inProject("package.json"), "utf8"));
const { contributes } = manifest;
const promised: string[] = contributes.commands.map(({ command }: { command: string }) => command);

const { asked, extension, fakeWebview } = await import("./fake-editor.ts");
const { activateWith } = await import("../../client/src/extension.ts");
const client = {
  start: async () => undefined,
  sendRequest: async () => null,
  onRequest: () => undefined,
  onNotification: () => undefined,
};
type Activate = Parameters<typeof activateWith>;
const context = { extensionUri: extension, subscriptions: [] };
await activateWith(context as unknown as Activate[0], (() => client) as unknown as Activate[1]);
// Where the panel is to open is asked when it is to be opened.
await asked.handlers.get("fettle.showPanel")?.();

test("every file that the manifest names is there", () => {
  const names: string[] = [];
  JSON.stringify(contributes, (_, value) => {
    if (typeof value === "string" && /^(\.\/)?(client|grammars)\//.test(value)) names.push(value);
    return value;
  });
  names.push(manifest.icon);
  expect(names.length).toBeGreaterThan(5);
  expect(names.filter((name) => !existsSync(inProject(name)))).toEqual([]);
});

test("every command of the manifest is registered, and no other but those of findings, hovers, lenses and comparisons", () => {
  expect(asked.commands.toSorted()).toEqual(
    [
      ...promised,
      ACCEPT_COMMAND,
      LINE_COMMAND,
      ORIGIN_COMMAND,
      POSITIONS_COMMAND,
      OVERLAY_COMMAND,
      LENS_COMMAND,
    ].sort(),
  );
});

test("every command in a menu is one of the manifest", () => {
  const entries = (Object.values(contributes.menus) as { command: string }[][]).flat();
  expect(entries.length).toBeGreaterThan(3);
  expect(entries.map(({ command }) => command).filter((command) => !promised.includes(command))).toEqual([]);
});

/** A title wider than the column of steps is cut, and the walkthrough's own words after their second line. */
const ROOM = { title: 28, description: 80 };

describe("the walkthrough", () => {
  const walkthroughs: {
    description: string;
    steps: { title: string; description: string; completionEvents: string[] }[];
  }[] = contributes.walkthroughs;
  const steps = walkthroughs.flatMap((each) => each.steps);
  const waitedFor = (kind: string) =>
    steps.flatMap(({ completionEvents }) =>
      completionEvents.filter((event) => event.startsWith(kind)).map((event) => event.slice(kind.length)),
    );

  test("starts and waits for commands of the manifest", () => {
    const started = steps.flatMap(({ description }) =>
      [...description.matchAll(/\(command:([\w.]+)/g)].map(([, command]) => command!),
    );
    expect(started.length).toBe(steps.length);
    expect([...started, ...waitedFor("onCommand:")].filter((command) => !promised.includes(command))).toEqual([]);
  });

  test("tells the commands that ask that it has the keyboard for a while", () => {
    const text = steps.map(({ description }) => description).join("\n");
    for (const command of ["fettle.newHandset", "fettle.newCraft"])
      expect(text).toContain(`(command:${command}?%22walkthrough%22)`);
  });

  test("waits for contexts that the extension sets", () => {
    const set = [
      ...Object.keys(PRACTISED).map((step) => `fettle.mended.${step}`),
      ...["handset", "craft"].map((what) => `fettle.made.${what}`),
      ADOPTED_CONTEXT,
    ];
    expect(waitedFor("onContext:").toSorted()).toEqual(set.toSorted());
  });

  test("has titles and words that are read whole", () => {
    for (const { description } of walkthroughs) expect(description.length).toBeLessThanOrEqual(ROOM.description);
    expect(steps.map(({ title }) => title).filter(({ length }) => length > ROOM.title)).toEqual([]);
  });
});

test("every setting that is read is in the manifest, with the same default, and no other", () => {
  const properties = Object.entries(contributes.configuration.properties as Record<string, { default: unknown }>);
  const ofServer = Object.entries(SERVER_SETTINGS).map(([name, usual]) => [`${SETTINGS_SECTION}.${name}`, usual]);
  expect({ ...Object.fromEntries(asked.settings), ...Object.fromEntries(ofServer) }).toEqual(
    Object.fromEntries(properties.map(([name, property]) => [name, property.default])),
  );
});

test("the editor of page addresses is provided for the one of the manifest", () => {
  const types = contributes.customEditors.map(({ viewType }: { viewType: string }) => viewType);
  expect(asked.customEditors).toEqual(types);
});

test("the panel and the tree are provided for the views of the manifest", () => {
  const views = Object.values(contributes.views).flat() as { id: string; type?: string }[];
  expect(views.map(({ id, type }) => [id, type])).toEqual([
    ...[...asked.trees.keys()].map((id) => [id, undefined]),
    ...[...asked.views.keys()].map((id) => [id, "webview"]),
  ]);
});

test("every key leads to a command of the manifest, only while a script is in front, and stands in the readme", () => {
  const keys = contributes.keybindings as { command: string; key: string; mac: string; when: string }[];
  const readme = readFileSync(inProject("README.md"), "utf8");
  expect(keys.length).toBeGreaterThan(4);
  for (const { command, key, mac, when } of keys) {
    expect(promised).toContain(command);
    expect(when).toContain("resourceLangId == fettle");
    expect(mac).toBe(key.replace("ctrl", "cmd"));
    expect(readme).toContain(`\`Ctrl+K ${key.at(-1)!.toUpperCase()}\``);
  }
  expect(new Set(keys.map(({ key }) => key)).size).toBe(keys.length);
});

test("what an empty tree offers is a command of the manifest or of every editor", () => {
  const texts = (contributes.viewsWelcome as { contents: string }[]).map(({ contents }) => contents).join("\n");
  const offered = [...texts.matchAll(/\(command:([\w.]+)/g)].map(([, command]) => command!);
  expect(offered.length).toBeGreaterThan(4);
  const ofEveryEditor = ["vscode.openFolder", "workbench.action.openWalkthrough"];
  expect(offered.filter((command) => ![...promised, ...ofEveryEditor].includes(command))).toEqual([]);
});

test("a tab of the panel, or of names, wakes the extension when the editor opens with it", () => {
  expect([...asked.tabs.keys()].toSorted()).toEqual([
    "fettle.comparison",
    "fettle.fleet",
    "fettle.fleetChange",
    "fettle.page",
    "fettle.review",
    "fettle.tab",
  ]);
  for (const type of asked.tabs.keys()) expect(manifest.activationEvents).toContain(`onWebviewPanel:${type}`);
});

describe("the panel's page lets in its own script and styles and nothing else", () => {
  const webview = fakeWebview();
  const shell = { webview, onDidChangeVisibility() {}, onDidChangeViewState() {}, onDidDispose() {} };

  test.each(["side", "tab", "page", "review"])("at the %s", async (place) => {
    webview.html = "";
    if (place === "side") for (const provider of asked.views.values()) provider.resolveWebviewView(shell);
    else await asked.tabs.get(`fettle.${place}`)?.deserializeWebviewPanel(shell, { about: {} });
    const { html, options } = webview;
    expect(html).toContain(`data-place="${place}"`);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1];
    expect(policy?.split("; ").sort()).toEqual([
      "base-uri 'none'",
      "default-src 'none'",
      "form-action 'none'",
      "script-src https://pages.test",
      "style-src https://pages.test",
    ]);
    const [, ...tags] = html.split("<");
    expect(tags.filter((tag) => /^(script|style|link|img|iframe)/.test(tag)).map((tag) => tag.trim())).toEqual([
      'link rel="stylesheet" href="https://pages.test/extension/dist/panel/panel.css" />',
      'script src="https://pages.test/extension/dist/panel/panel.js">',
    ]);
    expect(html).not.toMatch(/\s(style|on[a-z]+)=/);
    expect(options).toEqual({
      enableScripts: true,
      localResourceRoots: [expect.objectContaining({ path: "/extension/dist/panel" })],
    });
  });
});
