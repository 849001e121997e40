/** A craft shared in the real editor: what is taken out is shown, the script opens beside, and offers its review. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { askBy, type Editor, quickInput, startEditor, waitForLine } from "../editor.ts";
import { lens } from "../language.ts";
import { screenshot, webview } from "../looks.ts";

const bowl = `craft "Bowl"

use "../handsets/wheel.fettle"

frame
  owner  "Maud Potter, the shed"
  # found it? maud@pottery.example
  motors  4

modes
  # Bram's idea
  arm  when TL is down
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("tests/fixtures/shed"),
    files: { "craft/bowl.fettle": bowl },
    open: ["craft/bowl.fettle"],
  });
});
afterAll(() => editor?.close());

test("the list leads to what is private, and the script that opens says nothing of it and offers its review", async () => {
  const { page } = editor;
  await waitForLine(page, 'craft "Bowl"');
  const list = page.locator(".quick-input-widget");
  await askBy(page, "Fettle: Share…", list.getByText("Share “Bowl” – 2 taken out"));
  const option = (name: RegExp) => list.getByRole("option", { name });
  await option(/^frame\.owner/).waitFor();
  await option(/^note.*It holds an e-mail address/).waitFor();
  await screenshot(page, "share");
  await option(/^Open the script/).click();
  await waitForLine(page, /^#\sShared\swith\sFettle/);
  await waitForLine(page, "  # found it? (e-mail address taken out)");
  const offer = lens(page, "Review for a craft");
  await offer.waitFor();
  await screenshot(page, "share-opened");
  expect(await page.locator(".editor-group-container.active .view-lines").textContent()).not.toMatch(/Maud|pottery/);

  await offer.click();
  await quickInput(page).fill("Bowl");
  await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: "Bowl" }).waitFor();
  await page.keyboard.press("Enter");
  const review = webview(page, "tab");
  await review.getByRole("heading", { name: "held against Bowl" }).waitFor();
  // All that it says is the same on the craft that it came from: sharing took away and changed nothing.
  await review.getByText("The same here: 6").waitFor();
  expect(await review.getByRole("checkbox").count()).toBe(0);
  await screenshot(page, "share-reviewed");
});
