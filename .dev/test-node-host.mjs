// npm run test:node-host: tests the packaged extension in an editor whose extension host runs on Node.
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { findChromium, howToGetChromium } from "./chromium.mjs";
import { installExtension, setUpNodeHost, startNodeHost } from "./node-host.mjs";
import { packageExtension } from "./package.mjs";
import { fail, inProject, runTool, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

await setUp();
if (!findChromium()) fail(`This needs a browser, and there is no Chromium here. ${howToGetChromium}`);
await setUpNodeHost();
const vsix = await packageExtension();
installExtension(vsix);
const folder = mkdtempSync(inProject(".cache/workspace-"));
cpSync(inProject("examples"), folder, { recursive: true });
say("Starting the editor …");
const host = await startNodeHost(folder, await freePort());
const args = ["run", "--project", "node-host"];
process.exitCode = await runTool("vitest/vitest.mjs", args, { FETTLE_NODE_HOST: host.url });
host.close();
rmSync(folder, { recursive: true, force: true });
say(process.exitCode === 0 ? "The packaged extension works on Node." : "The packaged extension failed on Node.");

/** @returns {Promise<number>} */
function freePort() {
  const server = createServer();
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(0, "localhost", () => {
      const address = server.address();
      server.close(() => resolve(typeof address === "object" && address ? address.port : 0));
    });
  });
}
