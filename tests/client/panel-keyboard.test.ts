/** Whether a page of the panel takes the keyboard once it is there: a view that was closed or hidden, and what came between. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";

const editor = await vi.hoisted(async () => await import("./fake-editor.ts"));
const selection = new editor.EventEmitter<{ kind: number | undefined }>();
vi.mock("vscode", () => ({
  ...editor,
  window: { ...editor.window, onDidChangeTextEditorSelection: selection.event },
}));
const { panelWebviews, viewId } = await import("../../client/src/panel-webviews.ts");

const FOCUS = `${viewId}.focus`;
const MOUSE = 2;
const page = panelWebviews(
  editor.extension as never,
  () => {},
  () => {},
).chosen();
const messages = new editor.EventEmitter<{ kind: string }>();
const view = {
  webview: { ...editor.fakeWebview(), onDidReceiveMessage: messages.event },
  visible: false,
  onDidChangeVisibility: () => {},
  onDidDispose: () => {},
};
editor.asked.views.get(viewId)!.resolveWebviewView(view);

beforeEach(() => {
  vi.useFakeTimers();
  view.visible = false;
  editor.asked.ran.length = 0;
});
afterEach(() => {
  vi.useRealTimers();
});

/** The page has loaded; gives whether it then got the keyboard, beyond being shown. */
async function takesKeyboard(): Promise<boolean> {
  messages.fire({ kind: "ready" });
  page.keyboard.answered(true);
  await vi.advanceTimersByTimeAsync(0);
  return editor.asked.ran.some(([name, given]) => name === "runCommands" && JSON.stringify(given).includes(FOCUS));
}

test("a page that was hidden takes it once it is there, and only once", async () => {
  await page.focus();
  expect(await takesKeyboard()).toBe(true);
  editor.asked.ran.length = 0;
  expect(await takesKeyboard()).toBe(false);
});

test("a page in view has been given it by the editor", async () => {
  view.visible = true;
  await page.focus();
  expect(editor.asked.ran).toEqual([[FOCUS, { preserveFocus: false }]]);
  expect(await takesKeyboard()).toBe(false);
});

test("a page that is shown beside the work leaves it where it is", async () => {
  await page.focus();
  await page.reveal();
  expect(await takesKeyboard()).toBe(false);
});

test("who moves the cursor meanwhile keeps it; a cursor that a program moves is nobody", async () => {
  await page.focus();
  selection.fire({ kind: undefined });
  expect(await takesKeyboard()).toBe(true);
  editor.asked.ran.length = 0;
  await page.focus();
  selection.fire({ kind: MOUSE });
  expect(await takesKeyboard()).toBe(false);
});

test("a page that comes late does not take it from what was begun since", async () => {
  await page.focus();
  await vi.advanceTimersByTimeAsync(1_900);
  expect(await takesKeyboard()).toBe(true);
  editor.asked.ran.length = 0;
  await page.focus();
  await vi.advanceTimersByTimeAsync(2_000);
  expect(await takesKeyboard()).toBe(false);
});
