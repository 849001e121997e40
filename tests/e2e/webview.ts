/** The pages inside the editor's window. */
import type { FrameLocator, Locator, Page } from "playwright-core";

/** Where a webview stands: the one that is shown; of several, the one in the side bar, or in a tab. */
export type Place = "only" | "side" | "tab";

/** Webviews stand in the order in which they were first opened: the side bar's before the tab beside the script. */
export function frameIn(page: Page, place: Place): Locator {
  const frames = page.locator("iframe.webview.ready");
  return { only: frames, side: frames.first(), tab: frames.last() }[place];
}

/** The page inside a webview. */
export function webview(page: Page, place: Place = "only"): FrameLocator {
  return frameIn(page, place).contentFrame().frameLocator("#active-frame");
}

/** Whether what is pressed goes to the page inside a webview. */
export function hasKeyboard(page: Page, place: Place = "only"): Promise<boolean> {
  return webview(page, place)
    .locator("body")
    .evaluate(({ ownerDocument }) => ownerDocument.hasFocus());
}
