/** The packaged extension on Node, driven in the editor that `npm run test:node-host` started. */
import { expect, test } from "vitest";
import { launchBrowser } from "../../.dev/browser.mjs";
import { firstCraft } from "../../.dev/demo.mjs";
import { inProject } from "../../.dev/say.mjs";
import { goTo, openFile, runCommand, type, undo } from "../e2e/editor.ts";
import { waitForNoProblem, waitForProblem } from "../e2e/language.ts";
import { screenshot, webview } from "../e2e/looks.ts";

const url = process.env.FETTLE_NODE_HOST ?? "";

test("a script is opened, checked as it is typed, corrected, and drawn in the panel", async () => {
  const { page, close } = await launchBrowser();
  try {
    await page.goto(url);
    await page.locator(".monaco-workbench .part.statusbar").waitFor();
    const craft = firstCraft(inProject("examples"));
    expect(craft).not.toBeNull();
    await openFile(page, craft ?? "");
    await goTo(page, 1);
    await page.keyboard.press("End");
    await type(page, "\nkettle");
    await waitForProblem(page, "kettle");
    await screenshot(page, "node-host");
    await goTo(page, 2);
    await undo(page);
    await waitForNoProblem(page, "kettle");
    await runCommand(page, "Fettle: Show Panel");
    await webview(page).getByRole("heading", { level: 1 }).waitFor();
    await screenshot(page, "node-host-panel");
  } finally {
    await close();
  }
});
