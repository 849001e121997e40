/** Where a test fails, what it had before it is kept: .cache/screenshots/failed-TITLE.png. */
import { afterEach } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { openPages } from "./browser.ts";

afterEach(async ({ task }) => {
  if (task.result?.state !== "fail") return;
  const title = task.name.replaceAll(/\W+/g, "-").slice(0, 60);
  // The last page that was opened is the one in front.
  await (await openPages()).at(-1)?.screenshot({ path: inProject(`.cache/screenshots/failed-${title}.png`) });
});
