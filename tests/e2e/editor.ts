/**
 * The real editor with the extension, in Chromium: started, driven as a person would, looked at.
 *
 *     let editor: Editor;
 *     beforeAll(async () => {
 *       editor = await startEditor({ folder: inProject("examples"), open: ["craft/jug.fettle"] });
 *     });
 *     afterAll(() => editor?.close());
 *
 * The files are the suite's own: a test may change what it likes, and no other suite sees it. To start an
 * editor takes seconds, so the suites of one folder (examples, shed, files) take over each other's window
 * (start.ts tells how). Each runs by itself as well, and in any order:
 * `FETTLE_SHUFFLE=1 npx vitest run --project e2e`.
 *
 * - here: `startEditor`, `reloadWindow`, `openFile`, `openInFirstGroup`, `goTo`, `type`, `undo`, `runCommand` (by the
 *   palette's title), `askBy` and `narrowListOf` (commands that ask), `pressFor`, `visibleLines`, `waitForLine`, `cursor`
 * - language.ts, what the server says: `problems`, `waitForProblem`, `waitForNoProblem`, `hover`,
 *   `completions`, `complete`, `quickFixes`, `applyQuickFix`, `lens`
 * - looks.ts: `webview` (the page inside the panel, to be used as any Playwright locator),
 *   `useTheme`, `themes`, `screenshot` (into .cache/screenshots)
 *
 * The editor answers in its own time: await a helper that waits, or `expect.poll(() => …)`, and
 * never compare at once what was only just typed. Lines and columns count from 1, as shown.
 */
import type { Locator, Page } from "playwright-core";

export { type Editor, startEditor } from "./start.ts";

/**
 * Loads the window anew, as the editor's own command does: it keeps first what its parts have to keep. A page that
 * the browser loads anew has lost what the last five seconds brought.
 */
export async function reloadWindow(page: Page): Promise<void> {
  const anew = page.waitForEvent("domcontentloaded");
  await runCommand(page, "Developer: Reload Window");
  await anew;
  await page.locator(".monaco-workbench .part.statusbar").waitFor();
}

/** Opens a file of the workspace in the group in front, by its name or path, with the cursor at a line and column from 1. */
export async function openFile(page: Page, path: string, line = 1, column = 1): Promise<void> {
  const name = path.slice(path.lastIndexOf("/") + 1);
  await again(async (waiting) => {
    await page.keyboard.press("Control+p");
    await quickInput(page).fill(path, waiting);
    // The list answers as it searches: the row must be that file's before Enter means it.
    await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: name }).waitFor(waiting);
    await page.keyboard.press("Enter");
    await page.locator(`.editor-group-container.active .tab.active[data-resource-name="${name}"]`).waitFor(waiting);
    // Of a page that took the keyboard meanwhile no line can be asked for: the file is then opened again.
    await tryGoTo(page, line, column, waiting);
  });
}

/** Opens a file in the first group of editors, which shows a text, whatever had the keyboard. */
export async function openInFirstGroup(page: Page, path: string, line = 1, column = 1): Promise<void> {
  // Until the group has it, it may still take the keyboard from the prompt, or the file opens in another one.
  const first = page.locator(".editor-group-container").first().and(page.locator(".active"));
  await pressFor(page, ["Control+1"], first.locator(".monaco-editor.focused"));
  await openFile(page, path, line, column);
}

interface Waiting {
  readonly timeout?: number;
}

/**
 * Does it again, as a person would, where something took the keyboard just then, or where the palette did not list a
 * command yet: it lists what it knows as it opens.
 */
export async function again(attempt: (waiting: Waiting) => Promise<void>): Promise<void> {
  for (let triesLeft = 8; triesLeft > 0; triesLeft--) {
    const done = await attempt({ timeout: 2_500 }).then(
      () => true,
      () => false,
    );
    if (done) return;
  }
  await attempt({});
}

/**
 * Puts the cursor at a line and column, both from 1, with the text focused. It is there once the status bar says so:
 * a file that was opened a moment ago may still show its beginning, and the prompt may close before it was heard.
 */
export async function goTo(page: Page, line: number, column = 1): Promise<void> {
  await again((waiting) => tryGoTo(page, line, column, waiting));
}

async function tryGoTo(page: Page, line: number, column: number, waiting: Waiting): Promise<void> {
  await page.keyboard.press("Control+g");
  await quickInput(page).fill(`:${line}:${column}`, waiting);
  // In the prompt and nowhere else: with the prompt gone the script would get a line.
  await quickInput(page).press("Enter", waiting);
  await quickInput(page).waitFor({ state: "hidden", ...waiting });
  await page.locator(".monaco-editor.focused").first().waitFor(waiting);
  const there = new RegExp(`^Ln ${line}, Col `);
  await page.locator("#status\\.editor\\.selection", { hasText: there }).waitFor(waiting);
}

/** Runs a command by its whole title as the palette shows it, such as `View: Show Explorer`. */
export async function runCommand(page: Page, title: string): Promise<void> {
  // A command of a longer title may stand first, and a shortcut may follow the title.
  const label = new RegExp(`^${escaped(title)}(,|$)`);
  const row = page.locator(".quick-input-list").getByRole("option", { name: label }).first();
  await again(async (waiting) => {
    // The palette lists what it knows as it opens: one that was opened too early is closed first.
    if (await quickInput(page).isVisible()) await page.keyboard.press("Escape");
    await page.keyboard.press("F1");
    await quickInput(page).fill(`>${title}`, waiting);
    await row.waitFor(waiting);
    // Where the editor is busy a press takes its time, and counts: given up, the command would be run twice.
    await row.click({ timeout: 10_000 });
  });
}

/**
 * Runs a command that asks, and waits for what shows that it does: the question's words, or a row of its list. A page
 * that was opened a moment ago may still take the keyboard, at which a question closes: it is then asked again.
 */
export async function askBy(page: Page, title: string, asked: Locator): Promise<void> {
  await again(async (waiting) => {
    await runCommand(page, title);
    await asked.first().waitFor(waiting);
  });
}

/** Runs a command that asks with a list, and narrows the list to a row with that text, which Enter then takes. */
export async function narrowListOf(page: Page, title: string, text: string, row = text): Promise<void> {
  await again(async (waiting) => {
    await runCommand(page, title);
    await quickInput(page).fill(text, waiting);
    await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: row }).waitFor(waiting);
  });
}

/** Presses keys one after another until what they open is shown: once more where the editor was busy and lost them. */
export async function pressFor(page: Page, keys: readonly string[], opens: Locator): Promise<void> {
  await again(async (waiting) => {
    for (const each of keys) await page.keyboard.press(each);
    await opens.first().waitFor(waiting);
  });
}

/** Types into whatever has the focus, key by key. */
export async function type(page: Page, text: string, delayMs = 0): Promise<void> {
  await page.keyboard.type(text, { delay: delayMs });
}

/** Undoes one step of the focused editor. */
export async function undo(page: Page): Promise<void> {
  await page.keyboard.press("Control+z");
}

/** Waits until a line in view has that text in it, or fits the pattern (a space is `\s` there). */
export async function waitForLine(page: Page, text: string | RegExp): Promise<void> {
  const shown = typeof text === "string" ? text.replaceAll(" ", "\u00a0") : text;
  await activeLines(page).filter({ hasText: shown }).first().waitFor();
}

/** The lines of the active editor that are in view, from top to bottom, blanks as blanks, once they stand still. */
export async function visibleLines(page: Page): Promise<string[]> {
  let before: string[] | undefined;
  for (;;) {
    const now = await linesNow(page);
    if (now.join("\n") === before?.join("\n")) return now;
    before = now;
    await page.waitForTimeout(200);
  }
}

async function linesNow(page: Page): Promise<string[]> {
  const rows = await activeLines(page).evaluateAll((all) =>
    all.map((line) => ({ top: line.getBoundingClientRect().top, text: line.textContent ?? "" })),
  );
  return rows.sort((a, b) => a.top - b.top).map(({ text }) => text.replaceAll("\u00a0", " "));
}

/** Where the cursor is, from 1, as the status bar tells; null where it tells of no cursor or of a selection. */
export async function cursor(page: Page): Promise<{ line: number; column: number } | null> {
  const text = await page.locator("#status\\.editor\\.selection").textContent();
  const found = text?.match(/^Ln (\d+), Col (\d+)$/);
  return found ? { line: Number(found[1]), column: Number(found[2]) } : null;
}

/** The input of the palette and of every other quick pick. */
export function quickInput(page: Page) {
  return page.locator(".quick-input-widget .quick-input-box input");
}

function activeLines(page: Page) {
  return page.locator(".editor-group-container.active .view-lines .view-line");
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
