// npm start [-- --check | --port N]: the findings of the demo workspace, then the demo in the editor.
import { existsSync, readFileSync } from "node:fs";
import { build } from "./build.mjs";
import { firstCraft } from "./demo.mjs";
import { fail, inProject, runProgram, say } from "./say.mjs";
import { setUp } from "./setup.mjs";
import { serveEditor } from "./web-host.mjs";

const usualPort = 7350;
const port = portOf(process.argv);

await setUp();
await build("plain");
if (!existsSync(inProject("dist/fettle.js"))) fail("dist/fettle.js was not built: see the messages above.");
if (!existsSync(inProject("examples"))) fail("The demo workspace, examples/, is missing: restore it from git.");
say("The findings of the demo workspace (fettle check examples):");
const status = await runProgram(process.execPath, [inProject("dist/fettle.js"), "check", "examples"]);
if (status > 1) fail("The demo workspace could not be checked: see the message above.");
if (!process.argv.includes("--check")) await serve();

async function serve() {
  say("Starting the editor in which the demo workspace is open …");
  const open = firstCraft(inProject("examples"));
  const view = panelView();
  const what = {
    folder: inProject("examples"),
    open: open ? [open] : [],
    views: view ? [view] : [],
  };
  const { url } = await serveAt(what, port ?? usualPort);
  say(`Open ${url} in a browser. What you change there stays in the browser. Ctrl+C ends it.`);
}

/** Serves at a port. If it is in use, a port given by the user is an error; instead of the usual one a free one is taken. */
async function serveAt(/** @type {import("./web-host.mjs").Served} */ what, /** @type {number} */ requestedPort) {
  try {
    return await serveEditor({ ...what, port: requestedPort });
  } catch (error) {
    if (!(error instanceof Error && "code" in error && error.code === "EADDRINUSE")) throw error;
    if (port !== null)
      fail(`Port ${requestedPort} is in use. Choose another: npm start -- --port ${requestedPort + 1}`);
    say(`Port ${requestedPort} is in use; taking a free one.`);
    return serveEditor({ ...what, port: 0 });
  }
}

/** The id of the extension's panel, from its manifest. */
function panelView() {
  const { contributes } = JSON.parse(readFileSync(inProject("package.json"), "utf8"));
  /** @type {{ id: string, type?: string }[]} */
  const views = Object.values(contributes?.views ?? {}).flat();
  return views.find((view) => view.type === "webview")?.id ?? null;
}

/** @returns {number | null} */
function portOf(/** @type {readonly string[]} */ args) {
  const at = args.indexOf("--port");
  if (at < 0) return null;
  const number = Number(args[at + 1]);
  if (Number.isInteger(number) && number > 0 && number < 65_536) return number;
  fail("--port needs a number from 1 to 65535, as in: npm start -- --port 7351");
}
