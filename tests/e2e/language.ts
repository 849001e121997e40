/** What the language server says, read where a person reads it. */
import type { Locator, Page } from "playwright-core";
import { again, goTo, pressFor, runCommand } from "./editor.ts";

/** The rows of the Problems list, files and findings, as a screen reader would say them. */
export async function problems(page: Page): Promise<string[]> {
  await showProblems(page);
  const rows = await problemRows(page).all();
  return Promise.all(rows.map(async (row) => (await row.getAttribute("aria-label")) ?? ""));
}

/** Waits until a row of the Problems list has that text. */
export async function waitForProblem(page: Page, text: string | RegExp): Promise<void> {
  await showProblems(page);
  await problemRows(page).filter({ hasText: text }).first().waitFor();
}

/** Waits until no row of the Problems list has that text. */
export async function waitForNoProblem(page: Page, text: string | RegExp): Promise<void> {
  await showProblems(page);
  await problemRows(page).filter({ hasText: text }).first().waitFor({ state: "detached" });
}

/** What shows the hover at the cursor. */
export const hoverKeys = ["Control+k", "Control+i"];

/** The text of the hover over a place; the focus is in the text again afterwards. */
export async function hover(page: Page, line: number, column: number): Promise<string> {
  const contents = page.locator(".monaco-resizable-hover:visible .hover-contents:not(:empty)");
  // Gone to anew each time, as keys that were lost once may have gone elsewhere.
  await again(async (waiting) => {
    await goTo(page, line, column);
    for (const each of hoverKeys) await page.keyboard.press(each);
    await contents.first().waitFor(waiting);
  });
  // A hover that still asks says so, and is replaced by the answer.
  await contents.filter({ hasText: /^Loading/ }).waitFor({ state: "detached" });
  const text = (await contents.allInnerTexts()).join("\n");
  await page.keyboard.press("Escape");
  return text;
}

/** Opens the completion list at the cursor and gives the labels in view, in their order. */
export async function completions(page: Page): Promise<string[]> {
  const rows = page.locator(".suggest-widget.visible .monaco-list-row");
  await pressFor(page, ["Control+Space"], rows);
  return rows.locator(".label-name").allInnerTexts();
}

/** Takes the completion of that label from the list at the cursor. */
export async function complete(page: Page, label: string): Promise<void> {
  await completions(page);
  const name = page.locator(".suggest-widget.visible .label-name").getByText(label, { exact: true });
  await name.first().click();
  await page.locator(".suggest-widget.visible").waitFor({ state: "detached" });
}

/** Opens the quick fixes at a place and gives their titles; the list stays open. */
export async function quickFixes(page: Page, line: number, column: number): Promise<string[]> {
  await goTo(page, line, column);
  const rows = page.locator(".action-widget .monaco-list-row.action");
  await pressFor(page, ["Control+."], rows);
  return rows.allInnerTexts();
}

/** Applies the quick fix of that title at a place, by keyboard: the list takes no press until a pointer has moved on it. */
export async function applyQuickFix(page: Page, line: number, column: number, title: string | RegExp): Promise<void> {
  const titles = await quickFixes(page, line, column);
  const place = titles.findIndex((each) => each.search(title) >= 0);
  if (place < 0) throw new Error(`${title} is not offered, but ${titles.join("; ")}`);
  for (let i = 0; i < place; i++) await page.keyboard.press("ArrowDown");
  await page.locator(".action-widget .monaco-list-row.action.focused", { hasText: title }).waitFor();
  await page.keyboard.press("Enter");
  await page.locator(".action-widget .monaco-list-row.action").first().waitFor({ state: "detached" });
}

/** The first of the words above lines that have that text, in the group of editors in front: another may hide its own. */
export function lens(page: Page, text: string | RegExp): Locator {
  return page.locator(".editor-group-container.active .codelens-decoration a").filter({ hasText: text }).first();
}

async function showProblems(page: Page): Promise<void> {
  await runCommand(page, "Problems: Focus on Problems View");
  await page.locator(".markers-panel").waitFor();
}

function problemRows(page: Page) {
  return page.locator(".markers-panel .monaco-list-row");
}
