/** The one browser of all suites: it starts when one first asks, and ends with the process that runs them. */
import type { Page } from "playwright-core";
import { launchBrowser } from "../../.dev/browser.mjs";
import { e2eFolder } from "../../.dev/e2e-build.mjs";

let launched: ReturnType<typeof launchBrowser> | undefined;

/** The pages that are open now. */
export async function openPages(): Promise<readonly Page[]> {
  return (await launched)?.page.context().pages() ?? [];
}

/** Opens a page of its own. */
export async function newPage(size = { width: 1440, height: 900 }): Promise<Page> {
  launched ??= launchBrowser(undefined, e2eFolder);
  const { page } = await launched;
  const another = await page.context().newPage();
  await another.setViewportSize(size);
  return another;
}
