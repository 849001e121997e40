import { afterAll, beforeAll, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { type Editor, runCommand, startEditor } from "./editor.ts";
let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ folder: inProject("tests/fixtures/shed"), views: ["fettle.panel"] });
});
afterAll(() => editor?.close());
test("dbg", async () => {
  const { page } = editor;
  page.on("console", (m) => console.log("CONSOLE", m.text().slice(0, 400)));
  page.on("pageerror", (m) => console.log("PAGEERROR", String(m).slice(0, 400)));
  await runCommand(page, "Fettle: New Handset…");
  await page.waitForTimeout(6000);
  await page.screenshot({ path: ".cache/dbg.png" });
});
