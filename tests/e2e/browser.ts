/** The one browser of all suites: it starts when one first asks, and ends with the process that runs them. */
import type { BrowserContext, Page } from "playwright-core";
import { launchBrowser } from "../../.dev/browser.mjs";
import { e2eFolder } from "../../.dev/e2e-build.mjs";

const USUAL_SIZE = { width: 1440, height: 900 };
let launched: ReturnType<typeof launchBrowser> | undefined;

/** The pages that are open now, in the order in which they were opened within each context. */
export async function openPages(): Promise<readonly Page[]> {
  const contexts = (await launched)?.page.context().browser()?.contexts() ?? [];
  return contexts.flatMap((context) => context.pages());
}

/** Opens a page beside those of the other suites. */
export async function newPage(size = USUAL_SIZE): Promise<Page> {
  const another = await (await usualContext()).newPage();
  await another.setViewportSize(size);
  return another;
}

/**
 * Opens a page in a context of its own, which is closed with it. What Playwright does to a whole context reaches no
 * other suite then: a clock that is installed for one page of a context runs in all others too, in those that are open
 * and in those that come.
 */
export async function newPageApart(size = USUAL_SIZE): Promise<Page> {
  const context = await (await usualContext()).browser()?.newContext({ viewport: size });
  if (!context) throw new Error("The browser takes no further context.");
  const page = await context.newPage();
  page.once("close", () => void context.close());
  return page;
}

async function usualContext(): Promise<BrowserContext> {
  launched ??= launchBrowser(undefined, e2eFolder);
  return (await launched).page.context();
}
