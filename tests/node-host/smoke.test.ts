/** The packaged extension on Node, driven in the editor that `npm run test:node-host` started. */
import { expect, test } from "vitest";
import { launchBrowser } from "../../.dev/browser.mjs";
import { firstCraft } from "../../.dev/demo.mjs";
import { inProject } from "../../.dev/say.mjs";
import { goTo, openFile, type, undo } from "../e2e/editor.ts";
import { waitForNoProblem, waitForProblem } from "../e2e/language.ts";
import { screenshot } from "../e2e/looks.ts";

const url = process.env.FETTLE_NODE_HOST ?? "";

test("a script is opened, checked as one types, and mended", async () => {
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
  } finally {
    await close();
  }
});
