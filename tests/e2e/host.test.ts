/** The suite of the extension host, in the editor that runs in the browser. */
import { expect, test } from "vitest";
import { hostSuites } from "../../.dev/e2e-build.mjs";
import { inProject } from "../../.dev/say.mjs";
import { serveEditor } from "../../.dev/web-host.mjs";
import { newPage } from "./browser.ts";

test("everything that the desktop's suite asks for holds in the browser", async () => {
  const host = await serveEditor({ folder: inProject("examples"), tests: hostSuites.web });
  const page = await newPage();
  const said: string[] = [];
  try {
    // The workbench reports what the extension host says, and how the suite ended, to these two.
    await page.exposeFunction("codeAutomationLog", (_level: string, values: unknown[]) => {
      said.push(values.join(" "));
    });
    const ended = new Promise<number>((resolve) => page.exposeFunction("codeAutomationExit", resolve));
    await page.goto(host.url);
    const status = await Promise.race([ended, page.waitForTimeout(55_000).then(() => "no end in 55 s")]);
    expect(status, said.join("\n")).toBe(0);
    expect(said.filter((line) => line.includes("passed:")).length).toBeGreaterThanOrEqual(6);
  } finally {
    await page.close();
    await host.close();
  }
});
